import type { JobId } from '../ids.ts';
import type { EpochMin, Ppm } from '../units.ts';
import type { JobPlanView } from './bays.ts';

/** What a look for a better plan comes to. Times are whole minutes since the epoch. */
export type ReplanJob = {
  readonly jobId: JobId;
  readonly number: number;
  readonly who: string;
  readonly promiseMin: EpochMin | null;
  /** The pick-up that would be agreed instead; null while the promise stands. */
  readonly newPromiseMin: EpochMin | null;
  readonly readyBeforeMin: EpochMin | null;
  readonly readyAfterMin: EpochMin;
  /** How sure the promise is now, and how sure the one that holds then is. */
  readonly beforePpm: Ppm | null;
  readonly afterPpm: Ppm | null;
  /** Less sure than the shop's promises are, by this plan: applied only where the desk chooses it. */
  readonly bold: boolean;
  readonly before: JobPlanView;
  readonly after: JobPlanView;
  /** The promise or the drop-off changes: its people have to agree before it is applied. */
  readonly needsConsent: boolean;
};

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

export type ReplanView = {
  readonly planRevision: number;
  /** The minute it was worked out for; it goes back with it when it is applied. */
  readonly nowMin: EpochMin;
  readonly before: PlanScore;
  readonly after: PlanScore;
  readonly bound: LateBound;
  /** `plan` when every way out was tried and none is better; `lateness` when the plan found reaches the bound as weighed. */
  readonly proved: 'no' | 'lateness' | 'plan';
  readonly moved: readonly ReplanJob[];
  readonly iterations: number;
};
