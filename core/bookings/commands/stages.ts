import type { WriteCtx } from '../../context.ts';
import type { bookingsEntries, StageFinished, StageStarted } from '../../shared/catalogue/bookings.ts';
import type { InputOf } from '../../shared/entry.ts';
import { refuse } from '../../shared/errors.ts';
import type { StageId } from '../../shared/ids.ts';
import type { EpochMs } from '../../shared/units.ts';
import type { WorkConflict } from '../../shared/views/bookings.ts';
import { isMachineStage } from '../../shared/vocabulary.ts';
import { sandingAgreed } from '../../views/sandingAgreed.ts';
import { isReady, runsNext } from '../rules/ready.ts';
import { orderBreaches } from '../rules/stageOrder.ts';
import { attendedMs, cureMissingMin } from '../rules/workTime.ts';
import { type JobRecord, saveJob } from '../store/jobs.ts';
import { addOverride } from '../store/records.ts';
import {
  panelsDoneOf,
  type StageRecord,
  type StageStep,
  saveStage,
  stagesOf,
  stepsOf,
} from '../store/stages.ts';
import { addWork, endRunning, runningWorkOf, workOfStage } from '../store/work.ts';
import { bodyOf, needJob, needStage, needWorker, refuseState, step } from './needs.ts';

type In<N extends keyof typeof bookingsEntries> = InputOf<(typeof bookingsEntries)[N]>;

/**
 * Somebody starts on a stage, alone or beside others; a stage nobody attends begins to run.
 * A cure that is still running on this car ends with it. One person on two stages at once is recorded and told.
 * @throws JOB_STATE when the car is not here
 * @throws STAGE_STATE when the stage is done, dropped, or this person is on it already
 * @throws STAGE_ORDER when a machine would go on a panel that is not ready, unless the rule is set aside with a reason
 * @throws SANDING_NOT_AGREED when nobody's consent stands to wet sand a panel of it; no reason sets that aside
 * @throws PERSON_NOT_HERE when the person has left
 */
export function startStage(ctx: WriteCtx, input: In<'bookings.startStage'>): StageStarted {
  const { stage, job } = needStage(ctx.db, input.stageId);
  const state = step(job, 'work');
  refuseState(stage, stage.state === 'done' || stage.state === 'dropped', 'start');
  checkSanding(ctx, stage);
  if (isMachineStage(stage.kind)) checkOrder(ctx, job, stage, input.setAside?.reason ?? null);
  const cutShort = endCures(ctx, stepsOf(ctx.db, job.id), stage.id);
  const twice = stage.crew === 0 ? [] : clockIn(ctx, stage, input.personId);
  saveStage(ctx.db, stage.id, { state: 'inWork', startedMs: stage.startedMs ?? ctx.now });
  if (job.state !== state || job.readyMs !== null) saveJob(ctx.db, job.id, { state, readyMs: null });
  ctx.changed(stage.id, 'state', 'work');
  return { conflicts: [...cutShort, ...twice] };
}

/** What is sanded off does not come back: each panel needs its owner's consent when work on it begins. */
function checkSanding(ctx: WriteCtx, stage: StageRecord): void {
  if (stage.kind !== 'sand') return;
  const agreed = sandingAgreed(ctx.db, stage.jobId);
  const panel = stage.panels.find((p) => !agreed.includes(p));
  if (panel) refuse('SANDING_NOT_AGREED', { panel, level: 'sanded' });
}

function clockIn(
  ctx: WriteCtx,
  stage: StageRecord,
  named: In<'bookings.startStage'>['personId'],
): WorkConflict[] {
  const worker = needWorker(ctx, named);
  const running = runningWorkOf(ctx.db, worker.id).filter((w) => w.startMs <= ctx.now);
  refuseState(
    { ...stage, state: 'inWork' },
    running.some((w) => w.stageId === stage.id),
    'start',
  );
  addWork(ctx.db, {
    stageId: stage.id,
    personId: worker.id,
    startMs: ctx.now,
    endMs: null,
    corrected: false,
  });
  const person = { id: worker.id, name: worker.name };
  return running.map((w) => ({ kind: 'twoAtOnce', person, otherJobNumber: w.jobNumber }));
}

function checkOrder(ctx: WriteCtx, job: JobRecord, stage: StageRecord, reason: string | null): void {
  const done = panelsDoneOf(ctx.db, stage.jobId);
  const stages = stagesOf(ctx.db, stage.jobId).map((s) => ({ ...s, panelsDone: done.get(s.id) ?? [] }));
  const open = stage.panels.filter((panel) => !(done.get(stage.id) ?? []).includes(panel));
  for (const breach of orderBreaches(stage.kind, open, stages)) {
    const by = ctx.actor?.personId;
    if (reason === null || by === undefined)
      refuse('STAGE_ORDER', { ...breach, stage: stage.kind, body: bodyOf(ctx.db, job.vehicleId) });
    addOverride(ctx.db, {
      id: ctx.newId<string>(),
      jobId: stage.jobId,
      stageId: stage.id,
      ...breach,
      personId: by,
      reason,
      atMs: ctx.now,
    });
  }
}

/** Ends cures of the car that run while something else is begun; each that lacked time is told. */
function endCures(ctx: WriteCtx, ofJob: readonly StageStep[], but: StageId): WorkConflict[] {
  const told: WorkConflict[] = [];
  for (const s of ofJob) {
    if (s.id === but || s.crew > 0 || s.state !== 'inWork' || s.startedMs === null) continue;
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
  const ended = endRunning(ctx.db, stage.id, ctx.now, input.personId);
  refuseState(stage, ended === 0, 'pause');
  const work = workOfStage(ctx.db, stage.id);
  if (work.every((w) => w.endMs !== null)) saveStage(ctx.db, stage.id, { state: 'paused' });
  ctx.changed(stage.id, 'state', 'work');
  return { attendedMs: attendedMs(work, ctx.now) };
}

/**
 * Ends a stage: all who are on it stop, a cure that follows begins to run, and after the last stage the job is ready.
 * A stage that was never begun can't be finished, save one that nobody attends.
 * @throws STAGE_STATE when the stage is done, dropped or not begun
 */
export function finishWork(ctx: WriteCtx, input: { readonly stageId: StageId }): StageFinished {
  const { stage, job } = needStage(ctx.db, input.stageId);
  const state = step(job, 'work');
  const notBegun = stage.state === 'planned' && stage.crew > 0;
  refuseState(stage, stage.state === 'done' || stage.state === 'dropped' || notBegun, 'finish');
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
