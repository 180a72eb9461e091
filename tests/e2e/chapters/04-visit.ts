import { expect } from 'vitest';
import { FIRST, type Run } from '../run.ts';

const OFFERS = { name: 'Offers' } as const;

/** Dated offers for the look, booked from the keyboard while the customer waits. */
export async function bookVisit(run: Run): Promise<void> {
  const offers = run.page.getByRole('region', OFFERS);
  await offers.getByRole('article').nth(2).waitFor();
  expect(await offers.getByRole('article').count()).toBeGreaterThanOrEqual(3);
  await run.see(/\d+ %/, offers);
  await run.shot('04-offers');
  await run.page.keyboard.press('Control+Enter');
  await run.page.getByText('booked').first().waitFor();
  const job = run.row('SELECT state, drop_off_min, pick_up_min, promise_ppm FROM job');
  expect(job['state']).toBe('booked');
  expect(Number(job['drop_off_min']) * 60_000).toBeGreaterThanOrEqual(Date.parse(`${FIRST}:00+01:00`));
  expect(Number(job['promise_ppm'])).toBeGreaterThanOrEqual(800_000);
  // Twenty minutes under the lamp need one place and one person.
  expect(run.rows('SELECT s.kind FROM placement p JOIN job_stage s ON s.id = p.stage_id')).toEqual([
    { kind: 'inspection' },
  ]);
  await run.open('/desk');
  await run.see('Arriving');
  await run.see(/Wilhelmine/);
  await run.shot('04-desk');
}
