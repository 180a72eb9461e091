import { expect } from 'vitest';
import type { Run } from '../run.ts';

/** What it comes to, told while the customer is on the telephone: wide, because nobody has seen the paint. */
export async function provisionalEstimate(run: Run): Promise<void> {
  await run.see(/^Wide, since nobody has seen the paint/);
  await run.page.getByText('An inspection visit first').click();
  await run.shot('03-told');
  await run.page.keyboard.press('Control+Enter');
  await run.see(/^Job 1 is kept/);
  await expect.poll(() => run.row('SELECT plan_basis FROM job')['plan_basis']).toBe('provisional');
  const job = run.row('SELECT id, number, state, purpose, wish, ceiling_minor, plan_basis FROM job');
  expect(job).toMatchObject({
    ...{ number: 1, state: 'enquiry', purpose: 'inspectionVisit', plan_basis: 'provisional' },
    ...{ wish: 'Swirls in the sun. Good by Saturday.', ceiling_minor: 90_000 },
  });
  run.made.set('job', String(job['id']));
  const told = run.row('SELECT basis, p20_min, p50_min, p80_min, total_minor FROM estimate');
  expect(told['basis']).toBe('provisional');
  expect(Number(told['total_minor'])).toBeLessThanOrEqual(90_000);
  // Nobody has seen the paint: four of five such cars lie between half and twice as long, common practice, no source.
  expect(Number(told['p80_min']) / Number(told['p20_min'])).toBeGreaterThan(2);
  // The visit is planned as the look alone; the work comes once somebody has seen the car.
  expect(run.rows('SELECT kind, state FROM job_stage')).toEqual([{ kind: 'inspection', state: 'planned' }]);
}
