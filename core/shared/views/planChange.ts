import type { JobPlanView, PlanFault } from './plan.ts';

/** A fault by which a plan cannot stand beside the others; `other` names the cars in its way, if any are. */
export type StandingFault = Pick<PlanFault, 'rule' | 'jobId' | 'bayId' | 'personId'> & {
  readonly other: string;
};

/**
 * What a plan change did and how to take it back: `undo`, `standing` and `left` go to `bays.restorePlans`. `standing`
 * are the faults that the plans in `undo` had already when they were changed, as where work that runs lies in their way;
 * `left` are the plans as the change left them.
 */
export type PlanChange = {
  readonly planRevision: number;
  readonly undo: readonly JobPlanView[];
  readonly standing: readonly StandingFault[];
  readonly left: readonly JobPlanView[];
};
