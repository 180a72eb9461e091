import type { EpochMin, EpochMs } from '../units.ts';
import type { JobAction, OverrideRule } from '../views/bookings.ts';
import type { BodyStyle, JobState, PanelId, StageKind, StageState } from '../vocabulary.ts';

/** Refusals of the bookings area: code → data. Every code has its sentence in core/shared/text. */
export type BookingsErrors = {
  /** The job's state does not allow this. */
  readonly JOB_STATE: { readonly number: number; readonly jobState: JobState; readonly action: JobAction };
  /** The stage's state does not allow this. */
  readonly STAGE_STATE: {
    readonly stage: StageKind;
    readonly stageState: StageState;
    readonly action: 'start' | 'pause' | 'finish' | 'drop' | 'panel';
  };
  /** A coating still cures; a named person may set that aside. */
  readonly CURE_RUNS: { readonly cureEndsAtMs: EpochMs };
  /** What comes first is not done on these panels, none named = the whole car; a named person may set the rule aside. */
  readonly STAGE_ORDER: {
    readonly stage: StageKind;
    readonly rule: OverrideRule;
    readonly panels: readonly PanelId[];
    readonly body: BodyStyle;
  };
  readonly PROMISE_BEFORE_DROP_OFF: Readonly<Record<string, never>>;
  /** A car is said not to have come before it was to come. */
  readonly DROP_OFF_AHEAD: { readonly dropOffAtMin: EpochMin };
  readonly HANDOVER_BEFORE_ARRIVAL: { readonly arrivedAtMs: EpochMs };
  /** The clock says less than when the car was last here; somebody may say that the lower reading is right. */
  readonly MILEAGE_FELL: {
    readonly nowMileage: number;
    readonly nowUnit: 'km' | 'mi';
    readonly beforeMileage: number;
    readonly beforeUnit: 'km' | 'mi';
    readonly beforeOnMs: EpochMs;
  };
  /** A typed stretch overlaps another of the same person. */
  readonly WORK_OVERLAPS: { readonly person: string; readonly number: number; readonly stage: StageKind };
  readonly WORK_REVERSED: Readonly<Record<string, never>>;
  readonly WORK_AHEAD: Readonly<Record<string, never>>;
  readonly WORK_RUNS: { readonly person: string };
  readonly PERSON_NOT_HERE: { readonly name: string };
  readonly PANEL_NOT_IN_STAGE: {
    readonly panel: PanelId;
    readonly stage: StageKind;
    readonly body: BodyStyle;
  };
  readonly SIGNATURE_MISSING: Readonly<Record<string, never>>;
  readonly PUBLISH_NEEDS_RECORD: Readonly<Record<string, never>>;
  readonly STAGES_OPEN: { readonly count: number };
  readonly NO_STAGES: { readonly number: number };
};
