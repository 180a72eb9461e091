import { expect } from 'vitest';
import type { JobId } from '#core/shared/ids.ts';
import { pdfText } from '#tests/helpers/pdfText.ts';
import type { Run } from '../run.ts';
import { documentOf, madeId, stageNow } from '../work.ts';

/** The paint is harder than planned: a test spot says so, and the customer agrees to what follows from it. */
export async function testSpot(run: Run): Promise<void> {
  const jobId = madeId<JobId>(run, 'job');
  const planned = await stageNow(run, 'cut');
  await tryOnePatch(run, jobId);
  const [newest, accepted] = await run.ask('estimate.ofJob', { jobId });
  const cut = newest?.stages.find((s) => s.kind === 'cut');
  expect(newest?.basis).toBe('testSpot');
  expect(cut?.p50Min ?? 0).toBeGreaterThan(planned.p50Min);
  expect(newest?.price.totalMinor ?? 0).toBeGreaterThan(accepted?.price.totalMinor ?? 0);
  // What the customer agreed to stands: the job's own stages have not moved.
  expect((await stageNow(run, 'cut')).p50Min).toBe(planned.p50Min);
  await run.signIn('Ines Örtel', '4711');
  await agreeToMore(run, jobId);
  expect((await stageNow(run, 'cut')).p50Min).toBe(cut?.p50Min);
  expect((await stageNow(run, 'wash')).state).toBe('done');
}

/** On the card in the bay: two sections took eight passes and fifteen minutes. */
async function tryOnePatch(run: Run, jobId: JobId): Promise<void> {
  await run.open(`/jobs/${jobId}/card`);
  await run.press('Test spot');
  await run.page.locator('[data-panel="bo"]').click();
  await run.pick('step', 'cut, heavy');
  await run.fill(/^passes$/, '8');
  await run.fill(/^sections tried$/, '2');
  await run.fill('seconds for its sections', '900');
  await run.press('Record the test spot');
  await run.see(/The test spot is kept/);
  await run.shot('15-testSpot');
  await run.open(`/jobs/${jobId}/estimate`);
  await run.see(/corrected by a test spot/);
  await run.see(/By the test spot: .*cut \d+,\d → \d+,\d h/);
  const spots = 'SELECT panel, role, passes, actual_s AS seconds, sections FROM test_spot';
  expect(run.row(spots)).toEqual({ panel: 'bo', role: 'heavyCut', passes: 8, seconds: 900, sections: 2 });
}

/** The next version says why, on paper too; the agreed one is replaced only by the customer's yes. */
async function agreeToMore(run: Run, jobId: JobId): Promise<void> {
  await run.open(`/jobs/${jobId}`);
  await run.press('Quote');
  await run.fill('Why a new version', 'The test spot took longer: the paint is hard.');
  await run.press('New version');
  await run.see(/^number 1, version 2, draft/);
  const states = 'SELECT version, state FROM quote WHERE job_id = ? ORDER BY version';
  expect(run.rows(states, jobId)).toEqual([
    { version: 1, state: 'accepted' },
    { version: 2, state: 'draft' },
  ]);
  const text = (
    await pdfText(await documentOf(run, 'billing.quoteFile', () => run.press('Open as it prints')))
  ).join(' ');
  expect(text).toContain('The test spot took longer: the paint is hard.');
  await run.shot('15-newVersion');
  await run.choose('How', 'by telephone');
  await run.press(/^Agree A/);
  await run.see(/Option A agreed by .*, by telephone/);
  expect(run.rows(states, jobId)).toEqual([
    { version: 1, state: 'replaced' },
    { version: 2, state: 'accepted' },
  ]);
  await run.shot('15-agreed');
}
