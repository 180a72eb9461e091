import type { StageId } from '#core/shared/ids.ts';
import type { JobPlan } from './model.ts';

/** Where work comes to lie: it begins at its first piece and ends with the last one, curing included. */
export type Lands = { readonly startMin: number; readonly endMin: number };

/** Where some stages lie in a plan; null where none of them has a place in it. */
export function landsAt(plan: JobPlan, stageIds: readonly StageId[]): Lands | null {
  const own = plan.pieces.filter((p) => stageIds.includes(p.stageId));
  if (own.length === 0) return null;
  return {
    startMin: Math.min(...own.map((p) => p.startMin)),
    endMin: Math.max(...own.map((p) => p.dwellEndMin)),
  };
}

/** What is agreed with a customer, or how their car comes, goes and is ready by a plan. */
type Agreed = { readonly dropOffMin: number; readonly pickUpMin: number };
type ByPlan = { readonly arriveMin: number; readonly leaveMin: number; readonly readyMin: number };

/**
 * What is agreed once a customer has said yes to a plan: a car that has not come comes as planned; one that would be ready
 * later than promised is promised for when it is planned to leave, every other promise stands.
 */
export function agreedBy(was: Agreed, plan: ByPlan, comes: boolean): Agreed {
  return {
    dropOffMin: comes ? plan.arriveMin : was.dropOffMin,
    pickUpMin: plan.readyMin > was.pickUpMin ? plan.leaveMin : was.pickUpMin,
  };
}
