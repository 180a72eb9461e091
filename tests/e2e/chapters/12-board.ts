import type { Locator } from 'playwright-core';
import { expect } from 'vitest';
import type { Run } from '../run.ts';

/** The car on the board, moved by mouse and by keyboard; where a rule forbids it, the rule is said and nothing moves. */
export async function moveOnBoard(run: Run): Promise<void> {
  await run.open('/bays');
  await run.page.locator('[data-bay]').first().waitFor();
  await run.shot('12-board');
  const home = machineBay(run);
  const other = home === 'Bay 1' ? 'Bay 2' : 'Bay 1';
  await byMouse(run, other);
  await expect.poll(() => machineBay(run)).toBe(other);
  await byKeys(run, other === 'Bay 2' ? 'ArrowUp' : 'ArrowDown');
  await expect.poll(() => machineBay(run)).toBe(home);
  await refused(run, home === 'Bay 1' ? 1 : 2);
  expect(machineBay(run)).toBe(home);
  await split(run);
  await drawnOut(run);
  expect(await run.ask('bays.faults', {})).toEqual([]);
}

type Work = { readonly pieces: number; readonly minutes: number };

/** The pieces of all its work and the minutes from the first start to the last end, as the file has them. */
function workNow(run: Run): Work {
  const row = run.row(
    'SELECT count(*) AS pieces, max(end_min) - min(start_min) AS minutes FROM placement WHERE job_id = ?',
    String(run.made.get('job')),
  );
  return { pieces: Number(row['pieces']), minutes: Number(row['minutes']) };
}

async function lift(run: Run): Promise<void> {
  await carIn(run, machineBay(run)).focus();
  await run.page.keyboard.press('Enter');
  await run.see(/Arrows move by a quarter/);
}

async function takenBack(run: Run, before: Work): Promise<void> {
  await expect.poll(() => run.page.getByRole('button', { name: 'Put back' }).count()).toBe(0);
  await run.press('Undo');
  await expect.poll(() => workNow(run)).toEqual(before);
}

/** The longest stage cut in two by keys, and put together again. */
async function split(run: Run): Promise<void> {
  const before = workNow(run);
  await lift(run);
  await run.page.keyboard.press('s');
  await run.see(/is split at/);
  await run.shot('12-split');
  await run.page.keyboard.press('Enter');
  await expect.poll(() => workNow(run)).toEqual({ ...before, pieces: before.pieces + 1 });
  await takenBack(run, before);
}

/** The end of the work in a bay: shorter than its work needs is refused in words, and stays as it was. */
async function drawnOut(run: Run): Promise<void> {
  const before = workNow(run);
  await lift(run);
  await run.press('Longer or shorter');
  for (let i = 0; i < 2; i += 1) await run.page.keyboard.press('ArrowLeft');
  await run.page
    .getByRole('alert')
    .getByText(/not enough working time|needs longer to cure/)
    .first()
    .waitFor();
  await run.shot('12-drawn');
  await run.press('Put back');
  expect(workNow(run)).toEqual(before);
}

/** Where the machine work of the job stands, as the file has it. */
function machineBay(run: Run): string {
  const rows = run.rows(
    `SELECT DISTINCT b.name FROM placement p JOIN job_stage s ON s.id = p.stage_id JOIN bay b ON b.id = p.bay_id
     WHERE p.job_id = ? AND s.kind = 'refine'`,
    String(run.made.get('job')),
  );
  return String(rows[0]?.['name']);
}

function laneOf(run: Run, name: string): Locator {
  const id = String(run.row('SELECT id FROM bay WHERE name = ?', name)['id']);
  return run.page.locator(`[data-bay="${id}"]`);
}

function carIn(run: Run, bay: string): Locator {
  return laneOf(run, bay)
    .locator(`[data-job="${run.made.get('job')}"]`)
    .first();
}

async function byMouse(run: Run, to: string): Promise<void> {
  const from = await carIn(run, machineBay(run)).boundingBox();
  const lane = await laneOf(run, to).boundingBox();
  if (!from || !lane) throw new Error('the car is not on the screen');
  const x = from.x + Math.min(from.width / 2, 20);
  await run.page.mouse.move(x, from.y + 10);
  await run.page.mouse.down();
  await run.page.mouse.move(x, lane.y + 15, { steps: 6 });
  await run.page.mouse.up();
}

async function byKeys(run: Run, key: 'ArrowUp' | 'ArrowDown'): Promise<void> {
  await carIn(run, machineBay(run)).focus();
  await run.page.keyboard.press('Enter');
  await run.see(/Arrows move by a quarter/);
  await run.page.keyboard.press(key);
  await run.page.keyboard.press('Enter');
}

/** Machine work in the wash bay: refused in words, with places that work. */
async function refused(run: Run, lanesUp: number): Promise<void> {
  await carIn(run, machineBay(run)).focus();
  await run.page.keyboard.press('Enter');
  for (let i = 0; i < lanesUp; i += 1) await run.page.keyboard.press('ArrowUp');
  await run.page.getByRole('alert').getByText('Wash bay is not a place for').first().waitFor();
  await run.shot('12-refused');
  await run.page.keyboard.press('Escape');
  await expect.poll(() => run.page.getByRole('alert').count()).toBe(0);
}
