import type { WriteCtx } from '../../context.ts';
import type { bookingsEntries, StageFinished, StageStarted } from '../../shared/catalogue/bookings.ts';
import type { InputOf } from '../../shared/entry.ts';
import type { PersonId, StageId } from '../../shared/ids.ts';
import type { EpochMs } from '../../shared/units.ts';
import type { WorkConflict } from '../../shared/views/bookings.ts';
import { isReady, runsNext } from '../rules/ready.ts';
import { attendedMs, cureMissingMin } from '../rules/workTime.ts';
import { type JobRecord, saveJob } from '../store/jobs.ts';
import { type StageRecord, type StageStep, saveStage, stepsOf } from '../store/stages.ts';
import { addWork, endRunning, runningWorkOf, workOfStage } from '../store/work.ts';
import { checkCures, checkOrder, checkSanding } from './mayStart.ts';
import { needJob, needStage, needWorker, refuseState, step } from './needs.ts';

type Finished = Pick<In<'bookings.finishStage'>, 'stageId' | 'setAside'>;
type In<N extends keyof typeof bookingsEntries> = InputOf<(typeof bookingsEntries)[N]>;

/**
 * Somebody starts on a stage, alone or beside others; a stage nobody attends begins to run.
 * A cure of this car ends with it. Whoever was on another stage of the same car leaves that one; one person at two
 * cars at once is recorded and told.
 * @throws JOB_STATE when the car is not here
 * @throws STAGE_STATE when the stage is done, dropped, or this person is on it already
 * @throws STAGE_ORDER when what comes first is not done, unless the rule is set aside with a reason
 * @throws CURE_RUNS while a coating still cures, unless that is set aside with a reason
 * @throws SANDING_NOT_AGREED when nobody's consent stands to wet sand a panel of it; no reason sets that aside
 * @throws PERSON_NOT_HERE when the person has left
 */
export function startStage(ctx: WriteCtx, input: In<'bookings.startStage'>): StageStarted {
  const { stage, job } = needStage(ctx.db, input.stageId);
  const state = step(job, 'work');
  refuseState(stage, stage.state === 'done' || stage.state === 'dropped', 'start');
  checkSanding(ctx, stage);
  checkOrder(ctx, job, stage, input.setAside);
  const others = stepsOf(ctx.db, job.id).filter((s) => s.id !== stage.id);
  checkCures(ctx, stage, others, input.setAside);
  const cutShort = endCures(ctx, others);
  const twice = stage.crew === 0 ? [] : clockIn(ctx, stage, input.personId);
  saveStage(ctx.db, stage.id, { state: 'inWork', startedMs: stage.startedMs ?? ctx.now });
  if (job.state !== state || job.readyMs !== null) saveJob(ctx.db, job.id, { state, readyMs: null });
  ctx.changed(stage.id, 'state', 'work');
  return { conflicts: [...cutShort, ...twice] };
}

function clockIn(
  ctx: WriteCtx,
  stage: StageRecord,
  named: In<'bookings.startStage'>['personId'],
): StageStarted['conflicts'] {
  const worker = needWorker(ctx, named);
  const running = runningWorkOf(ctx.db, worker.id);
  refuseState(
    { ...stage, state: 'inWork' },
    running.some((w) => w.stageId === stage.id),
    'start',
  );
  const left = running.filter((w) => w.jobId === stage.jobId);
  for (const { stageId } of left) leave(ctx, stageId, worker.id);
  addWork(ctx.db, {
    stageId: stage.id,
    personId: worker.id,
    startMs: ctx.now,
    endMs: null,
    corrected: false,
  });
  const person = { id: worker.id, name: worker.name };
  return [
    ...left.map((w) => ({ kind: 'leftStage' as const, person, stage: w.kind })),
    ...running
      .filter((w) => !left.includes(w) && w.startMs <= ctx.now)
      .map((w) => ({ kind: 'twoAtOnce' as const, person, otherJobNumber: w.jobNumber })),
  ];
}

