import type { WriteCtx } from '../../context.ts';
import type { baysEntries } from '../../shared/catalogue/bays.ts';
import type { InputOf } from '../../shared/entry.ts';
import { refuse } from '../../shared/errors.ts';
import type { JobId } from '../../shared/ids.ts';
import { type EpochMin, MS_PER_MIN } from '../../shared/units.ts';
import type { PlanFault } from '../../shared/views/plan.ts';
import type { PlanChange } from '../../shared/views/planChange.ts';
import { type LiveBoard, liveBoard } from '../../views/liveBoard.ts';
import { plannedSince, writtenDown } from '../rules/begun.ts';
import { shiftedJob } from '../rules/changes.ts';
import { BY_CONSENT } from '../rules/consent.ts';

import type { Board, JobPlan } from '../rules/model.ts';
import { checkMove, type Mover, type MoveWish, movedPlan } from '../rules/move.ts';
import { isStanding, STANDS_BESIDE, standingFaults } from '../rules/standing.ts';
import { faultsOfJob } from '../rules/validate.ts';
import { begunStages, hasCome, noteConflict, planOfJob, planRevision, replacePlans } from '../store/plan.ts';
import { cutAt, letOthersGo, makeRoom, refuseRule, stoodBy } from './makeRoom.ts';
import { plannable, planView } from './offers.ts';
import { faultSentence } from './words.ts';

type In<N extends keyof typeof baysEntries> = InputOf<(typeof baysEntries)[N]>;

/** The board as a change sees it. @throws PLAN_CHANGED when it is not the one that was looked at */
export function boardForChange(ctx: WriteCtx, revision: number, jobId?: JobId): LiveBoard {
  if (planRevision(ctx.db) !== revision) refuse('PLAN_CHANGED', {});
  return liveBoard(ctx.db, jobId ? { nowMs: ctx.now, jobId } : { nowMs: ctx.now });
}

export function wishOf(input: In<'bays.checkMove'>): MoveWish {
  const { stageIds, bayId, startMin, personId } = input;
  return { stageIds, bayId, startMin, personId: personId ?? null };
}

/** The block alone, or its whole job with it. */
export function moverOf(input: { readonly whole?: boolean | undefined }): Mover {
  return input.whole ? shiftedJob : movedPlan;
}

/**
 * Moves a block of stages, or its whole job along with it.
 * @throws PLAN_CHANGED · PLAN_BREAKS_RULE with the rule in words · NEEDS_CONSENT when a promise would be broken
 */
export function moveBlock(ctx: WriteCtx, input: In<'bays.move'>): PlanChange {
  const live = boardForChange(ctx, input.planRevision);
  const job = plannable(live, input.jobId);
  const plan = live.board.plans.get(job.id) ?? refuse('NOT_FOUND', { what: 'plan', id: job.id });
  const result = checkMove(live.board, job, plan, wishOf(input), moverOf(input));
  if (!result.ok) return refuseRule(live, result.fault);
  return savePlans(ctx, live, [result.plan], new Set(input.consent ? [job.id] : []));
}

/** @throws PLAN_CHANGED · NOT_FOUND · UNDO_OVERTAKEN when one of the plans was made anew since the change left it, or its job is over */
export function refuseOvertaken(ctx: WriteCtx, { planRevision, left }: In<'bays.restorePlans'>): void {
  const live = boardForChange(ctx, planRevision);
  for (const plan of left) {
    const job = live.board.jobs.get(plan.jobId) ?? refuse('NOT_FOUND', { what: 'job', id: plan.jobId });
    if (job.start.kind === 'over' || plannedSince(job, plan, planOfJob(ctx.db, plan.jobId)))
      refuse('UNDO_OVERTAKEN', { who: job.who });
  }
}

/**
 * Puts plans back. Only what can't stand beside the others is refused, and of that not what these plans broke already
 * when they were changed: work that runs over lies in the way of the old plan too.
 * @throws PLAN_CHANGED · PLAN_BREAKS_RULE
 */
