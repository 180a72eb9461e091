import { expect } from 'vitest';
import type { JobId } from '#core/shared/ids.ts';
import type { Run } from '../run.ts';
import { clockNow, madeId, written } from '../work.ts';

const LIKE_IT = { body: 'hatch', hardness: 'unknown', wish: 'twoStage', condition: 'worn' } as const;

/** What a car like the first is told now; kept before any work for the last chapter to compare. */
export async function toldNow(run: Run): Promise<number> {
  const told = await run.ask('estimate.preview', LIKE_IT);
  return told.hours.p50Min;
}

/** The next caller with a car like it is told what the finished work has taught, and from what. */
export async function learned(run: Run): Promise<void> {
  const before = Number(madeId(run, 'toldBefore'));
  const now = await toldNow(run);
  expect(now).toBeGreaterThan(before);
  await run.open('/desk');
  await run.page.getByRole('link', { name: 'Take a call' }).click();
  await run.fill(/^who/, 'Łucja Brandt');
  await run.fill('telephone', '0555 099 310');
  await run.pick('body style', 'hatch');
  await run.fill('make and model', 'Velloy Tern');
  await run.choose(/^how far/, 'two-step correction');
  await run.pick('paint, as told', 'swirls in the sun');
  await run.see(written(run, now / 60, 1));
  await run.shot('25-told');
  await run.press(/^Open the job/);
  await run.see(/^Job \d+ is kept and in hand/);
  const [job] = run.rows('SELECT id, created_ms FROM job ORDER BY number DESC LIMIT 1');
  expect(job?.['created_ms']).toBe(await clockNow(run));
  await evidence(run, job?.['id'] as JobId);
}

/** Any figure opens to what it rests on: here to the one stage that ran over. */
async function evidence(run: Run, jobId: JobId): Promise<void> {
  const [estimate] = await run.ask('estimate.ofJob', { jobId });
  const refine = estimate?.factors.find((f) => f.what === 'stage' && f.of === 'refine');
  expect(refine?.n).toBe(1);
  expect(refine?.factor).toBeGreaterThan(1);
  await run.open(`/jobs/${jobId}/estimate`);
  await run.press(/^hours/);
  await run.see(/^refine: ×1[.,]\d+ \(.*\), from 1 past stage/);
  await run.shot('25-evidence');
}
