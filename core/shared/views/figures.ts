import type { BayId, JobId, PersonId, StageId } from '../ids.ts';
import type { LocalDay } from '../units.ts';
import type { PaintHardness, StageKind } from '../vocabulary.ts';

/** Minutes of a place or a person over a stretch of time. The five parts sum to `availableMin` to the minute. */
export type UtilizationParts = {
  /** Open minutes less closures. */
  readonly availableMin: number;
  /** Somebody works on the car. */
  readonly attendedMin: number;
  /** The car cures or dries; nobody is needed. */
  readonly cureMin: number;
  /** A car stands there with work left and nobody on it. */
  readonly waitingMin: number;
  /** A car stands there with nothing left to do in this place. */
  readonly blockedMin: number;
  /** No car. */
  readonly idleMin: number;
};

export type UtilizationCell = UtilizationParts & {
  readonly day: LocalDay;
  /** Minutes of the day outside the available ones, so that a day of 23, 24 or 25 hours is whole. */
  readonly closedMin: number;
  readonly jobIds: readonly JobId[];
};

export type UtilizationRow = {
  readonly bayId: BayId;
  readonly name: string;
  readonly total: UtilizationParts;
  readonly cells: readonly UtilizationCell[];
};

export type UtilizationView = {
  readonly fromDay: LocalDay;
  readonly toDay: LocalDay;
  readonly bays: readonly UtilizationRow[];
  readonly total: UtilizationParts;
  readonly people: readonly {
    readonly personId: PersonId;
    readonly name: string;
    readonly shiftMin: number;
    readonly workedMin: number;
  }[];
};

/** Estimated against actual for one group of finished stages. */
export type HonestyRow = {
  readonly key: string;
  readonly label:
    | { readonly kind: 'all' }
    | { readonly kind: 'stage'; readonly stage: StageKind }
    | { readonly kind: 'hardness'; readonly hardness: PaintHardness }
    | { readonly kind: 'text'; readonly text: string };
  readonly stages: number;
  readonly estimatedMin: number;
  readonly actualMin: number;
  /** Actual over estimated minutes, in parts per million: 1,000,000 = honest. */
  readonly driftPpm: number;
  /** How many stayed within their P80; honest is eight in ten. */
  readonly within: number;
};

export type HonestyView = {
  readonly fromDay: LocalDay;
  readonly toDay: LocalDay;
  readonly byStage: readonly HonestyRow[];
  readonly byTechnician: readonly HonestyRow[];
  readonly byHardness: readonly HonestyRow[];
  readonly all: HonestyRow;
  /** Stages furthest from their estimate, with what was written about them. */
  readonly outliers: readonly {
    readonly stageId: StageId;
    readonly jobId: JobId;
    readonly jobNumber: number;
    readonly stage: StageKind;
    readonly p50Min: number;
    readonly actualMin: number;
    readonly note: string;
  }[];
};

/** Jobs that were collected in the range, with what they brought. */
export type JobMarginRow = {
  readonly jobId: JobId;
  readonly jobNumber: number;
  readonly customer: string;
  readonly netMinor: number;
  readonly materialMinor: number;
  readonly workedMin: number;
};
export type MarginView = {
  readonly fromDay: LocalDay;
  readonly toDay: LocalDay;
  readonly jobs: readonly JobMarginRow[];
  readonly netMinor: number;
  readonly materialMinor: number;
  readonly workedMin: number;
  /** Net less material, per worked hour, minor units. */
  readonly perHourMinor: number;
};
