import { expect } from 'vitest';
import { pdfText } from '#tests/helpers/pdfText.ts';
import type { Run } from '../run.ts';
import {
  clockNow,
  clockTo,
  documentOf,
  holdToFinish,
  jobNow,
  madeId,
  minutesLater,
  stageNow,
  startStage,
  workStage,
} from '../work.ts';
import { toldNow } from './25-learned.ts';

/** The card on paper, then the first three stages by thumb, with their times. */
export async function jobCard(run: Run): Promise<void> {
  await run.signIn('Ines Örtel', '4711');
  run.made.set('toldBefore', String(await toldNow(run)));
  await carIsHere(run);
  await printCard(run);
  await run.signIn('Wren Tarn');
  await run.open(`/jobs/${madeId(run, 'job')}/card`);
  await cutTooEarly(run);
  await washByTheClock(run);
  await workStage(run, /^decontaminate/, 19);
  await workStage(run, /^clay/, 27);
  const job = await jobNow(run);
  expect(job.state).toBe('inWork');
  expect(job.stages.filter((s) => s.state === 'done').map((s) => [s.kind, s.attendedMs / 60_000])).toEqual([
    ['wash', 44],
    ['decontaminate', 19],
    ['clay', 27],
  ]);
  await run.shot('14-card');
}

/** On the planned morning the car comes, unless it stayed since its inspection. */
async function carIsHere(run: Run): Promise<void> {
  const job = await jobNow(run);
  const dropOff = (job.promise.dropOffMin ?? 0) * 60_000;
  if (dropOff > (await clockNow(run))) {
    await clockTo(run, dropOff);
    // A night lies between: nobody is signed in any more.
    await run.signIn('Ines Örtel', '4711');
  }
  if (job.state !== 'booked') return;
  await run.open(`/jobs/${job.id}`);
  await run.press('Take the car in');
  await run.fill('Mileage', '48144');
  await run.page.getByText('said so').click();
  await run.press('The car is here');
  await run.see('came');
  expect((await jobNow(run)).state).toBe('here');
}

async function printCard(run: Run): Promise<void> {
  const job = await jobNow(run);
  await run.open(`/jobs/${job.id}`);
  const bytes = await documentOf(run, 'bookings.cardFile', () => run.press('Print the card'));
  const text = (await pdfText(bytes)).join(' ');
  expect(text).toContain(`Job card ${job.number}`);
  expect(text).toContain(job.customer.name);
  for (const stage of job.stages.filter((s) => s.state === 'planned'))
    expect(text).toContain(
      { panelWipe: 'panel wipe', finalCheck: 'final check' }[stage.kind as string] ?? stage.kind,
    );
  // Common practice, no source: a rotary cuts at about 1,400 turns a minute, and is never started on the paint.
  expect(text).toMatch(/1[,.]400/);
  expect(text).toContain('Never start a rotary on the paint');
  expect(text).toContain('thin: nothing');
}

/** Grit on the paint would be dragged round by the pad: refused in words, and nothing is written. */
async function cutTooEarly(run: Run): Promise<void> {
  const before = run.row('SELECT count(*) AS n FROM stage_work')['n'];
  await run.page.getByRole('navigation', { name: 'Stages' }).getByRole('button', { name: /^cut/ }).click();
  await run.press('Start');
  await run.see(/^Not decontaminated yet/);
  await run.shot('14-refused');
  expect(run.row('SELECT count(*) AS n FROM stage_work')['n']).toBe(before);
}

async function washByTheClock(run: Run): Promise<void> {
  const began = await clockNow(run);
  await startStage(run, /^wash/);
  await minutesLater(run, 44);
  await run.page.reload();
  await run.page
    .getByRole('timer')
    .getByText(/^0:44:0/)
    .waitFor();
  await holdToFinish(run);
  await run.press('Finish the stage');
  await run.page.getByRole('button', { name: /^wash\s*done/ }).waitFor();
  const stage = await stageNow(run, 'wash');
  expect(
    run.row(
      'SELECT w.start_ms, w.end_ms, p.name FROM stage_work w JOIN person p ON p.id = w.person_id WHERE w.stage_id = ?',
      stage.id,
    ),
  ).toEqual({
    start_ms: began,
    end_ms: began + 44 * 60_000,
    name: 'Wren Tarn',
  });
}
