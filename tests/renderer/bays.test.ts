import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { OffersView } from '#core/shared/views/offers.ts';
import { axeOf } from '../helpers/axe.ts';
import { findChromium } from '../helpers/chromium.ts';
import { BOARD_NOW, type BoardShop, openBoardShop } from './boardShop.ts';

const choice = findChromium();

/** The board by mouse and by keyboard, over the real door and a real file. */
describe.skipIf(choice === null)('the bay board in the window', () => {
  let shop: BoardShop;
  let page: Page;
  const jobs: string[] = [];
  const board = () => shop.board();
  const workOf = (id: string | undefined) => shop.workOf(id);

  beforeAll(async () => {
    if (!choice) return;
    shop = await openBoardShop(choice);
    page = shop.page;
    for (const [who, car] of CARS) jobs.push(await shop.newJob(who, car));
    await shop.book(jobs[0] ?? '');
  });
  afterAll(() => shop?.close());

  it('shows the offers of the job in hand and books one by keyboard, around the car that is there', async () => {
    await page.evaluate((id) => {
      localStorage.setItem('rakelight.hand', JSON.stringify({ current: id, laidDown: [] }));
      sessionStorage.setItem('rakelight.hand', JSON.stringify({ current: id, laidDown: [] }));
      location.hash = '/bays';
    }, jobs[1]);
    await page.reload();
    const offers = page.getByRole('region', { name: 'Offers' });
    await offers.getByRole('article').nth(2).waitFor();
    await page.keyboard.press('b');
    await expect.poll(() => offers.getByRole('button', { pressed: true }).textContent()).toMatch(/^B/);
    await page.keyboard.press('Control+Enter');
    await expect.poll(async () => (await board()).promises.length).toBe(2);
    expect(await shop.call('bays.faults', {})).toEqual([]);
  });

  it('moves a block by keyboard, and takes it back with undo', async () => {
    const before = (await board()).blocks;
    const car = workOf(jobs[1]);
    await car.focus();
    await page.keyboard.press('Enter');
    await page.getByText(/Arrows move by a quarter/).waitFor();
    for (let i = 0; i < 4; i += 1) await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Escape');
    await expect.poll(() => page.getByText(/Arrows move by a quarter/).count()).toBe(0);
    expect((await board()).blocks).toEqual(before);
    await page.keyboard.press('Enter');
    for (let i = 0; i < 2; i += 1) await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Enter');
    const undo = page.getByRole('button', { name: 'Undo', exact: true });
    const cut = (blocks: typeof before) =>
      blocks.filter((b) => b.jobId === jobs[1]).flatMap((b) => b.pieces)[1]?.startMin ?? 0;
    await expect.poll(async () => cut((await board()).blocks) - cut(before)).toBeGreaterThan(0);
    await expect.poll(() => undo.getAttribute('aria-disabled')).toBe('false');
    await undo.click();
    await expect.poll(async () => (await board()).blocks).toEqual(before);
    const redo = page.getByRole('button', { name: 'Redo', exact: true });
    await expect.poll(() => redo.getAttribute('aria-disabled')).toBe('false');
  });

  it('refuses a lane that is not for the work, in words, with places that work', async () => {
    const car = workOf(jobs[1]);
    await car.focus();
    await page.keyboard.press('Enter');
    await page.getByText(/Arrows move by a quarter/).waitFor();
    await page.keyboard.press('ArrowUp');
    await page.keyboard.press('ArrowUp');
    await page
      .getByRole('alert')
      .getByText(/is not a place for|is taken|would/)
      .first()
      .waitFor();
    await page
      .getByRole('button', { name: /^It could go to Bay \d, / })
      .first()
      .waitFor();
    // A refused drop is said once, and the next step takes it away at once.
    await page.keyboard.press('Enter');
    await page.getByText('Nothing was moved.').waitFor();
    expect(await page.getByRole('alert').count()).toBe(1);
    const said = await page.getByRole('alert').locator('p').first().textContent();
    await page.route('**/rpc', async (route) => {
      await new Promise((done) => setTimeout(done, 700));
      await route.continue();
    });
    await page.keyboard.press('ArrowDown');
    await page.waitForTimeout(150);
    expect(await page.getByText(said ?? '').count()).toBe(0);
    await page.unrouteAll({ behavior: 'wait' });
    await page.keyboard.press('Escape');
  });

  it('moves a block by mouse to the other bay of its kind', async () => {
    const car = workOf(jobs[1]);
    const [from, lane] = [await car.boundingBox(), await page.locator('[data-bay]').nth(2).boundingBox()];
    if (!from || !lane) throw new Error('not on the screen');
    await page.mouse.move(from.x + from.width / 2, from.y + 10);
    await page.mouse.down();
    await page.mouse.move(from.x + from.width / 2, lane.y + 20, { steps: 6 });
    await page.mouse.up();
    const bayOf = async () => {
      const now = await board();
      const bayId = now.blocks.filter((b) => b.jobId === jobs[1] && b.pieces.length > 0).at(-1)?.bayId;
      return now.lanes.find((l) => l.bayId === bayId)?.name;
    };
    await expect.poll(bayOf).toBe('Bay 3');
    expect(await shop.call('bays.faults', {})).toEqual([]);
  });

  it('gives the work of a block to somebody else when it is dropped on their row', async () => {
    const now = await board();
    const worker = () =>
      board().then(
        (b) => b.blocks.filter((x) => x.jobId === jobs[1] && x.pieces.length > 0).at(-1)?.pieces[0],
      );
    const before = (await worker())?.personIds[0];
    const other = now.people.find((p) => p.personId !== before)?.personId;
    const [from, row] = [
      await workOf(jobs[1]).boundingBox(),
      await page.locator(`[data-who="${other}"]`).boundingBox(),
    ];
    if (!from || !row) throw new Error('not on the screen');
    await page.mouse.move(from.x + from.width / 2, from.y + 10);
    await page.mouse.down();
    await page.mouse.move(from.x + from.width / 2, row.y + 12, { steps: 6 });
    await page.mouse.up();
    await expect.poll(async () => (await worker())?.personIds[0]).toBe(other);
    expect(await shop.call('bays.faults', {})).toEqual([]);
  });

  it('fits the window and has nothing that axe objects to', async () => {
    const size = await page.evaluate(() => [
      document.documentElement.scrollWidth,
      document.documentElement.scrollHeight,
    ]);
    expect(size).toEqual([1280, 800]);
    if (process.env['RAKELIGHT_PICTURE']) await page.screenshot({ path: process.env['RAKELIGHT_PICTURE'] });
    const { violations } = await axeOf(page).analyze();
    expect(violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.target.join(' ')).join(', ')}`)).toEqual(
      [],
    );
    expect(shop.faults).toEqual([]);
  });

  it('says the date with a car that comes in another week, to who does not see the days above it', async () => {
    const jobId = await shop.newJob('Una Kestrel', 'Pellane Rand');
    const notBeforeMin = Math.ceil(BOARD_NOW / 60_000) + 9 * 1440;
    const view = await shop.call<OffersView>('bays.offers', { jobId, notBeforeMin });
    await shop.call('bays.bookOffer', { planRevision: view.planRevision, plan: view.offers[0]?.plan });
    expect(await workOf(jobs[0]).getAttribute('aria-label')).toMatch(/, [A-Z][a-z]{2} \d\d:\d\d/);
    await page.getByRole('button', { name: 'Later', exact: true }).click();
    await workOf(jobId).waitFor();
    expect(await workOf(jobId).getAttribute('aria-label')).toMatch(/, [A-Z][a-z]{2} \d+ Dec \d\d:\d\d/);
  });
});

const CARS = [
  ['Marit Vane', 'Velloy Merrin'],
  ['Dev Ostler', 'Harrowe Lintel'],
] as const;
