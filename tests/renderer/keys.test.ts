import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { JobView } from '#core/shared/views/bookings.ts';
import { CAR_RECORD, planned } from '#tests/helpers/bookedJob.ts';
import { findChromium } from '../helpers/chromium.ts';
import { openJobFor, openShopWindow, type ShopWindow } from './shopWindow.ts';

const choice = findChromium();

/** What the keyboard does where a widget, a row or a whole screen could each answer the key. */
describe.skipIf(choice === null)('keys', () => {
  let win: ShopWindow;
  let jobId = '';

  beforeAll(async () => {
    if (!choice) return;
    win = await openShopWindow(choice);
    jobId = await openJobFor(
      win.call,
      { name: 'Marit Vane' },
      { body: 'saloon', makeModel: 'Velloy Merrin' },
    );
  });
  afterAll(() => win?.close());

  const focused = () =>
    win.page.evaluate(
      () => document.activeElement?.getAttribute('data-panel') ?? document.activeElement?.tagName,
    );

  it('walk round the car without writing down damage; Enter does', async () => {
    await win.goTo(`/jobs/${jobId}/arrive`);
    const front = win.page.locator('[data-panel="fb"]');
    await front.focus();
    for (const key of ['ArrowRight', 'ArrowRight']) await win.page.keyboard.press(key);
    expect(await focused()).toBe('lap');
    expect(await win.page.getByLabel(/^damage on/i).count()).toBe(0);
    await win.page.keyboard.press('Enter');
    await expect.poll(focused).toBe('INPUT');
    await win.page.keyboard.type('dent');
    expect(await win.page.locator('input:focus').inputValue()).toBe('dent');
  });

  it('walk round the car on the card without ticking panels off', async () => {
    await win.call('bookings.setStages', { jobId, basis: 'provisional', stages: [planned('clay')] });
    await win.call('bookings.arrive', { jobId, ...CAR_RECORD });
    const job = () => win.call<JobView>('bookings.job', { jobId });
    await win.call('bookings.startStage', { stageId: (await job()).stages[0]?.id });
    await win.goTo(`/jobs/${jobId}/card`);
    const done = async () => (await job()).stages[0]?.panelsDone.length;
    const [first] = (await job()).stages[0]?.panels ?? [];
    await win.page.locator(`[data-panel="${first}"][role="button"]`).focus();
    for (let n = 0; n < 4; n += 1) await win.page.keyboard.press('ArrowLeft');
    for (let n = 0; n < 4; n += 1) await win.page.keyboard.press('ArrowRight');
    expect(await focused()).toBe(first);
    await win.page.waitForTimeout(300);
    expect(await done()).toBe(0);
    await win.page.keyboard.press('Enter');
    await expect.poll(done).toBe(1);
  });

  it('take back what can’t be read with Esc, and its fault with it', async () => {
    await win.goTo('/shop');
    await win.page.getByRole('button', { name: /^Rules/ }).click();
    const thin = win.page.getByLabel('a panel is thin below');
    const before = await thin.inputValue();
    await thin.fill('thin');
    await thin.press('Enter');
    await win.page.locator('[data-unread]').waitFor();
    await thin.press('Escape');
    expect(await thin.inputValue()).toBe(before);
    expect(await win.page.locator('[data-unread]').count()).toBe(0);
  });

  it('press what stands in a row, and stay on the last row when there is no next', async () => {
    await win.goTo(`/jobs/${jobId}`);
    const row = win.page.getByRole('row', { name: /^clay/ });
    await row.focus();
    await win.page.keyboard.press(' ');
    const notes = win.page.getByRole('region', { name: 'Notes' });
    await notes.waitFor();
    await win.page.keyboard.press('ArrowDown');
    expect(await notes.count()).toBe(1);
    expect(win.faults).toEqual([]);
  });

  it('go back to what opened a form when the form closes, saved or left', async () => {
    const { itemId } = await win.call<{ itemId: string }>('stock.addItem', {
      ...{ name: 'Clay', unit: 'mg', packSize: 200_000 },
      opening: { amount: 400_000, valueMinor: 1960 },
    });
    await win.goTo(`/stock/items/${itemId}`);
    const said = () => win.page.evaluate(() => document.activeElement?.textContent);
    for (const answer of ['Write it off', 'Leave it']) {
      await win.page.getByRole('button', { name: 'Waste', exact: true }).focus();
      await win.page.keyboard.press('Enter');
      await win.page.keyboard.type('1');
      await win.page.getByLabel('Why').fill('dropped');
      await win.page.getByRole('button', { name: answer }).focus();
      await win.page.keyboard.press('Enter');
      await win.page.getByLabel('Why').waitFor({ state: 'detached' });
      await expect.poll(said).toBe('Waste');
    }
  });

  it('go back to what asked a question when the question goes away', async () => {
    await win.goTo(`/jobs/${jobId}`);
    const cancel = win.page.getByRole('button', { name: 'Stop half way' });
    await cancel.focus();
    await win.page.keyboard.press('Enter');
    await win.page.getByRole('alertdialog').waitFor();
    await win.page.keyboard.press('Escape');
    await win.page.getByRole('alertdialog').waitFor({ state: 'detached' });
    await expect
      .poll(() => win.page.evaluate(() => document.activeElement?.textContent))
      .toBe('Stop half way');
  });
});
