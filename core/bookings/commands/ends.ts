import type { ReadCtx, WriteCtx } from '../../context.ts';
import type { bookingsEntries } from '../../shared/catalogue/bookings.ts';
import type { InputOf } from '../../shared/entry.ts';
import { refuse } from '../../shared/errors.ts';
import type { JobId, StageId } from '../../shared/ids.ts';
import type { StageShare } from '../../shared/stageShare.ts';
import type { Ppm } from '../../shared/units.ts';
import type { HalfWayShare } from '../../shared/views/bookings.ts';
import { shareDone } from '../rules/halfWay.ts';
import { isDue } from '../rules/jobStates.ts';
import { attendedMs } from '../rules/workTime.ts';
import { saveJob } from '../store/jobs.ts';
import { panelsDoneOf, type StageRecord, saveShare, saveStage, stagesOf } from '../store/stages.ts';
import { endRunning, workOfStage } from '../store/work.ts';
import { noteGoingHome } from './car.ts';
import { needJob, step } from './needs.ts';

type In<N extends keyof typeof bookingsEntries> = InputOf<(typeof bookingsEntries)[N]>;

/**
 * The car did not come; the job may be booked again.
 * @throws JOB_STATE unless it is booked · DROP_OFF_AHEAD before the car was to come
 */
export function noShow(ctx: WriteCtx, input: { readonly jobId: JobId; readonly reason: string }): void {
  const job = needJob(ctx.db, input.jobId);
  const state = step(job, 'noShow');
  if (job.dropOffMin !== null && !isDue(job, ctx.now))
    refuse('DROP_OFF_AHEAD', { dropOffAtMin: job.dropOffMin });
  saveJob(ctx.db, job.id, { state, endedMs: ctx.now, endReason: input.reason });
  ctx.changed(job.id, 'state');
}

/**
 * Ends a job before any work; a car that is here goes home with its keys. What becomes of a deposit is decided beside it.
 * @throws JOB_STATE once work has begun
 */
export function cancelJob(ctx: WriteCtx, input: { readonly jobId: JobId; readonly reason: string }): void {
  const job = needJob(ctx.db, input.jobId);
  const state = step(job, 'cancel');
  for (const s of stagesOf(ctx.db, job.id))
    if (s.state === 'planned') saveStage(ctx.db, s.id, { state: 'dropped' });
  if (job.state === 'here') noteGoingHome(ctx, job, { note: input.reason });
  saveJob(ctx.db, job.id, { state, endedMs: ctx.now, endReason: input.reason });
  ctx.changed(job.id, 'state', 'reason');
}

/**
 * Stops a job half way: work ends, what was done of each stage is kept as a share for billing, stages not done are
 * dropped, the car is ready to be fetched. A share somebody names wins over the computed one.
 * @throws JOB_STATE when the car is not here
 */
export function stopHalfWay(
  ctx: WriteCtx,
  input: In<'bookings.stopHalfWay'>,
): { readonly sharesPpm: Readonly<Record<StageId, Ppm>> } {
  const job = needJob(ctx.db, input.jobId);
  const state = step(job, 'stopHalfWay');
  const sharesPpm: Record<StageId, Ppm> = {};
  for (const [s, share] of sharesOf(ctx, job.id, input.shares)) {
    endRunning(ctx.db, s.id, ctx.now);
    saveShare(ctx.db, s.id, share);
    sharesPpm[s.id] = share.sharePpm;
    if (s.state !== 'done') saveStage(ctx.db, s.id, { state: 'dropped' });
  }
  saveJob(ctx.db, job.id, { state, readyMs: ctx.now, stoppedMs: ctx.now, endReason: input.reason });
  ctx.changed(job.id, 'state', 'shares');
  return { sharesPpm };
}

/**
 * What stopping the job now would bill of each stage, before anybody named other shares. Stages dropped before anybody
 * began them are left out. @throws NOT_FOUND
 */
export function sharesIfStopped(ctx: ReadCtx, input: { readonly jobId: JobId }): readonly HalfWayShare[] {
  const job = needJob(ctx.db, input.jobId);
  return sharesOf(ctx, job.id, [])
    .filter(([s]) => s.state !== 'dropped' || s.startedMs !== null)
    .map(([s, share]) => ({ stageId: s.id, kind: s.kind, ...share }));
}

function sharesOf(
  ctx: Pick<ReadCtx, 'db' | 'now'>,
  jobId: JobId,
  named: In<'bookings.stopHalfWay'>['shares'],
): readonly (readonly [StageRecord, StageShare])[] {
  const ticked = panelsDoneOf(ctx.db, jobId);
  return stagesOf(ctx.db, jobId).map((s) => [
    s,
    shareDone({
      state: s.state,
      panelCount: s.panels.length,
      panelsDone: ticked.get(s.id)?.length ?? 0,
      attendedMs: attendedMs(workOfStage(ctx.db, s.id), ctx.now),
      p50Min: s.p50Min,
      namedPpm: named.find((n) => n.stageId === s.id)?.sharePpm ?? null,
    }),
  ]);
}