/** Ends cures of the car that run while something else is begun; each that lacked time is told. */
function endCures(ctx: WriteCtx, others: readonly StageStep[]): WorkConflict[] {
  const told: WorkConflict[] = [];
  for (const s of others) {
    if (s.crew > 0 || s.state !== 'inWork' || s.startedMs === null) continue;
    const doneMs = Math.min(s.startedMs + s.dwellMin * 60_000, ctx.now) as EpochMs;
    saveStage(ctx.db, s.id, { state: 'done', doneMs });
    const missingMin = cureMissingMin(s.startedMs, s.dwellMin, ctx.now);
    if (missingMin > 0) told.push({ kind: 'cureCutShort', missingMin });
  }
  return told;
}

/**
 * Pauses a stage for one person or for all on it; it stays in work while somebody else is on it.
 * @throws STAGE_STATE when nobody (or not this person) is on it
 */
export function pauseStage(ctx: WriteCtx, input: In<'bookings.pauseStage'>): { readonly attendedMs: number } {
  const { stage } = needStage(ctx.db, input.stageId);
  const ended = leave(ctx, stage.id, input.personId);
  refuseState(stage, ended === 0, 'pause');
  return { attendedMs: attendedMs(workOfStage(ctx.db, stage.id), ctx.now) };
}

/** Stops the clock of one person or of all on a stage, and pauses it when nobody is left; how many it stopped. */
function leave(ctx: WriteCtx, stageId: StageId, personId?: PersonId): number {
  const ended = endRunning(ctx.db, stageId, ctx.now, personId);
  if (ended > 0 && workOfStage(ctx.db, stageId).every((w) => w.endMs !== null))
    saveStage(ctx.db, stageId, { state: 'paused' });
  if (ended > 0) ctx.changed(stageId, 'state', 'work');
  return ended;
}

/**
 * Ends a stage: all who are on it stop, a cure that follows begins to run, and after the last stage the job is ready.
 * A stage that was never begun can't be finished, save one that nobody attends.
 * @throws STAGE_STATE when the stage is done, dropped or not begun
 * @throws CURE_RUNS when it is a cure that lacks time, unless that is set aside with a reason
 */
export function finishWork(ctx: WriteCtx, input: Finished): StageFinished {
  const { stage, job } = needStage(ctx.db, input.stageId);
  const state = step(job, 'work');
  const notBegun = stage.state === 'planned' && stage.crew > 0;
  refuseState(stage, stage.state === 'done' || stage.state === 'dropped' || notBegun, 'finish');
  checkCures(ctx, stage, [stage], input.setAside);
  endRunning(ctx.db, stage.id, ctx.now);
  saveStage(ctx.db, stage.id, { state: 'done', startedMs: stage.startedMs ?? ctx.now, doneMs: ctx.now });
  if (job.state === 'here') saveJob(ctx.db, job.id, { state });
  ctx.changed(stage.id, 'state', 'work');
  const ofJob = stepsOf(ctx.db, job.id);
  const next = runsNext(ofJob);
  if (next) saveStage(ctx.db, next.id, { state: 'inWork', startedMs: ctx.now });
  return {
    ready: readyIfLast(ctx, job, ofJob),
    attendedMs: attendedMs(workOfStage(ctx.db, stage.id), ctx.now),
    startedNext: next?.id ?? null,
  };
}

/** Makes the job ready when no stage is left; true when it is. */
export function readyIfLast(ctx: WriteCtx, job: JobRecord, stages = stepsOf(ctx.db, job.id)): boolean {
  const current = needJob(ctx.db, job.id);
  if (current.state === 'ready') return true;
  if (!isReady(stages, job.purpose)) return false;
  saveJob(ctx.db, job.id, { state: 'ready', readyMs: ctx.now });
  ctx.changed(job.id, 'state');
  return true;
}
