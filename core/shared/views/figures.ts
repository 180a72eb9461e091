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

/** How days are told together: each alone, by ISO week, by calendar month. */
export type PeriodKind = 'day' | 'week' | 'month';

export type UtilizationCell = UtilizationParts & {
  /** First and last day of the cell, both included; a week or month at the end of the range may be cut by it. */
  readonly day: LocalDay;
  readonly toDay: LocalDay;
  /** Minutes outside the available ones, so that a day of 23, 24 or 25 hours is whole. */
  readonly closedMin: number;
};

/** A row of cells: all of one bay or one person. */
type UtilizationCells = {
  readonly name: string;
  readonly total: UtilizationParts;
  readonly cells: readonly UtilizationCell[];
};
export type UtilizationRow = UtilizationCells & { readonly bayId: BayId };

/**
 * The shift of a technician. Cure, waiting and blocked are minutes without work of theirs while a car that they have in
 * hand (between their first and last work on it) cures, stands, or stands finished.
 */
export type PersonHoursRow = UtilizationCells & {
  readonly personId: PersonId;
  /** All recorded work, also outside the shift. */
  readonly workedMin: number;
};

export type UtilizationView = {
  readonly fromDay: LocalDay;
  readonly toDay: LocalDay;
  readonly by: PeriodKind;
  readonly bays: readonly UtilizationRow[];
  readonly people: readonly PersonHoursRow[];
  /** Of all bays. */
  readonly total: UtilizationParts;
};

/** A job behind a cell: its own minutes in the open hours of the place or the shift of the person. */
export type CellJobRow = Omit<UtilizationParts, 'availableMin' | 'idleMin'> & {
  readonly jobId: JobId;
  readonly jobNumber: number;
  readonly customer: string;
  readonly makeModel: string;
};
export type CellJobsView = { readonly name: string; readonly jobs: readonly CellJobRow[] };

/** The worst severity found on the paint of a job; none = nothing was noted. */
export const PAINT_CONDITIONS = ['none', 'light', 'moderate', 'heavy'] as const;
export type PaintCondition = (typeof PAINT_CONDITIONS)[number];

/** Estimated against actual for one group of finished stages. */
export type HonestyRow = {
  readonly key: string;
  readonly label:
    | { readonly kind: 'all' }
    | { readonly kind: 'stage'; readonly stage: StageKind }
    | { readonly kind: 'hardness'; readonly hardness: PaintHardness }
    | { readonly kind: 'condition'; readonly condition: PaintCondition }
    | { readonly kind: 'text'; readonly text: string };
  readonly stages: number;
  readonly estimatedMin: number;
  readonly actualMin: number;
  /** Actual over estimated minutes, in parts per million: 1,000,000 = honest. */
  readonly driftPpm: number;
  /** How many stayed within their P80; honest is eight in ten. */
  readonly within: number;
  /** Mean pinball loss of the P80 in minutes a stage: what missing it cost, either way; the smaller the better. */
  readonly lossMin: number;
};

/** The same over a week or a month. */
export type HonestyPeriod = Omit<HonestyRow, 'key' | 'label'> & {
  readonly day: LocalDay;
  readonly toDay: LocalDay;
};

/** What was written about a stage that was far off: what explains it, or at least who can be asked. */
export type OutlierStory =
  | { readonly kind: 'note'; readonly text: string; readonly by: string }
  | { readonly kind: 'override'; readonly text: string; readonly by: string }
  /** Some of its time was typed in afterwards. */
  | { readonly kind: 'corrected'; readonly times: number }
  /** Worked on in so many stretches, by so many people. */
  | { readonly kind: 'stretches'; readonly times: number; readonly people: number };

export type HonestyView = {
  readonly fromDay: LocalDay;
  readonly toDay: LocalDay;
  readonly byStage: readonly HonestyRow[];
  readonly byTechnician: readonly HonestyRow[];
  readonly byHardness: readonly HonestyRow[];
  readonly byCondition: readonly HonestyRow[];
  /** By week for a range up to a quarter of a year, else by month. */
  readonly by: PeriodKind;
  readonly overTime: readonly HonestyPeriod[];
  readonly all: HonestyRow;
  /** Stages furthest from their estimate, with what was written about them. */
  readonly outliers: readonly {
    readonly stageId: StageId;
    readonly jobId: JobId;
    readonly jobNumber: number;
    readonly stage: StageKind;
    readonly p50Min: number;
    readonly p80Min: number;
    readonly actualMin: number;
    readonly person: string;
    readonly story: readonly OutlierStory[];
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
  /** What its hours cost, as far as is known; of `unknownMs` of them it is not. */
  readonly labourMinor: number;
  readonly unknownMs: number;
};
export type MarginView = {
  readonly fromDay: LocalDay;
  readonly toDay: LocalDay;
  readonly jobs: readonly JobMarginRow[];
  readonly netMinor: number;
  readonly materialMinor: number;
  readonly workedMin: number;
  readonly labourMinor: number;
  /** Of the minutes worked, those of people whose hour had no cost then. */
  readonly unknownMin: number;
  /** Net less material and labour as far as its cost is known, per worked hour, minor units. */
  readonly perHourMinor: number;
};

/** Tables behind the honest hours, as files. */
export const HONESTY_TABLES = ['stage', 'technician', 'paint', 'condition', 'time', 'outliers'] as const;
export type HonestyTable = (typeof HONESTY_TABLES)[number];
