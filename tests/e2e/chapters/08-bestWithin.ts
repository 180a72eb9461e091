import { expect } from 'vitest';
import type { Run } from '../run.ts';

/** The most that can come out under the ceiling that was named on the telephone. */
export async function bestWithinCeiling(run: Run): Promise<void> {
  const stair = run.page.getByRole('region', { name: 'Ceiling' });
  await expect.poll(() => stair.getByLabel('Ceiling').last().inputValue()).toMatch(/^900[.,]00$/);
  await run.see(/% of the damage should come out/, stair);
  await run.shot('08-stair');
  const before = run.rows('SELECT id FROM estimate').length;
  await run.press('Take this choice', stair);
  await expect.poll(() => run.rows('SELECT id FROM estimate').length).toBe(before + 1);
  const chosen = run.row('SELECT id, total_minor, gain_ppm FROM estimate ORDER BY version DESC LIMIT 1');
  expect(Number(chosen['total_minor'])).toBeLessThanOrEqual(90_000);
  expect(Number(chosen['gain_ppm'])).toBeGreaterThan(0);
  // The next step of the stair would cost more than the ceiling, or there is none.
  const view = await run.ask('estimate.bestWithin', {
    jobId: run.made.get('job') as never,
    measure: 'money',
    ceiling: 90_000,
  });
  const dearer = view.steps.filter((s) => s.gainPpm > Number(chosen['gain_ppm'])).map((s) => s.totalMinor);
  for (const total of dearer) expect(total).toBeGreaterThan(90_000);
  run.made.set('estimate', String(chosen['id']));
}
