import type { ReadCtx, WriteCtx } from '../../context.ts';
import type { baysEntries } from '../../shared/catalogue/bays.ts';
import type { InputOf } from '../../shared/entry.ts';
import { refuse } from '../../shared/errors.ts';
import type { JobId, StageId } from '../../shared/ids.ts';
import type { EpochMin } from '../../shared/units.ts';
import type { JobPlanView, MoveCheck, PiecePlan, PlanChange, PlanFault } from '../../shared/views/bays.ts';
import { type LiveBoard, liveBoard } from '../../views/liveBoard.ts';
import { openBetween } from '../rules/calendar.ts';
import { letGo } from '../rules/letGo.ts';
import type { Board, JobPlan, Piece } from '../rules/model.ts';
import { checkMove, type MoveWish, movedPlan, nearestPlaces } from '../rules/move.ts';
import { faultsOfJob } from '../rules/validate.ts';
import { endedEarly, noteConflict, planOfJob, planRevision, replacePlans } from '../store/plan.ts';
import { plannable, planView } from './offers.ts';
import { faultSentence } from './words.ts';

type In<N extends keyof typeof baysEntries> = InputOf<(typeof baysEntries)[N]>;
const BY_CONSENT: readonly string[] = ['promiseMissed', 'dropOffMoved'];

/** The board as a change sees it. @throws PLAN_CHANGED when it is not the one that was looked at */
export function boardForChange(ctx: WriteCtx, revision: number, jobId?: JobId): LiveBoard {
  if (planRevision(ctx.db) !== revision) refuse('PLAN_CHANGED', {});
  return liveBoard(ctx.db, jobId ? { nowMs: ctx.now, jobId } : { nowMs: ctx.now });
}

/** Whether a block may move there. @throws NOT_FOUND · JOB_NOT_PLANNABLE */
export function moveCheck(ctx: ReadCtx, input: In<'bays.checkMove'>): MoveCheck {
  const live = liveBoard(ctx.db, { nowMs: ctx.now });
  const job = plannable(live, input.jobId);
  const plan = live.board.plans.get(job.id) ?? refuse('NOT_FOUND', { what: 'plan', id: job.id });
  const wish = wishOf(input);
  const result = checkMove(live.board, job, plan, wish);
  if (result.ok) return { ok: true, plan: planView(result.plan), needsConsent: result.consent };
  const nearest = nearestPlaces(live.board, job, plan, wish).map((n) => ({
    bayId: n.bayId,
    bayName: live.board.places.find((p) => p.id === n.bayId)?.name ?? '',
    startMin: n.startMin as EpochMin,
  }));
  return { ok: false, fault: result.fault, nearest };
}

function wishOf(input: In<'bays.checkMove'>): MoveWish {
  const { stageIds, bayId, startMin, personId } = input;
  return { stageIds, bayId, startMin, personId: personId ?? null };
}

/**
 * Moves a block of stages.
 * @throws PLAN_CHANGED · PLAN_BREAKS_RULE with the rule in words · NEEDS_CONSENT when a promise would be broken
 */
export function moveBlock(ctx: WriteCtx, input: In<'bays.move'>): PlanChange {
  const live = boardForChange(ctx, input.planRevision);
  const job = plannable(live, input.jobId);
  const plan = live.board.plans.get(job.id) ?? refuse('NOT_FOUND', { what: 'plan', id: job.id });
  const result = checkMove(live.board, job, plan, wishOf(input));
  if (!result.ok) return refuseRule(live, result.fault);
  return savePlans(ctx, live, [result.plan], new Set(input.consent ? [job.id] : []));
}

