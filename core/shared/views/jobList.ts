import type { JobId } from '../ids.ts';
import type { EpochMin, Minor, Ppm } from '../units.ts';
import type { BodyStyle, JobState, PanelId, StageKind, StageState } from '../vocabulary.ts';
import type { Purpose } from './bookings.ts';

export const JOB_LISTS = ['open', 'quoted', 'finished', 'toBill', 'unpaid', 'ended'] as const;

export type JobList = (typeof JOB_LISTS)[number];

export const JOB_SORTS = ['promise', 'number', 'customer', 'dropOff'] as const;

export type JobSort = (typeof JOB_SORTS)[number];

/** One line of the jobs list. */
export type JobRow = {
  readonly id: JobId;
  readonly number: number;
  readonly state: JobState;
  readonly purpose: Purpose;
  readonly customer: string;
  readonly makeModel: string;
  readonly body: BodyStyle;
  readonly plate: string;
  /** The stage in hand or the next one, null when none is left. */
  readonly stage: StageKind | null;
  readonly stageState: StageState | null;
  readonly dropOffMin: EpochMin | null;
  readonly pickUpMin: EpochMin | null;
  readonly promisedPpm: Ppm | null;
  readonly bold: boolean;
  readonly forVisit: boolean;
  readonly late: boolean;
  readonly panelsDone: readonly PanelId[];
  readonly panelsInWork: readonly PanelId[];
  readonly quotedMinor: Minor | null;
  readonly owedMinor: Minor | null;
};

export type JobsPage = {
  readonly rows: readonly JobRow[];
  /** Rows that fit the list and search in all, for paging. */
  readonly total: number;
  readonly counts: Readonly<Record<JobList, number>>;
};
