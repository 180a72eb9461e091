import { expect } from 'vitest';
import type { Run } from '../run.ts';

const OVERLAPS = `SELECT a.job_id FROM stay a JOIN stay b ON a.bay_id = b.bay_id AND a.job_id < b.job_id
  JOIN bay ON bay.id = a.bay_id WHERE bay.capacity = 1 AND a.arrive_min < b.leave_min AND b.arrive_min < a.leave_min`;
const TWICE = `SELECT p.id FROM placement p JOIN placement q ON p.person_id = q.person_id AND p.job_id < q.job_id
  WHERE p.start_min < q.end_min AND q.start_min < p.end_min`;

/** Another caller, the same week: what is offered and booked keeps clear of the first car. */
export async function secondJob(run: Run): Promise<void> {
  await run.open('/desk');
  await run.open('/take-in');
  await run.fill(/^who/, 'Jörg Ößterling');
  await run.fill('telephone', '0555 019 311');
  await run.fill('make and model', 'Velloy Merrin');
  await run.fill('in their words', 'Just make it look good.');
  await run.page.keyboard.press('Control+Enter');
  const offers = run.page.getByRole('region', { name: 'Offers' });
  await offers.getByRole('article').nth(2).waitFor();
  await run.shot('13-offers');
  await run.page.keyboard.press('Control+Enter');
  await run.see(/^Booked: comes/);
  const job = run.row('SELECT id, state FROM job WHERE number = 2');
  expect(job['state']).toBe('booked');
  run.made.set('secondJob', String(job['id']));
  expect(run.row('SELECT count(DISTINCT job_id) AS n FROM stay')).toEqual({ n: 2 });
  expect(run.rows(OVERLAPS)).toEqual([]);
  expect(run.rows(TWICE)).toEqual([]);
  expect(await run.ask('bays.faults', {})).toEqual([]);
  await run.open('/bays');
  await run.page.locator(`[data-job="${job['id']}"]`).first().waitFor();
  await run.shot('13-board');
}
