import type { WriteCtx } from '../../context.ts';
import type { bookingsEntries } from '../../shared/catalogue/bookings.ts';
import type { InputOf } from '../../shared/entry.ts';
import { refuse } from '../../shared/errors.ts';
import type { StageId } from '../../shared/ids.ts';
import type { EpochMs } from '../../shared/units.ts';
import { typedClash } from '../rules/workTime.ts';
import { saveJob } from '../store/jobs.ts';
import { panelsDoneOf, saveStage, stagesOf } from '../store/stages.ts';
import { addWork, correctWork, findWork, removeWork, workOfPerson, workOfStage } from '../store/work.ts';
import { needStage, needWorker, step } from './needs.ts';

type In<N extends keyof typeof bookingsEntries> = InputOf<(typeof bookingsEntries)[N]>;
type Typed = Pick<In<'bookings.typeTime'>, 'personId' | 'startMs' | 'endMs'>;

/**
 * Types in time worked that nobody had clocked; it is marked as typed. On a stage that nobody had begun it puts the car
 * back in work, also one that counted as ready.
 * @throws WORK_REVERSED when the end is not after the start
 * @throws WORK_AHEAD when the end is still to come
 * @throws WORK_OVERLAPS when the person was at work elsewhere in that time
 * @throws PERSON_NOT_HERE when they had left by then
 * @throws JOB_STATE when the stage was not begun and the car is not here
 */
export function typeTime(ctx: WriteCtx, input: In<'bookings.typeTime'>): { readonly workId: number } {
  const { stage, job } = needStage(ctx.db, input.stageId);
  checkTyped(ctx, input, null);
  if (stage.state === 'planned') saveJob(ctx.db, job.id, { state: step(job, 'work'), readyMs: null });
  const workId = addWork(ctx.db, { ...input, corrected: true });
  const startedMs = Math.min(stage.startedMs ?? input.startMs, input.startMs) as EpochMs;
  saveStage(ctx.db, stage.id, {
    startedMs,
    ...(stage.state === 'planned' ? { state: 'paused' as const } : {}),
  });
  ctx.changed(stage.id, 'work');
  return { workId };
}

/**
 * Corrects a stretch that has ended: its times or its person; or takes out one that never happened. A stage that nobody
 * has worked on then waits again, and so does a car.
 * @throws WORK_RUNS while somebody is still at it
 * @throws WORK_REVERSED | WORK_AHEAD | WORK_OVERLAPS | PERSON_NOT_HERE as for typing in
 */
export function correctTime(ctx: WriteCtx, input: In<'bookings.correctTime'>): void {
  const work =
    findWork(ctx.db, input.workId) ?? refuse('NOT_FOUND', { what: 'stretch', id: String(input.workId) });
  if (work.endMs === null) refuse('WORK_RUNS', { person: needWorker(ctx, work.personId, work.startMs).name });
  if (input.change.to === 'removed') removeWork(ctx.db, work.id);
  else {
    const { personId, startMs, endMs } = input.change;
    checkTyped(ctx, { personId, startMs, endMs }, work.id);
    correctWork(ctx.db, work.id, { personId, startMs, endMs });
  }
  settleBegin(ctx, work.stageId);
  ctx.changed(work.stageId, 'work');
}

/** A stage began when somebody first worked on it; with no time left on it, it was not begun at all. */
function settleBegin(ctx: WriteCtx, stageId: StageId): void {
  const { stage, job } = needStage(ctx.db, stageId);
  const [first] = workOfStage(ctx.db, stageId);
  if (first) saveStage(ctx.db, stageId, { startedMs: first.startMs });
  const ticked = panelsDoneOf(ctx.db, job.id).has(stageId);
  if (first || stage.state === 'done' || stage.crew === 0 || ticked) return;
  saveStage(ctx.db, stageId, { startedMs: null, ...(stage.state === 'paused' ? { state: 'planned' } : {}) });
  const begun = stagesOf(ctx.db, job.id).some((s) => s.startedMs !== null || s.state === 'done');
  if (job.state === 'inWork' && !begun) saveJob(ctx.db, job.id, { state: 'here' });
}

function checkTyped(ctx: WriteCtx, typed: Typed, own: number | null): void {
  if (typed.endMs <= typed.startMs) refuse('WORK_REVERSED', {});
  if (typed.endMs > ctx.now) refuse('WORK_AHEAD', {});
  const worker = needWorker(ctx, typed.personId, typed.endMs);
  const others = workOfPerson(ctx.db, worker.id, typed.startMs, typed.endMs).filter((w) => w.id !== own);
  const clash = typedClash(typed, others, ctx.now);
  const at = clash && others.find((w) => w.id === clash.id);
  if (at) refuse('WORK_OVERLAPS', { person: worker.name, number: at.jobNumber, stage: at.kind });
}
