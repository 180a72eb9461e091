import type { WriteCtx } from '../../context.ts';
import { refuse } from '../../shared/errors.ts';
import type { JobId } from '../../shared/ids.ts';
import { type EpochMin, MS_PER_MIN } from '../../shared/units.ts';
import type { JobPlanView, PiecePlan, PlanFault } from '../../shared/views/plan.ts';
import type { LiveBoard } from '../../views/liveBoard.ts';
import { keptClash, overtakenStays, type StoodUntil, sinceRoom, withPlans } from '../rules/keptClash.ts';
import { letGo } from '../rules/letGo.ts';
import type { JobPlan } from '../rules/model.ts';
import { endedEarly, planOfJob, replacePlans } from '../store/plan.ts';
import { stoodUntil } from '../store/stays.ts';
import { planView } from './offers.ts';
import { faultSentence } from './words.ts';

/**
 * Other cars let go of what they hold for nothing, before plans of `own` are written: the file would refuse those.
 * All plans as they are kept after that.
 */
export function letOthersGo(ctx: WriteCtx, live: LiveBoard, own: ReadonlySet<JobId>): LiveBoard['kept'] {
  const ended = tidyEnded(ctx);
  const freed = freeHeld(ctx, live, new Set([...own, ...ended.map((p) => p.jobId)]));
  return withPlans(live.kept, [...ended, ...freed]);
}

/** Jobs that are over let go of the places they still hold on the plan; which they were. */
function tidyEnded(ctx: WriteCtx): readonly JobPlanView[] {
  const nowMin = Math.floor(ctx.now / MS_PER_MIN);
  const ended = endedEarly(ctx.db, nowMin);
  if (ended.length === 0) return [];
  const plans = ended.map(({ jobId, endMin }): JobPlanView => {
    const plan = planOfJob(ctx.db, jobId);
    return {
      jobId,
      stays: stoodBy(plan.stays, endMin),
      pieces: endMin === 0 ? [] : plan.pieces.map((p) => cutAt(p, endMin)),
    };
  });
  replacePlans(ctx.db, plans);
  return plans;
}

/** The stays as far as they lie before a car went. */
export function stoodBy(stays: JobPlanView['stays'], leaveMin: EpochMin): JobPlanView['stays'] {
  return stays
    .filter((s) => s.arriveMin < leaveMin)
    .map((s) => (s.leaveMin > leaveMin ? { ...s, leaveMin } : s));
}

/** Cut, not lifted: the record finds by it where the work was done. */
export function cutAt(piece: PiecePlan, endMin: EpochMin): PiecePlan {
  if (piece.startMin >= endMin)
    return { ...piece, personIds: [], startMin: endMin, endMin, dwellEndMin: endMin };
  const before = (t: EpochMin): EpochMin => (t < endMin ? t : endMin);
  return { ...piece, endMin: before(piece.endMin), dwellEndMin: before(piece.dwellEndMin) };
}

/**
 * Other jobs let go of people whom they hold for a stage that is over: the kept plan would refuse the new one. `but`
 * are those written anew in this change: `live` holds their plans as they were before.
 */
function freeHeld(ctx: WriteCtx, live: LiveBoard, but: ReadonlySet<JobId>): readonly JobPlan[] {
  const freed: JobPlan[] = [];
  for (const job of live.board.jobs.values()) {
    if (job.start.kind === 'over' || but.has(job.id)) continue;
    if (job.stages.every((s) => s.state === 'planned')) continue;
    const kept = live.kept.get(job.id);
    const plan = kept && letGo(kept, job.stages, live.board.nowMin, live.board.plans.get(job.id));
    if (plan) freed.push(plan);
  }
  if (freed.length > 0) replacePlans(ctx.db, freed.map(planView));
  return freed;
}

/**
 * Plans as the file has room for them, with those of other cars whose kept stays would be in the way of these and that stand
 * elsewhere now.
 * @throws PLAN_BREAKS_RULE where there is no room beside what is kept: the file would not take it
 */
export function makeRoom(
  ctx: WriteCtx,
  live: LiveBoard,
  kept: LiveBoard['kept'],
  plans: readonly JobPlan[],
): readonly JobPlanView[] {
  const moved = overtakenStays(live.board, kept, plans);
  const clash = keptClash(live.board, kept, [...moved, ...plans]);
  if (clash) refuseRule(live, clash);
  const until: StoodUntil = (jobId, stay) => stoodUntil(ctx.db, jobId, stay, live.board.nowMin);
  return [...moved, ...plans].map((plan) => planView(sinceRoom(live.board, kept, plan, until)));
}

/** @throws PLAN_BREAKS_RULE with the rule in words */
export function refuseRule(live: LiveBoard, fault: PlanFault): never {
  return refuse('PLAN_BREAKS_RULE', { rule: fault.rule, sentence: faultSentence(fault, live) });
}
