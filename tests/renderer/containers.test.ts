import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { addLocalDays, localDayOf } from '#core/shared/time.ts';
import { planned } from '../helpers/bookedJob.ts';
import { findChromium } from '../helpers/chromium.ts';
import { openJobFor, openShopWindow, PLAIN, type ShopWindow } from './shopWindow.ts';

const choice = findChromium();
const LONG = 'Coating for paint and trim, two-part, keeps for two weeks at most once the lid was off';

/** Bottles that were opened: what is left by level and by weight, and what is past its life, by hand in the window. */
describe.skipIf(choice === null)('opened containers in the window', () => {
  let win: ShopWindow;
  let page: Page;
  let itemId = '';

  const press = (name: string): Promise<void> =>
    page.getByRole('button', { name, exact: true }).first().click();

  beforeAll(async () => {
    if (!choice) return;
    win = await openShopWindow(choice, PLAIN);
    page = win.page;
    const item = { name: LONG, unit: 'ul', packSize: 500_000, packWord: 'bottle', openedLifeDays: 14 };
    const opening = { amount: 1_200_000, valueMinor: 12_000 };
    const added = await win.call<{ itemId: string }>('stock.addItem', { ...item, opening });
    itemId = added.itemId;
    const opened = addLocalDays(localDayOf(Date.now(), 'Europe/Vienna'), -20);
    await win.call('stock.openContainer', { itemId, openedDay: opened, batch: 'K-7' });
  });
  afterAll(() => win?.close());

  it('writes down that one was opened, and reads its level in eighths', async () => {
    await win.goTo(`/stock/items/${itemId}`);
    await press('One was opened');
    await win.holds();
    await press('Write it down');
    await page.getByText('500 ml of 500 ml').nth(1).waitFor();
    await page.getByRole('button', { name: 'What is left' }).nth(1).click();
    await page.getByRole('radio', { name: '3', exact: true }).check({ force: true });
    await win.holds();
    await win.shot('container-level');
    await press('Save what is left');
    await page.getByText('188 ml of 500 ml').waitFor();
    expect(win.rows(`SELECT rest, how FROM container_reading WHERE how <> 'book' ORDER BY id`)).toMatchObject(
      [
        { rest: 500_000, how: 'opened' },
        { rest: 500_000, how: 'opened' },
        { rest: 187_500, how: 'level' },
      ],
    );
    expect(win.rows('SELECT qty FROM stock_level')).toEqual([{ qty: 887_500 }]);
  });

  it('weighs one: what it weighs, what it weighs empty, how heavy a litre is', async () => {
    await page.getByRole('button', { name: 'What is left' }).nth(1).click();
    await page.getByText('On the scales', { exact: true }).click();
    await page.getByLabel('With all that is in it', { exact: true }).fill('420');
    await page.getByLabel('Empty', { exact: true }).fill('90');
    await page.getByLabel(/^Density/).fill('1.1');
    await page.keyboard.press('Tab');
    await win.holds();
    await win.shot('container-weight');
    await press('Save what is left');
    await page.getByText('300 ml of 500 ml').waitFor();
    expect(win.rows('SELECT qty FROM stock_level')).toEqual([{ qty: 1_000_000 }]);
  });

  it('corrects what a job drew from the ledger, which keeps the first line', async () => {
    const car = { body: 'hatch', makeModel: 'Velloy Tern' };
    const jobId = await openJobFor(win.call, { name: 'Marit Vane' }, car);
    const stages = [planned('protect')];
    await win.call('bookings.setStages', { jobId, basis: 'agreed', stages });
    const job = await win.call<{ stages: readonly { id: string }[] }>('bookings.job', { jobId });
    const draws = [{ itemId, amount: 250_000 }];
    await win.call('stock.drawForStage', { stageId: job.stages[0]?.id, draws });
    await win.goTo(`/stock/items/${itemId}`);
    await page.getByRole('button', { name: /^Correct the draw of 250 ml/ }).click();
    await win.holds();
    await win.shot('stock-correct-draw');
    const field = page.getByLabel('Really used', { exact: true });
    await field.fill('25');
    await page.getByRole('button', { name: 'Correct the draw', exact: true }).click();
    await field.waitFor({ state: 'detached' });
    await page.getByText('now 25 ml').waitFor();
    expect(
      win.rows(`SELECT qty, corrects_id IS NULL AS first FROM stock_movement WHERE reason = 'draw'`),
    ).toEqual([
      { qty: -250_000, first: 1 },
      { qty: 225_000, first: 0 },
    ]);
    await page.getByRole('button', { name: /^Correct the draw of 25 ml/ }).click();
    await field.fill('0');
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Correct the draw', exact: true }).click();
    await page.getByText('now 0 ml').waitFor();
  });

  it('proposes what is past its life as waste, and writes it off with the reason', async () => {
    await win.goTo('/stock');
    const section = page.getByRole('region', { name: 'Past its life' });
    await section.getByText(/Throw away 500 ml/).waitFor();
    await win.holds();
    await win.shot('stock-past-life');
    await section.getByRole('button', { name: 'Thrown away, write it off' }).click();
    await section.waitFor({ state: 'detached' });
    expect(win.rows(`SELECT qty, note FROM stock_movement WHERE reason = 'waste'`)).toEqual([
      { qty: -500_000, note: expect.stringMatching(/^opened .+, kept to .+$/) },
    ]);
    expect(win.rows('SELECT closed_as FROM stock_container ORDER BY opened_day')).toEqual([
      { closed_as: 'thrown' },
      { closed_as: null },
    ]);
    expect(win.faults).toEqual([]);
  });
});
