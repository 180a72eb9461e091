import { expect } from 'vitest';
import type { Run } from '../run.ts';

/** The car goes home after the look; three dated offers for the work, one booked by keyboard, with a deposit. */
export async function bookWork(run: Run): Promise<void> {
  await run.open(`/jobs/${run.made.get('job')}`);
  await run.press('Send home after the look');
  // Asked first, with whom the keys are given back to.
  await run.press('Send home after the look', run.page.getByRole('alertdialog'));
  await expect.poll(() => run.row('SELECT state FROM job')['state']).toBe('quoted');
  expect(run.rows('SELECT bay_id FROM stay')).toEqual([]);
  await run.page.getByRole('navigation', { name: 'Steps' }).getByRole('button', { name: 'Offers' }).click();
  const offers = run.page.getByRole('region', { name: 'Offers' });
  await offers.getByRole('article').nth(2).waitFor();
  // Offers for the visit stand until those for the work are there.
  await expect.poll(() => offers.getAttribute('aria-busy')).toBe('false');
  const sure = await offers.getByText(/^\d+ %$/).allTextContents();
  expect(sure.length).toBeGreaterThanOrEqual(3);
  // The shop promises at four in five.
  for (const one of sure) expect(Number.parseInt(one, 10)).toBeGreaterThanOrEqual(80);
  await run.page.keyboard.press('b');
  await expect.poll(() => offers.getByRole('button', { pressed: true }).textContent()).toMatch(/^B/);
  await run.page.keyboard.press('a');
  await run.shot('10-offers');
  await run.page.keyboard.press('Control+Enter');
  await expect.poll(() => run.row('SELECT state FROM job')['state']).toBe('booked');
  const job = run.row('SELECT drop_off_min, pick_up_min, promise_ppm FROM job');
  expect(Number(job['pick_up_min'])).toBeGreaterThan(Number(job['drop_off_min']));
  expect(Number(job['promise_ppm'])).toBeGreaterThanOrEqual(800_000);
  expect(await run.ask('bays.faults', {})).toEqual([]);
  await deposit(run);
}

async function deposit(run: Run): Promise<void> {
  await run.open(`/jobs/${run.made.get('job')}/quote`);
  const part = run.page
    .locator('section')
    .filter({ has: run.page.getByRole('heading', { name: 'Deposit' }) })
    .last();
  await run.fill('Amount', '200', part);
  await run.press(/^Take .*200/, part);
  await run.see(/200[.,]00.*is held for this job/);
  expect(run.rows('SELECT kind, way, amount_minor FROM payment')).toEqual([
    { kind: 'deposit', way: 'card', amount_minor: 20_000 },
  ]);
  await run.shot('10-deposit');
}
