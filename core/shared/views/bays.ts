import type { BayId, JobId, PersonId, StageId } from '../ids.ts';
import type { EpochMin, Ppm } from '../units.ts';
import type { BayKind, JobState, Skill, StageKind, StageState } from '../vocabulary.ts';
import type { LateBound, PlanScore } from './planScore.ts';

/** What the bay board and the offers show. Times are whole minutes since the epoch, spans half-open. */
export type SpanView = { readonly startMin: EpochMin; readonly endMin: EpochMin };

/** The parts of a bay's open minutes in the range: they sum to `openMin`. */
export type LaneUse = {
  readonly openMin: number;
  readonly attendedMin: number;
  readonly cureMin: number;
  readonly standingMin: number;
  readonly idleMin: number;
};

export type LaneView = {
  readonly bayId: BayId;
  readonly name: string;
  readonly kind: BayKind;
  readonly capacity: number;
  readonly setupMin: number;
  readonly closed: readonly SpanView[];
  readonly use: LaneUse;
  readonly revision: number;
};

/** A stretch that somebody worked, works or is to work on a stage; `who` is whose car it is. */
export type HandView = SpanView & {
  readonly stageId: StageId;
  readonly kind: StageKind;
  readonly who: string;
  readonly state: StageState;
  readonly late: boolean;
};

/** `bookedMin` are the minutes of the work, as it was done and is to be done, within the shifts. */
export type PersonLaneView = {
  readonly personId: PersonId;
  readonly name: string;
  readonly skills: readonly Skill[];
  readonly speedPpm: Ppm;
  readonly shifts: readonly SpanView[];
  readonly away: readonly SpanView[];
  readonly shiftMin: number;
  readonly bookedMin: number;
  /** In the order of time. */
  readonly work: readonly HandView[];
};

/** A stretch of attended work, with the dwell after it that holds the place. */
export type PieceView = {
  readonly stageId: StageId;
  readonly kind: StageKind;
  readonly state: StageState;
  readonly splittable: boolean;
  readonly late: boolean;
  readonly personIds: readonly PersonId[];
  readonly startMin: EpochMin;
  readonly endMin: EpochMin;
  readonly dwellEndMin: EpochMin;
};

/** One vehicle standing in one place, with the work done there. */
export type BlockView = {
  readonly jobId: JobId;
  readonly number: number;
  readonly who: string;
  readonly vehicle: string;
  readonly state: JobState;
  readonly bayId: BayId;
  readonly arriveMin: EpochMin;
  readonly leaveMin: EpochMin;
  /** Attended minutes of the whole job, the middle of their sum. */
  readonly workMin: number;
  readonly confirmed: boolean;
  readonly pieces: readonly PieceView[];
};

/** A promise as a flag at the right edge of a job: where it hangs and what was promised. */
export type PromiseFlag = {
  readonly jobId: JobId;
  readonly bayId: BayId;
  readonly atMin: EpochMin;
  readonly promisedPpm: Ppm | null;
  readonly bold: boolean;
};

/** How sure a promise is now. `nowPpm` is the simulated chance that the car is ready by `atMin`. */
export type PromiseNow = {
  readonly jobId: JobId;
  readonly number: number;
  readonly who: string;
  readonly atMin: EpochMin;
  readonly nowPpm: Ppm;
  /** How sure the shop's promises are; as sure as it was made, where the desk chose a bolder one. */
  readonly levelPpm: Ppm;
  readonly p50Min: EpochMin;
  readonly p80Min: EpochMin;
  readonly p95Min: EpochMin;
  readonly atRisk: boolean;
};

export type ConflictKind =
  | 'overrun'
  | 'notBegun'
  | 'notCollected'
  | 'lateArrival'
  | 'twoCars'
  | 'planBroken'
  | 'padsMissing';

export type ConflictView = {
  readonly key: string;
  readonly kind: ConflictKind;
  readonly jobId: JobId;
  readonly otherJobId: JobId | null;
  readonly bayId: BayId | null;
  readonly atMin: EpochMin;
  readonly minutes: number;
  /** What the sentence of this kind needs: names, a rule's key. */
  readonly words: Readonly<Record<string, string | number>>;
  readonly acknowledged: boolean;
};

/** A job that is booked or here without (all of) its stages on the board. */
export type UnplacedView = {
  readonly jobId: JobId;
  readonly number: number;
  readonly who: string;
  readonly vehicle: string;
  readonly state: JobState;
  readonly workMin: number;
};

export type BoardView = {
  readonly zone: string;
  readonly fromMin: EpochMin;
  readonly toMin: EpochMin;
  readonly nowMin: EpochMin;
  readonly planRevision: number;
  readonly open: readonly SpanView[];
  readonly desk: readonly SpanView[];
  readonly lanes: readonly LaneView[];
  readonly people: readonly PersonLaneView[];
  readonly blocks: readonly BlockView[];
  readonly promises: readonly PromiseFlag[];
  readonly conflicts: readonly ConflictView[];
  readonly unplaced: readonly UnplacedView[];
};

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