/** Swaps two blocks: each takes the other's place and start. @throws as a move */
export function swapBlocks(ctx: WriteCtx, input: In<'bays.swap'>): PlanChange {
  const live = boardForChange(ctx, input.planRevision);
  const [a, b] = [blockOf(live, input.a), blockOf(live, input.b)];
  const emptied = (id: JobId): Board => {
    const plans = new Map(live.board.plans);
    plans.delete(id);
    return { ...live.board, plans };
  };
  const swapped = [
    movedPlan(emptied(b.job.id), a.job, a.plan, { ...b.at, stageIds: input.a.stageIds }),
    movedPlan(emptied(a.job.id), b.job, b.plan, { ...a.at, stageIds: input.b.stageIds }),
  ];
  const plans = swapped.flatMap((p) => p ?? []);
  if (plans.length < 2) return refuse('NOT_FOUND', { what: 'stage', id: input.a.stageIds[0] ?? '' });
  return savePlans(ctx, live, plans, new Set(input.consent ? [a.job.id, b.job.id] : []));
}

function blockOf(live: LiveBoard, of: { readonly jobId: JobId; readonly stageIds: readonly StageId[] }) {
  const job = plannable(live, of.jobId);
  const plan = live.board.plans.get(job.id) ?? refuse('NOT_FOUND', { what: 'plan', id: job.id });
  const first = plan.pieces.find((p) => of.stageIds.includes(p.stageId));
  if (!first) return refuse('NOT_FOUND', { what: 'stage', id: of.stageIds[0] ?? '' });
  return { job, plan, at: { bayId: first.bayId, startMin: first.startMin, personId: null } };
}

/**
 * Splits a stage's work at a minute; the rest keeps its time and may go to somebody else.
 * @throws STAGE_CANNOT_SPLIT · PLAN_BREAKS_RULE · PLAN_CHANGED
 */
export function splitStage(ctx: WriteCtx, input: In<'bays.split'>): PlanChange {
  const live = boardForChange(ctx, input.planRevision);
  const job = plannable(live, input.jobId);
  const plan = live.board.plans.get(job.id) ?? refuse('NOT_FOUND', { what: 'plan', id: job.id });
  const stage = job.stages.find((s) => s.id === input.stageId);
  const piece = plan.pieces.find(
    (p) => p.stageId === input.stageId && p.startMin < input.atMin && input.atMin < p.endMin,
  );
  if (!stage?.splittable || !piece) return refuse('STAGE_CANNOT_SPLIT', { stage: stage?.kind ?? '' });
  const crew = live.board.technicians.find((t) => piece.personIds.includes(t.id));
  const worked = crew ? openBetween(crew.hours, piece.startMin, input.atMin) : 1;
  if (worked <= 0) return refuse('STAGE_CANNOT_SPLIT', { stage: stage.kind });
  const head: Piece = { ...piece, endMin: input.atMin, dwellEndMin: input.atMin };
  const personIds = input.personId ? [input.personId] : piece.personIds;
  const tail: Piece = { ...piece, startMin: input.atMin, personIds };
  const pieces = plan.pieces.flatMap((p) => (p === piece ? [head, tail] : [p]));
  return savePlans(ctx, live, [{ ...plan, pieces }], new Set());
}

/** Puts plans back. Only what can't stand beside the others is refused. @throws PLAN_CHANGED · PLAN_BREAKS_RULE */
export function restorePlans(ctx: WriteCtx, input: In<'bays.restorePlans'>): PlanChange {
  const live = boardForChange(ctx, input.planRevision);
  const asIs = new Set(input.plans.map((p) => p.jobId));
  return savePlans(ctx, live, input.plans, asIs, [
    'bayTaken',
    'yardFull',
    'bayClosed',
    'personBusy',
    'noPlace',
  ]);
}

/** Applies a re-plan whole. @throws PLAN_CHANGED · PLAN_BREAKS_RULE · NEEDS_CONSENT */
export function applyReplan(ctx: WriteCtx, input: In<'bays.applyReplan'>): PlanChange {
  const live = boardForChange(ctx, input.planRevision);
  const late = new Set(input.consent);
  // A promise that is late already may stay late in the better plan: that is no new breach.
  for (const [id, plan] of live.board.plans) {
    const job = live.board.jobs.get(id);
    if (job && faultsOfJob(live.board, job, plan).some((f) => f.rule === 'promiseMissed')) late.add(id);
  }
  return savePlans(ctx, live, input.plans, late);
}

/**
 * Checks plans together with the validator and keeps them: all are lifted, then all are set. What is broken already
 * and not touched stays a conflict on the board.
 */
