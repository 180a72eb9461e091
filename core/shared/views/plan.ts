import type { BayId, JobId, PersonId, StageId } from '../ids.ts';
import type { EpochMin, Ppm } from '../units.ts';
import type { SpanView } from './bays.ts';
import type { LateBound, PlanScore } from './planScore.ts';

/** A vehicle's stay and a stretch of work, as plans carry them between screen and core. */
export type StayPlan = { readonly bayId: BayId; readonly arriveMin: EpochMin; readonly leaveMin: EpochMin };

export type PiecePlan = {
  readonly stageId: StageId;
  readonly bayId: BayId;
  readonly personIds: readonly PersonId[];
  readonly startMin: EpochMin;
  readonly endMin: EpochMin;
  readonly dwellEndMin: EpochMin;
};

export type JobPlanView = {
  readonly jobId: JobId;
  readonly stays: readonly StayPlan[];
  readonly pieces: readonly PiecePlan[];
  /** In an undo: what was agreed with the customer before the change, when the change moved that too. */
  readonly agreed?: Agreement | undefined;
};

export type Agreement = {
  readonly dropOffMin: EpochMin;
  readonly pickUpMin: EpochMin;
  readonly promisePpm: Ppm | null;
  readonly bold: boolean;
};

export const PLAN_RULES = [
  'stageMissing',
  'stageOrder',
  'noPlace',
  'bayTaken',
  'yardFull',
  'noRoomToPass',
  'bayClosed',
  'bayKind',
  'pieceOutsideStay',
  'tooSoonAfterArrival',
  'personBusy',
  'personSkill',
  'personAway',
  'crewShort',
  'labourShort',
  'notSplittable',
  'dwellShort',
  'gapShort',
  'gapLong',
  'dustOnCoating',
  'coatingInDust',
  'departureClosed',
  'dropOffClosed',
  'pickUpClosed',
  'dropOffMoved',
  'promiseMissed',
  'inThePast',
  'dropOffPassed',
  'alreadyDone',
] as const;

export type PlanRule = (typeof PLAN_RULES)[number];

/** One rule that a plan breaks, with the names its sentence needs. */
export type PlanFault = {
  readonly rule: PlanRule;
  readonly jobId: JobId;
  readonly bayId: BayId | null;
  readonly personId: PersonId | null;
  readonly words: Readonly<Record<string, string | number>>;
};

/** Held at `startMin` a block comes to lie from `lands.startMin` on; what is carried with it is over by `lands.endMin`. */
export type NearPlace = {
  readonly bayId: BayId;
  readonly bayName: string;
  readonly startMin: EpochMin;
  readonly lands: SpanView;
  /** Somebody has to agree to it. */
  readonly asks: boolean;
};

/**
 * What comes of a move. `lands`: where the block would really lie, and until when what is carried with it. Where it is
 * refused and nothing near would do for the block alone, `whole` are the places where its whole job could go along.
 */
export type MoveCheck =
  | {
      readonly ok: true;
      readonly plan: JobPlanView;
      readonly lands: SpanView;
      readonly needsConsent: readonly PlanFault[];
    }
  | {
      readonly ok: false;
      readonly fault: PlanFault;
      readonly nearest: readonly NearPlace[];
      readonly whole: readonly NearPlace[];
    };

/** As a move's check, for swaps, splits and drawn ends; `nearest` are minutes that would do, `lands` each car of a swap. */
export type ChangeCheck =
  | {
      readonly ok: true;
      readonly lands: readonly (SpanView & { readonly jobId: JobId; readonly who: string })[];
      readonly needsConsent: readonly PlanFault[];
    }
  | { readonly ok: false; readonly fault: PlanFault; readonly nearest: readonly NearPlace[] };

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
