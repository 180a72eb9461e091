import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { addLocalDays, localDayOf } from '#core/shared/time.ts';
import { findChromium } from '../helpers/chromium.ts';
import { BOARD_NOW, type BoardShop, openBoardShop, stage } from './boardShop.ts';

const choice = findChromium();
const CUT = [stage('cut', 'correction', 'correction', 240)];
type Placed = {
  readonly kind: string;
  readonly bay: string;
  readonly who: string;
  readonly s: number;
  readonly e: number;
};

/** A day ahead as the day field takes it, digits only. */
function dayOnward(days: number): string {
  const [year, month, day] = addLocalDays(localDayOf(BOARD_NOW, 'Europe/Vienna'), days).split('-');
  return `${day}${month}${year}`;
}

/** In the page: as soon as a panel is gone, the second half of a double click meets a car where it was. */
function clickBeneath(panel: Element, jobId: string): Promise<boolean> {
  return new Promise((resolve) => {
    const watch = new MutationObserver(() => {
      if (panel.isConnected) return;
      watch.disconnect();
      const click = new MouseEvent('click', { bubbles: true, cancelable: true, detail: 2 });
      const car = document.querySelector(`[data-job="${jobId}"]`);
      car?.dispatchEvent(click);
      resolve(car !== null);
    });
    watch.observe(document.body, { childList: true, subtree: true });
  });
}