export function restorePlans(ctx: WriteCtx, input: In<'bays.restorePlans'>): PlanChange {
  const live = boardForChange(ctx, input.planRevision);
  const asIs = new Set(input.plans.map((p) => p.jobId));
  const matters = (f: PlanFault): boolean => STANDS_BESIDE.includes(f.rule) && !isStanding(f, input.standing);
  return savePlans(ctx, live, input.plans, asIs, matters);
}

/**
 * Checks plans together with the validator and keeps them: all are lifted, then all are set. What is broken already
 * and not touched stays a conflict on the board. They are checked on `checkedOn`, a board of a little earlier if need be.
 */
export function savePlans(
  ctx: WriteCtx,
  live: LiveBoard,
  plans: readonly JobPlan[],
  consent: ReadonlySet<JobId>,
  matters: (fault: PlanFault) => boolean = () => true,
  checkedOn: Board = live.board,
): PlanChange {
  const merged = new Map(checkedOn.plans);
  for (const plan of plans) merged.set(plan.jobId, plan);
  const board: Board = { ...checkedOn, plans: merged };
  for (const plan of plans) {
    const job = board.jobs.get(plan.jobId) ?? refuse('NOT_FOUND', { what: 'job', id: plan.jobId });
    const faults = faultsOfJob(board, job, plan).filter(matters);
    const hard = faults.find((f) => !BY_CONSENT.includes(f.rule));
    if (hard) return refuseRule(live, hard);
    const soft = faults[0];
    if (soft && !consent.has(plan.jobId))
      return refuse('NEEDS_CONSENT', { sentence: faultSentence(soft, live) });
  }
  const kept = letOthersGo(ctx, live, new Set(plans.map((p) => p.jobId)));
  const undo = plans.map((p) => planOfJob(ctx.db, p.jobId));
  const left = plans.map((plan, i) => planView(writtenDown(live.board, plan, undo[i])));
  replacePlans(ctx.db, makeRoom(ctx, live, kept, left));
  for (const plan of plans) ctx.changed(plan.jobId, 'plan');
  return { planRevision: planRevision(ctx.db), undo, standing: standingFaults(live.board, undo), left };
}

/** Takes note of a conflict. */
export function takeNote(ctx: WriteCtx, input: In<'bays.noteConflict'>): null {
  noteConflict(ctx.db, input.key, ctx.actor?.personId ?? null, ctx.now);
  ctx.changed(input.key, 'noted');
  return null;
}

/**
 * Takes a job off the board: the car is not coming for it now, or it is here no longer. Where it was worked on before
 * stays on record; where it stood too, unless it counts as not having come.
 */
export function clearPlan(ctx: WriteCtx, jobId: JobId): void {
  const nowMin = Math.floor(ctx.now / MS_PER_MIN) as EpochMin;
  const begun = begunStages(ctx.db, jobId);
  const plan = planOfJob(ctx.db, jobId);
  const pieces = plan.pieces.filter((p) => begun.has(p.stageId)).map((p) => cutAt(p, nowMin));
  const stays = hasCome(ctx.db, jobId) ? stoodBy(plan.stays, nowMin) : [];
  replacePlans(ctx.db, [{ jobId, stays, pieces }]);
  ctx.changed(jobId, 'plan');
}

/**
 * A car that was stopped half way stays where it stands until it is fetched: the bays it was still to go to, and
 * everybody who was to work on it, are free.
 */
export function standStill(ctx: WriteCtx, jobId: JobId): void {
  const nowMin = Math.floor(ctx.now / MS_PER_MIN) as EpochMin;
  const kept = planOfJob(ctx.db, jobId);
  if (kept.stays.length === 0) return;
  const begun = begunStages(ctx.db, jobId);
  const been = kept.stays.filter((s) => s.arriveMin <= nowMin);
  const stays = been.length > 0 ? been : kept.stays.slice(0, 1);
  const pieces = kept.pieces.filter((p) => begun.has(p.stageId)).map((p) => cutAt(p, nowMin));
  replacePlans(ctx.db, [{ jobId, stays, pieces }]);
  ctx.changed(jobId, 'plan');
}