export function savePlans(
  ctx: WriteCtx,
  live: LiveBoard,
  plans: readonly JobPlan[],
  consent: ReadonlySet<JobId>,
  only?: readonly PlanFault['rule'][],
): PlanChange {
  const merged = new Map(live.board.plans);
  for (const plan of plans) merged.set(plan.jobId, plan);
  const board: Board = { ...live.board, plans: merged };
  for (const plan of plans) {
    const job = board.jobs.get(plan.jobId) ?? refuse('NOT_FOUND', { what: 'job', id: plan.jobId });
    const faults = faultsOfJob(board, job, plan).filter((f) => only === undefined || only.includes(f.rule));
    const hard = faults.find((f) => !BY_CONSENT.includes(f.rule));
    if (hard) return refuseRule(live, hard);
    const soft = faults[0];
    if (soft && !consent.has(plan.jobId))
      return refuse('NEEDS_CONSENT', { sentence: faultSentence(soft, live.shop.zone) });
  }
  tidyEnded(ctx);
  freeHeld(ctx, live, new Set(plans.map((p) => p.jobId)));
  const undo = plans.map((p) => planOfJob(ctx.db, p.jobId));
  replacePlans(ctx.db, plans as unknown as readonly JobPlanView[]);
  for (const plan of plans) ctx.changed(plan.jobId, 'plan');
  return { planRevision: planRevision(ctx.db), undo };
}

function refuseRule(live: LiveBoard, fault: PlanFault): never {
  return refuse('PLAN_BREAKS_RULE', { rule: fault.rule, sentence: faultSentence(fault, live.shop.zone) });
}

/** Jobs that are over let go of the places they still hold on the plan. */
function tidyEnded(ctx: WriteCtx): void {
  const ended = endedEarly(ctx.db);
  if (ended.length === 0) return;
  const plans = ended.map(({ jobId, endMin }): JobPlanView => {
    const plan = planOfJob(ctx.db, jobId);
    const leaveMin = endMin;
    return {
      jobId,
      stays: plan.stays
        .filter((s) => s.arriveMin < endMin)
        .map((s) => (s.leaveMin > endMin ? { ...s, leaveMin } : s)),
      pieces: endMin === 0 ? [] : plan.pieces.map((p) => cutAt(p, endMin)),
    };
  });
  replacePlans(ctx.db, plans);
}

/** Cut, not lifted: the record finds by it where the work was done. */
function cutAt(piece: PiecePlan, endMin: EpochMin): PiecePlan {
  if (piece.startMin >= endMin)
    return { ...piece, personIds: [], startMin: endMin, endMin, dwellEndMin: endMin };
  const before = (t: EpochMin): EpochMin => (t < endMin ? t : endMin);
  return { ...piece, endMin: before(piece.endMin), dwellEndMin: before(piece.dwellEndMin) };
}

/** Other jobs let go of people whom they hold for a stage that is over: the kept plan would refuse the new one. */
function freeHeld(ctx: WriteCtx, live: LiveBoard, but: ReadonlySet<JobId>): void {
  const freed: JobPlan[] = [];
  for (const job of live.board.jobs.values()) {
    if (but.has(job.id) || job.stages.every((s) => s.state === 'planned')) continue;
    const now = live.board.plans.get(job.id);
    const plan = letGo(planOfJob(ctx.db, job.id), job.stages, live.board.nowMin, now);
    if (plan) freed.push(plan);
  }
  if (freed.length > 0) replacePlans(ctx.db, freed as unknown as readonly JobPlanView[]);
}

/** Takes note of a conflict. */
export function takeNote(ctx: WriteCtx, input: In<'bays.noteConflict'>): null {
  noteConflict(ctx.db, input.key, ctx.actor?.personId ?? null, ctx.now);
  ctx.changed(input.key, 'noted');
  return null;
}

/** Takes all of a job off the board: the car is not coming for it now. */
export function clearPlan(ctx: WriteCtx, jobId: JobId): void {
  replacePlans(ctx.db, [{ jobId, stays: [], pieces: [] }]);
  ctx.changed(jobId, 'plan');
}
