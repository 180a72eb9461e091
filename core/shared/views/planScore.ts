/** How good plans are, as a look for better ones goes on. Minutes are whole. */
export type PlanScore = {
  /** Jobs whose plan cannot be worked as it stands. */
  readonly broken: number;
  /** Plans that time has passed: a stage should have begun before now and has not. */
  readonly behind: number;
  /** Customers whose drop-off or promise would change, and who have not agreed. */
  readonly asked: number;
  /** Minutes late as the clock has them; the plan is chosen by them times the weight of each job. */
  readonly lateMin: number;
  readonly weighedMin: number;
  readonly lateJobs: number;
  readonly touched: number;
  readonly sumReadyMin: number;
};

/** What a search that goes on has reached: its progress note. */
export type ReplanStep = { readonly best: PlanScore; readonly bound: LateBound };

/** No plan can be less late than this, nor less late as weighed. */
export type LateBound = { readonly lateMin: number; readonly weighedMin: number };
