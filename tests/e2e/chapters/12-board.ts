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
  expect(await run.ask('bays.faults', {})).toEqual([]);
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
  await run.page.getByRole('alert').getByText('Wash is not a place for').first().waitFor();
  await run.shot('12-refused');
  await run.page.keyboard.press('Escape');
  await expect.poll(() => run.page.getByRole('alert').count()).toBe(0);
}
