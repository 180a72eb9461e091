import type { BayId, JobId, PersonId, StageId } from '../ids.ts';
import type { EpochMin, Ppm } from '../units.ts';
import type { BayKind, JobState, Skill, StageKind, StageState } from '../vocabulary.ts';

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
