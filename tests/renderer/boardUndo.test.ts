import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { PromiseNow } from '#core/shared/views/bays.ts';
import { findChromium } from '../helpers/chromium.ts';
import { type BoardShop, openBoardShop, stage } from './boardShop.ts';

const choice = findChromium();
const CUT = [stage('cut', 'correction', 'correction', 240)];

/** What becomes of promises when somebody moves a block, and the way back, also after a walk to another place. */
describe.skipIf(choice === null)('after a change at the bay board', () => {
  let shop: BoardShop;
  let page: Page;
  let jobId = '';
  const starts = () =>
    shop.rows<{ s: number }>('SELECT start_min AS s FROM placement WHERE job_id = ?', jobId).map((r) => r.s);
  const button = (name: string | RegExp) => page.getByRole('button', { name });
  const undo = () => page.getByRole('button', { name: 'Undo', exact: true });
  const note = () => page.getByRole('status', { name: 'What became of promises' });
  const chance = async () =>
    Math.round(((await shop.call<PromiseNow[]>('bays.promises', { jobId }))[0]?.nowPpm ?? 0) / 10_000);
  const go = (to: string) =>
    page.evaluate((hash) => {
      location.hash = hash;
    }, to);
  const moveLater = async (quarters: number) => {
    await shop.workOf(jobId).focus();
    await page.keyboard.press('Enter');
    await page.getByText(/Arrows move by a quarter/).waitFor();
    for (let i = 0; i < quarters; i += 1) await page.keyboard.press('ArrowRight');
    await button('Put it here').waitFor();
    await page.keyboard.press('Enter');
    await expect.poll(() => button('Put back').count()).toBe(0);
  };

  beforeAll(async () => {
    if (!choice) return;
    shop = await openBoardShop(choice);
    page = shop.page;
    jobId = await shop.newJob('Marit Vane', 'Velloy Merrin', CUT);
    await shop.book(jobId);
    await go('/bays');
    await shop.workOf(jobId).waitFor();
  });
  afterAll(() => shop?.close());

  it('names a promise that is less sure than the shop promises, with what helps and the way back', async () => {
    const [before, was] = [starts(), await chance()];
    await moveLater(2);
    await expect.poll(starts).not.toEqual(before);
    const is = await chance();
    expect(is).toBeLessThan(80);
    await note().getByText(`${was} % → ${is} %`).waitFor();
    if (process.env['RAKELIGHT_PICTURE']) await page.screenshot({ path: process.env['RAKELIGHT_PICTURE'] });
    // What helps is worked out on the board, and pressing it is a change like any other.
    await page.keyboard.press('h');
    const way = note()
      .getByRole('button', { name: /takes the cut|The cut .*Bay/ })
      .first();
    await way.waitFor();
    const said = Number(/(\d+) %$/.exec((await way.textContent()) ?? '')?.[1]);
    await way.click();
    await expect.poll(chance).toBeGreaterThan(is);
    expect(Math.abs((await chance()) - said)).toBeLessThanOrEqual(5);
    await note().waitFor({ state: 'detached' });
    for (const there of [true, false]) {
      await page.keyboard.press('Control+z');
      if (there) await expect.poll(chance).toBe(is);
      await button('Redo').waitFor();
    }
    await expect.poll(starts).toEqual(before);
    expect(await note().count()).toBe(0);
  });

  it('says what became of promises when that is answered late, and nothing of a change that was taken back', async () => {
    const before = starts();
    // Answers about promises are held back until the test lets them go, however fast the machine is.
    const held: (() => void)[] = [];
    let [isShut, asked] = [true, 0];
    const letGo = async () => {
      isShut = false;
      for (const go of held.splice(0)) go();
      await expect.poll(() => asked).toBe(0);
      isShut = true;
    };
    await page.route('**/rpc', async (route) => {
      if (!route.request().postData()?.includes('bays.promises')) return route.continue();
      asked += 1;
      const response = await route.fetch();
      if (isShut) await new Promise<void>((go) => held.push(go));
      await route.fulfill({ response });
      asked -= 1;
    });
    await moveLater(2);
    await expect.poll(() => held.length).toBeGreaterThan(0);
    expect(await note().count()).toBe(0);
    await letGo();
    await note().getByText(/ % → /).waitFor();
    await page.keyboard.press('Control+z');
    // While the next answer is held: it is taken away, not overtaken.
    await note().waitFor({ state: 'detached' });
    await expect.poll(starts).toEqual(before);
    await expect.poll(() => held.length).toBeGreaterThan(0);
    await letGo();
    await moveLater(2);
    await page.keyboard.press('Control+z');
    await expect.poll(starts).toEqual(before);
    await expect.poll(() => held.length).toBeGreaterThan(0);
    await letGo();
    await page.waitForTimeout(300);
    expect(await note().count()).toBe(0);
    await page.unrouteAll({ behavior: 'wait' });
  });

  it('takes it back after a walk to the job and a reload, and says what it takes back', async () => {
    const before = starts();
    await moveLater(1);
    await expect.poll(starts).not.toEqual(before);
    const after = starts();
    await page.getByText('move of Marit Vane').waitFor();
    await go(`/jobs/${jobId}`);
    await page.getByRole('heading', { name: /Vane/ }).first().waitFor();
    await go('/bays');
    await shop.workOf(jobId).waitFor();
    await page.getByText('move of Marit Vane').waitFor();
    await undo().click();
    await expect.poll(starts).toEqual(before);
    // The file has it before the page does.
    await button('Redo').waitFor();
    await page.reload();
    await button('Redo').waitFor();
    await page.keyboard.press('Control+y');
    await expect.poll(starts).toEqual(after);
  });

  it('leaves alone what was planned again since, says so and offers it no more', async () => {
    const { planRevision } = await shop.board();
    const [own] = shop.rows<{ id: string; bay: string; s: number }>(
      'SELECT stage_id AS id, bay_id AS bay, start_min AS s FROM placement WHERE job_id = ?',
      jobId,
    );
    const wish = { jobId, stageIds: [own?.id], bayId: own?.bay, startMin: (own?.s ?? 0) + 30 };
    await shop.call('bays.move', { ...wish, planRevision, consent: true });
    const moved = starts();
    await page.reload();
    await shop.workOf(jobId).waitFor();
    await page.getByText('move of Marit Vane').waitFor();
    await page.keyboard.press('Control+z');
    await page.getByText(/planned again since then/).waitFor();
    expect(starts()).toEqual(moved);
    await page.getByText('move of Marit Vane').waitFor({ state: 'detached' });
    expect(shop.faults).toEqual([]);
  });
});
