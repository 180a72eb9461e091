import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { findChromium } from '../helpers/chromium.ts';
import { openJobFor, openShopWindow, type ShopWindow } from './shopWindow.ts';

const choice = findChromium();

/** Coating was used twice while the shop kept none: one use is real, one was typed in the wrong job. */
describe.skipIf(choice === null)('what was used without an item', () => {
  let win: ShopWindow;

  beforeAll(async () => {
    if (!choice) return;
    win = await openShopWindow(choice);
    const jobId = await openJobFor(
      win.call,
      { name: 'Marit Vane' },
      { body: 'saloon', makeModel: 'Velloy Merrin' },
    );
    const stage = {
      ...{
        kind: 'protect',
        panels: ['bo'],
        estimatedMin: 60,
        p20Min: 45,
        p50Min: 60,
        p80Min: 80,
        p95Min: 110,
      },
      ...{ mu: 4.1, sigma: 0.35, dwellMin: 0, bayKinds: ['correction'], skill: 'protection', crew: 1 },
      ...{ splittable: true, materials: [], note: '' },
    };
    const set = { jobId, basis: 'agreed', stages: [stage] };
    const { stageIds } = await win.call<{ stageIds: string[] }>('bookings.setStages', set);
    const [stageId] = stageIds;
    for (const amount of [40_000, 15_000])
      await win.call('stock.drawForStage', { stageId, draws: [{ material: 'coating', amount }] });
    await win.call('stock.addItem', {
      ...{ name: 'Coating, 50 ml', material: 'coating', unit: 'ul', packSize: 50_000 },
      opening: { amount: 100_000, valueMinor: 20_000 },
    });
    await win.goTo('/stock');
  }, 90_000);
  afterAll(() => win?.close());

  it('is removed with a reason or taken from an item that came later', async () => {
    const { page } = win;
    await page.getByRole('button', { name: 'Settle what was used of coating' }).click();
    const wrong = page.getByLabel(/15 ml/);
    const right = page.getByLabel(/40 ml/);
    await right.focus();
    await page.keyboard.press('Space');
    expect(await wrong.isChecked()).toBe(true);
    await win.shot('stock-uses');
    await win.holds();
    const remove = page.getByRole('button', { name: 'Remove from the jobs' });
    expect(await remove.getAttribute('aria-disabled')).toBe('true');
    await page.getByLabel('Why it is wrong').fill('typed in the wrong job');
    await remove.click();
    await wrong.waitFor({ state: 'detached' });
    await right.focus();
    await page.keyboard.press('Space');
    await page.getByRole('button', { name: 'Take from this item' }).click();
    await page.getByText('Used, but not kept here').waitFor({ state: 'detached' });
    expect(win.rows('SELECT why FROM draw_settled ORDER BY why')).toEqual([
      { why: '' },
      { why: 'typed in the wrong job' },
    ]);
    expect(win.rows("SELECT qty FROM stock_movement WHERE reason = 'draw'")).toEqual([{ qty: -40_000 }]);
    expect(win.faults).toEqual([]);
  });
});
