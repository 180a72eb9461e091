import type { BayId, JobId, PersonId, StageId } from '../ids.ts';
import type { EpochMin, EpochMs, LocalDay, Minor, Ppm } from '../units.ts';
import type { BodyStyle, JobState, PanelId, StageKind, StageState } from '../vocabulary.ts';
import type { Purpose } from './bookings.ts';

/** A bar on the day's time rail. */
export type RailBar = {
  readonly stage: StageKind;
  readonly form: 'done' | 'work' | 'planned' | 'cure' | 'late';
  readonly startMs: EpochMs;
  readonly endMs: EpochMs;
};

export type DeskCar = {
  readonly jobId: JobId;
  readonly number: number;
  readonly state: JobState;
  readonly purpose: Purpose;
  readonly customer: string;
  readonly phone: string;
  readonly makeModel: string;
  readonly body: BodyStyle;
  readonly dropOffMin: EpochMin | null;
  readonly pickUpMin: EpochMin | null;
  readonly promisedPpm: Ppm | null;
  readonly bars: readonly RailBar[];
};

export type ArrivingCar = DeskCar & {
  readonly arrivedMs: EpochMs | null;
  /** Minutes past the agreed drop-off and not here, 0 otherwise. */
  readonly lateMin: number;
  readonly firstStage: StageKind | null;
};

export type CarInBay = DeskCar & {
  readonly bay: string;
  readonly stage: StageKind | null;
  readonly stageState: StageState | null;
  readonly who: readonly string[];
  readonly panelsDone: readonly PanelId[];
  readonly panelsInWork: readonly PanelId[];
  readonly panelCount: number;
  readonly cureEndsMs: EpochMs | null;
  readonly likelyMin: EpochMin | null;
  readonly late: boolean;
};

export type GoingHomeCar = DeskCar & {
  readonly readyMs: EpochMs | null;
  readonly owedMinor: Minor | null;
  readonly late: boolean;
  /** The promise lies before today and the car is still here: whole days. */
  readonly uncollectedDays: number;
};

/** A promise that is not safe, and why. */
export type RiskReason =
  | { readonly kind: 'overrun'; readonly stage: StageKind; readonly overMin: number }
  | { readonly kind: 'notArrived'; readonly lateMin: number }
  | { readonly kind: 'planEndsLate'; readonly overMin: number }
  | { readonly kind: 'padsMissing'; readonly item: string; readonly needs: number; readonly has: number }
  | { readonly kind: 'notPlaced' }
  | { readonly kind: 'passed' };

/** What `bays.move` is given to take a way out. */
export type RemedyMove = {
  readonly jobId: JobId;
  readonly stageIds: readonly StageId[];
  readonly bayId: BayId;
  readonly startMin: EpochMin;
  readonly personId?: PersonId;
  readonly planRevision: number;
};

/** A way out that was tried on the board, with the chance that it would give. */
export type Remedy =
  /** Somebody else takes this stage and those after it in the same bay. */
  | {
      readonly kind: 'technician';
      readonly stage: StageKind;
      readonly name: string;
      readonly ppm: Ppm;
      readonly move: RemedyMove;
    }
  /** The same at another time, in this bay. */
  | {
      readonly kind: 'time';
      readonly stage: StageKind;
      readonly bay: string;
      readonly ppm: Ppm;
      readonly move: RemedyMove;
    }
  /** Dirty pads go into the wash tonight. */
  | { readonly kind: 'wash'; readonly item: string; readonly ppm: Ppm }
  /** The first handover that is sure enough: to be agreed with the customer. */
  | { readonly kind: 'later'; readonly pickUpMin: EpochMin; readonly ppm: Ppm };

export type PromiseAtRisk = {
  readonly jobId: JobId;
  readonly number: number;
  readonly customer: string;
  readonly phone: string;
  readonly makeModel: string;
  readonly pickUpMin: EpochMin;
  readonly promisedPpm: Ppm | null;
  /** Simulated chance on the board as it stands; null when the job has no work on it. */
  readonly nowPpm: Ppm | null;
  /** Half, four and nineteen in twenty of the runs are ready by then; null as above. */
  readonly ready: { readonly p50Min: EpochMin; readonly p80Min: EpochMin; readonly p95Min: EpochMin } | null;
  readonly reason: RiskReason;
  /** At least two kinds, the surest first, or none. */
  readonly remedies: readonly Remedy[];
};

export type WaitingAnswer = {
  readonly jobId: JobId;
  readonly number: number;
  readonly customer: string;
  readonly phone: string;
  readonly what: 'quoteOpen' | 'enquiryOpen' | 'testSpot' | 'noShow';
  readonly sinceMs: EpochMs;
};

export type DeskHours = {
  /** Minutes that technicians' shifts give today. */
  readonly shiftMin: number;
  /** Minutes of attended work planned today. */
  readonly plannedMin: number;
  readonly workedMin: number;
};

/** Today at the desk. */
export type NextCar = {
  readonly jobId: JobId;
  readonly customer: string;
  readonly makeModel: string;
  readonly atMin: EpochMin;
};

/** What comes on the next open day. */
export type NextDay = {
  readonly day: LocalDay;
  readonly openMin: EpochMin;
  readonly arriving: readonly NextCar[];
  readonly goingHome: readonly NextCar[];
};

export type DeskView = {
  readonly nowMs: EpochMs;
  readonly day: string;
  /** Opening of today in minutes since the epoch; null when closed. */
  readonly openMin: EpochMin | null;
  readonly closeMin: EpochMin | null;
  readonly arriving: readonly ArrivingCar[];
  readonly inBays: readonly CarInBay[];
  readonly goingHome: readonly GoingHomeCar[];
  readonly openPromises: number;
  readonly waiting: readonly WaitingAnswer[];
  readonly hours: DeskHours;
  /** Once today's hours are over, or where there are none. */
  readonly next: NextDay | null;
  /** Of the last promises that came due (at most 100): how many were ready in time. */
  readonly kept: { readonly due: number; readonly inTime: number };
};
