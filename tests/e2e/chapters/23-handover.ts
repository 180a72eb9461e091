import { expect } from 'vitest';
import type { JobId } from '#core/shared/ids.ts';
import type { Run } from '../run.ts';
import { jobNow, madeId } from '../work.ts';

/** The car goes home with the same record as it came with, agreed by a signature drawn on the screen. */
export async function handover(run: Run): Promise<void> {
  const jobId = madeId<JobId>(run, 'job');
  await run.open('/desk');
  await run.page.getByRole('link', { name: 'Hand over' }).first().click();
  await run.page.getByRole('main', { name: 'Hand the car over' }).waitFor();
  await run.fill('Mileage', '48146');
  const field = await run.page.getByRole('img', { name: 'Sign here' }).boundingBox();
  if (!field) throw new Error('no field to sign in');
  await run.page.mouse.move(field.x + 20, field.y + 60);
  await run.page.mouse.down();
  await run.page.mouse.move(field.x + 120, field.y + 30, { steps: 4 });
  await run.page.mouse.up();
  await run.shot('23-handover');
  await run.press('Handed over');
  await run.see(/^went/);
  const job = await jobNow(run);
  expect(job.state).toBe('collected');
  const gone = run.rows(
    `SELECT mileage, key_count, agreed_way FROM car_record WHERE job_id = ? AND kind = 'handover'
     ORDER BY rowid`,
    jobId,
  );
  // It went home once after the look, then for good with all that was agreed.
  expect(gone).toHaveLength(2);
  expect(gone[1]).toMatchObject({ mileage: 48_146, key_count: 1, agreed_way: 'signature' });
  expect(job.money.owedMinor ?? 0).toBe(0);
  await run.shot('23-job');
}