/** Splitting, swapping, whole jobs, drawn ends and closures, by mouse and by keyboard, asserted in the file. */
describe.skipIf(choice === null)('changes at the bay board', () => {
  let shop: BoardShop;
  let page: Page;
  let [whole, left, right] = ['', '', ''];
  const placed = (jobId: string) =>
    shop.rows<Placed>(
      `SELECT s.kind, b.name AS bay, p.person_id AS who, p.start_min AS s, p.end_min AS e FROM placement p
       JOIN job_stage s ON s.id = p.stage_id JOIN bay b ON b.id = p.bay_id WHERE p.job_id = ? ORDER BY p.start_min`,
      jobId,
    );
  const planRevision = () => shop.rows<{ n: number }>('SELECT revision AS n FROM plan_state')[0]?.n ?? 0;
  const bayOf = (jobId: string) => placed(jobId)[0]?.bay;
  const press = async (...keys: readonly string[]) => {
    for (const key of keys) await page.keyboard.press(key);
  };
  const lift = async (jobId: string) => {
    await shop.workOf(jobId).focus();
    await press('Enter');
    await page.getByText(/Arrows move by a quarter/).waitFor();
  };
  const button = (name: string | RegExp) => page.getByRole('button', { name });
  const undone = async (jobId: string, before: readonly Placed[]) => {
    await expect.poll(() => button('Put back').count()).toBe(0);
    // The file holds it at once; the next act needs the board drawn anew.
    const seen = planRevision();
    const drawn = page.waitForResponse(
      async (answer) =>
        answer.request().postData()?.includes('"bays.board"') === true &&
        ((await answer.json()) as { value: { planRevision: number } }).value.planRevision > seen,
    );
    await Promise.all([drawn, press('Control+z')]);
    expect(placed(jobId)).toEqual(before);
    await page.waitForTimeout(300);
  };

  beforeAll(async () => {
    if (!choice) return;
    shop = await openBoardShop(choice);
    page = shop.page;
    whole = await shop.newJob('Marit Vane', 'Velloy Merrin');
    left = await shop.newJob('Dev Ostler', 'Harrowe Lintel', CUT);
    right = await shop.newJob('Greta Eskeland', 'Pellane Rand', CUT);
    for (const id of [left, right, whole]) await shop.book(id);
    await page.evaluate(() => {
      location.hash = '/bays';
    });
    await shop.workOf(whole).waitFor();
  });
  afterAll(() => shop?.close());

  it('moves a whole job by keyboard: asks about the drop-off, shifts every stage, undoes and does it again', async () => {
    const before = placed(whole);
    await lift(whole);
    await press('j', 'Shift+ArrowRight', 'Shift+ArrowRight');
    await page.getByText(/another time needs their consent/).waitFor();
    await press('Enter');
    await page.getByText(/Nothing was moved/).waitFor();
    expect(placed(whole)).toEqual(before);
    // Said once, and no longer than the block is held there.
    expect(await page.getByText(/another time needs their consent/).count()).toBe(1);
    await press('ArrowRight');
    await page.getByText(/Nothing was moved/).waitFor({ state: 'detached' });
    await press('ArrowLeft');
    await page.getByText(/another time needs their consent/).waitFor();
    await press('y');
    await expect.poll(() => placed(whole)[0]?.s).not.toBe(before[0]?.s);
    const after = placed(whole);
    expect(after.map((p) => p.kind)).toEqual(before.map((p) => p.kind));
    expect(after.every((p, i) => p.s > (before[i]?.s ?? 0))).toBe(true);
    await undone(whole, before);
    await button('Redo').waitFor();
    await press('Control+y');
    await expect.poll(() => placed(whole)).toEqual(after);
    await button('Redo').waitFor({ state: 'detached' });
    // In a field the same keys take back what is typed there.
    await press('Control+k', 'a', 'Control+z');
    await page.waitForTimeout(300);
    expect(placed(whole)).toEqual(after);
    await press('Escape');
    await undone(whole, before);
    await button('Redo').waitFor();
    await press('Control+Shift+Z');
    await expect.poll(() => placed(whole)).toEqual(after);
    await button('Redo').waitFor({ state: 'detached' });
    await undone(whole, before);
    expect(await shop.call('bays.faults', {})).toEqual([]);
  });

  it('carries a whole job by mouse, marks no text on the way, and asks with the times that would be agreed', async () => {
    const before = placed(whole);
    await lift(whole);
    await press('j');
    await page
      .getByText(/whole job/i)
      .first()
      .waitFor();
    const car = await shop.workOf(whole).boundingBox();
    if (!car) throw new Error('not on the screen');
    await page.mouse.move(car.x + 10, car.y + 10);
    await page.mouse.down();
    await page.mouse.move(car.x + 70, car.y + 10, { steps: 5 });
    await page.mouse.up();
    await page.getByText(/would have to come .+ instead/).waitFor();
    await page.getByText(/It would begin .+ and end /).waitFor();
    expect(await page.evaluate(() => String(getSelection()))).toBe('');
    await press('Escape');
    await page.getByText(/would have to come/).waitFor({ state: 'detached' });
    expect(placed(whole)).toEqual(before);
  });

  it('splits a stage by keyboard and hands the rest to somebody else', async () => {
    const before = placed(left);
    await lift(left);
    await press('s');
    await page.getByText(/is split at/).waitFor();
    await press('ArrowLeft', 'Enter');
    await expect.poll(() => placed(left).length).toBe(2);
    const [head, tail] = placed(left);
    expect([head?.s, head?.e, tail?.e]).toEqual([before[0]?.s, tail?.s, before[0]?.e]);
    await undone(left, before);
  });

  it('splits a stage by mouse, where it is pressed', async () => {
    const before = placed(left);
    const car = await shop.workOf(left).boundingBox();
    if (!car) throw new Error('not on the screen');
    await page.mouse.click(car.x + car.width / 2, car.y + 10);
    await button('Split a stage').click();
    const bar = await shop.workOf(left).locator('[data-form="plan"]').boundingBox();
    if (!bar) throw new Error('no work');
    await page.mouse.click(bar.x + bar.width * 0.25, bar.y + bar.height / 2);
    await button('Split here').click();
    await expect.poll(() => placed(left).length).toBe(2);
    const [head] = placed(left);
    const share = ((head?.e ?? 0) - (head?.s ?? 0)) / ((before[0]?.e ?? 0) - (before[0]?.s ?? 0));
    expect(share).toBeGreaterThan(0.1);
    expect(share).toBeLessThan(0.4);
    await undone(left, before);
  });

  it('draws the end of a stage by keyboard; shorter than its work is refused with the end that would do', async () => {
    const before = placed(right);
    await lift(right);
    await press('r', 'ArrowLeft', 'ArrowLeft');
    await page.getByText(/not enough working time/).waitFor();
    await press('Enter');
    await page.getByText(/Nothing was moved/).waitFor();
    expect(await page.getByText(/not enough working time/).count()).toBe(1);
    await press('1');
    await button('Keep this end').waitFor();
    await press('ArrowRight');
    await page.getByText(/cut ends/).waitFor();
    await press('Enter');
    await expect.poll(() => (placed(right)[0]?.e ?? 0) - (before[0]?.e ?? 0)).toBe(15);
    await undone(right, before);
  });

  it('draws the end of a stage by mouse, from its right edge', async () => {
    const before = placed(right);
    await page.getByText('Day', { exact: true }).click();
    for (let day = 0; day < 3 && (await shop.workOf(right).count()) === 0; day += 1) {
      await button('Later').click();
      await page.waitForTimeout(400);
    }
    const edge = await shop.workOf(right).locator('[data-edge]').boundingBox();
    if (!edge) throw new Error('no edge');
    await page.mouse.move(edge.x + edge.width - 2, edge.y + 12);
    await page.mouse.down();
    await page.mouse.move(edge.x + edge.width + 14, edge.y + 12, { steps: 5 });
    await page.mouse.up();
    await expect.poll(() => placed(right)[0]?.e ?? 0).toBeGreaterThan(before[0]?.e ?? 0);
    await undone(right, before);
    await page.getByText('Week', { exact: true }).click();
    await button('Today').click();
  });

  it('swaps two cars by keyboard, over the one that is in the way', async () => {
    const [a, b] = [bayOf(left), bayOf(right)];
    const before = placed(left);
    await lift(left);
    await press(a === 'Bay 2' ? 'ArrowDown' : 'ArrowUp');
    await button('Swap with Greta Eskeland').waitFor();
    await press('x');
    await expect.poll(() => [bayOf(left), bayOf(right)]).toEqual([b, a]);
    await undone(left, before);
    expect(await shop.call('bays.faults', {})).toEqual([]);
  });

  it('swaps two cars by mouse, however quick the hand', async () => {
    const [a, b] = [bayOf(left), bayOf(right)];
    const before = placed(left);
    // After an undo the cars may still be on their way: a hand takes one that lies still.
    const lie = async () => [await shop.workOf(left).boundingBox(), await shop.workOf(right).boundingBox()];
    let seen = '';
    const stands = async (): Promise<boolean> => {
      const before = seen;
      seen = JSON.stringify(await lie());
      return seen === before;
    };
    await expect.poll(stands, { interval: 250, timeout: 8000 }).toBe(true);
    const [from, to] = await lie();
    if (!from || !to) throw new Error('not on the screen');
    await page.mouse.move(from.x + 20, from.y + 10);
    await page.mouse.down();
    await page.mouse.move(to.x + 20, to.y + 10, { steps: 6 });
    await page.mouse.up();
    await button(/Swap with Greta Eskeland/).click();
    await expect.poll(() => [bayOf(left), bayOf(right)]).toEqual([b, a]);
    await undone(left, before);
  });

  it('closes a bay at the board, says what does not hold any more, re-plans it, and opens it again', async () => {
    const bay = bayOf(left) ?? '';
    await button(bay).focus();
    await press('Enter');
    const panel = page.getByRole('region', { name: `When ${bay} is closed` });
    const last = panel.getByRole('group', { name: 'Last day' }).getByRole('spinbutton').first();
    await last.click();
    await page.keyboard.type(dayOnward(10));
    await panel.getByLabel('Why').fill('lamp broken');
    await button('Set as closed').click();
    await page.getByText(`${bay} is closed then.`).first().waitFor();
    expect(shop.rows<{ reason: string }>('SELECT reason FROM closure').map((c) => c.reason)).toEqual([
      'lamp broken',
    ]);
    await panel.getByRole('button', { name: 'Re-plan' }).click();
    const replan = page.getByRole('region', { name: 'Re-plan' });
    await replan.getByRole('button', { name: 'Apply all' }).waitFor({ timeout: 30_000 });
    for (const box of await replan.getByRole('checkbox').all()) await box.check({ force: true });
    const secondClick = replan.evaluate(clickBeneath, right);
    await replan.getByRole('button', { name: 'Apply all' }).click();
    await replan.waitFor({ state: 'detached' });
    expect(await secondClick).toBe(true);
    await page.waitForTimeout(300);
    expect(await page.getByText(/Arrows move by a quarter/).count()).toBe(0);
    expect(await shop.call('bays.faults', {})).toEqual([]);
    await button(bay).click();
    await panel.getByRole('button', { name: 'Remove' }).click();
    await expect.poll(() => shop.rows('SELECT id FROM closure').length).toBe(0);
  });

  it('throws nothing on the way', () => {
    expect(shop.faults).toEqual([]);
  });
});
