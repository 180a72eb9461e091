import type { ConsentWay } from '../consent.ts';
import type { InspectionId, JobId, VehicleId } from '../ids.ts';
import type { MachineStep } from '../machineStep.ts';
import type { EpochMs, FilmTenthUm } from '../units.ts';
import type {
  BodyStyle,
  Defect,
  Level,
  PaintHardness,
  PanelId,
  Severity,
  Substrate,
  Verdict,
} from '../vocabulary.ts';

/** What a panel's readings say. All film in 0.1 µm of the whole stack; a gauge never shows clear coat alone. */
export type FilmView = {
  readonly n: number;
  readonly meanTenthUm: FilmTenthUm;
  /** Standard deviation of the readings, 0 when n = 1. */
  readonly sTenthUm: FilmTenthUm;
  readonly minTenthUm: FilmTenthUm;
  readonly maxTenthUm: FilmTenthUm;
  /** 95 % interval of the mean with the gauge's uncertainty; null below three readings. */
  readonly interval: { readonly lowTenthUm: FilmTenthUm; readonly highTenthUm: FilmTenthUm } | null;
  /** Lowest spot less its uncertainty: what every limit rests on. Null below three readings. */
  readonly floorTenthUm: FilmTenthUm | null;
  readonly thin: boolean;
  readonly refinished: boolean;
};

/**
 * What the figure of film that may still come off rests on. With a figure: readings (`read`), or readings less what
 * the work done since was planned to take (`planned`), or 0 on a thin panel. The others have none.
 */
export const MAY_WHY = ['read', 'planned', 'thin', 'notRead', 'tooFew', 'refinished', 'cantRead'] as const;
export type MayWhy = (typeof MAY_WHY)[number];

/** What was polished off a panel over the vehicle's life, and what may still come off. */
export type LifeBudgetView = {
  readonly capTenthUm: FilmTenthUm;
  /** Booked by this shop on earlier visits. */
  readonly takenTenthUm: FilmTenthUm;
  /** Booked for this job, or planned by its newest estimate. */
  readonly plannedTenthUm: FilmTenthUm;
  /** What may still come off the panel now: by the film and over its life. Null: nobody can say, which is not zero. */
  readonly mayTenthUm: FilmTenthUm | null;
  readonly why: MayWhy;
  /** False where the vehicle had a life before its first visit here. */
  readonly historyKnown: boolean;
};

export type FilmReadingView = {
  readonly id: number;
  readonly tenthUm: FilmTenthUm;
  /** Marked point in the drawing's units, or null for a free reading. */
  readonly at: { readonly x: number; readonly y: number } | null;
  readonly phase: ReadingPhase;
};

export const READING_PHASES = ['before', 'after'] as const;
export type ReadingPhase = (typeof READING_PHASES)[number];

/** A class with a range: depth cannot be measured with a film gauge. 0–0 where depth says nothing of the damage. */
export type DepthView = { readonly lowTenthUm: FilmTenthUm; readonly highTenthUm: FilmTenthUm };

/** What was found on a panel, how bad and how deep. */
export type FoundView = {
  readonly defect: Defect;
  readonly severity: Severity;
  readonly depth: DepthView;
};

export type FindingView = FoundView & {
  readonly id: string;
  readonly note: string;
  readonly verdict: Verdict;
  /** Text key of the reason, `verdict.<reason>`. */
  readonly reason: VerdictReason;
};

export const VERDICT_REASONS = [
  'withinRemoval',
  'straddlesRemoval',
  'straddlesSafe',
  'deeperThanPlan',
  'deeperThanSafe',
  'notInFilm',
  'thin',
  'filmUnknown',
  'onSurface',
  'noPlan',
] as const;
export type VerdictReason = (typeof VERDICT_REASONS)[number];

export const FELT = ['none', 'light', 'moderate', 'heavy'] as const;
/** Bonded contamination felt through a bag. */
export type Felt = (typeof FELT)[number];

export type Held = 'thin' | 'belowFloor' | 'filmUnknown' | 'notAgreed' | 'nothingToSand';

export type PanelInspectionView = {
  readonly panel: PanelId;
  readonly substrate: Substrate;
  /** False when the shop's gauge cannot read this substrate. */
  readonly readable: boolean;
  readonly felt: Felt;
  readonly film: FilmView | null;
  readonly filmAfter: FilmView | null;
  readonly readings: readonly FilmReadingView[];
  readonly findings: readonly FindingView[];
  readonly budget: LifeBudgetView;
  /** As planned; washed only where the film does not allow what was planned. */
  readonly level: Level;
  /** What the film says against the level of the newest estimate, made before it was read; null = nothing. */
  readonly held: Held | null;
  /** How much this job may take in all, work already done counted in; null where film is unknown. */
  readonly safeTenthUm: FilmTenthUm | null;
  readonly pictures: readonly PictureView[];
  /** How far the machine stages on this panel are; null where none is planned. */
  readonly progress: 'planned' | 'inWork' | 'done' | null;
  /** Named override of the thin-panel or order rule. */
  readonly override: { readonly person: string; readonly reason: string } | null;
  /** The owner's own word that the panel may be wet sanded, down to so much at most. */
  readonly consent: {
    readonly name: string;
    readonly way: ConsentWay;
    readonly atMs: number;
    readonly upToTenthUm: number;
  } | null;
};

/** A machine step as the shop uses it, and what one pass of it takes off a whole section, 0.1 µm. */
export type StepView = MachineStep & {
  /** Null where the pad is wider than the shop's section. */
  readonly tenthUmPerPass: number | null;
  /** Standard error of that; null for a default. */
  readonly errorPerPass: number | null;
  /** Set or measured by the shop; false = the default, from memory. */
  readonly own: boolean;
  /** What an edit has to name as seen; 0 = the default. */
  readonly revision: number;
  /** Test spots of this step that were read before and after. */
  readonly spots: number;
};

/** What the customer agreed to about pictures of the car; `notAsked` before it was taken in. */
export type PictureConsent = 'notAsked' | 'none' | 'record' | 'publish';

export type PictureView = {
  readonly id: string;
  readonly panel: PanelId | null;
  readonly phase: ReadingPhase;
  readonly takenMs: EpochMs;
  readonly consent: 'record' | 'publish';
};

/** Pictures of a job and what may be done with more of them. */
export type JobPicturesView = {
  readonly number: number;
  readonly customer: string;
  readonly makeModel: string;
  readonly body: BodyStyle;
  readonly agreed: PictureConsent;
  readonly pictures: readonly PictureView[];
};

export type VisitFilmView = {
  readonly jobId: JobId;
  readonly jobNumber: number;
  readonly atMs: EpochMs;
  readonly panels: readonly {
    readonly panel: PanelId;
    readonly before: FilmView | null;
    readonly after: FilmView | null;
    readonly removal: RemovalView | null;
  }[];
  readonly found: readonly (FoundView & { readonly panel: PanelId })[];
};

export type RemovalView = {
  readonly plannedTenthUm: FilmTenthUm;
  /** Difference of means before and after; null when either is missing. */
  readonly shownTenthUm: FilmTenthUm | null;
  /** False when the 95 % interval covers 0: "not shown". */
  readonly shown: boolean;
  readonly bookedTenthUm: FilmTenthUm;
  readonly method: 'paired' | 'welch' | 'planned';
};

export type InspectionView = {
  readonly inspectionId: InspectionId;
  readonly revision: number;
  readonly jobId: JobId;
  readonly vehicleId: VehicleId;
  readonly body: BodyStyle;
  readonly hardness: PaintHardness;
  readonly startedMs: EpochMs;
  readonly by: string;
  readonly readingCount: number;
  /** Readings before work that the newest estimate does not know yet; 0 where there is none. */
  readonly readSince: number;
  /** What readings taken now are: after work once a machine stage of the job has begun. */
  readonly usualPhase: ReadingPhase;
  /** The shop's film rules that the drawing's key names. */
  readonly thinTenthUm: FilmTenthUm;
  readonly refinishedTenthUm: FilmTenthUm;
  readonly panels: readonly PanelInspectionView[];
  readonly earlier: readonly VisitFilmView[];
};

export type FilmHistoryView = {
  readonly vehicleId: VehicleId;
  readonly body: BodyStyle;
  readonly visits: readonly VisitFilmView[];
  readonly budgets: readonly { readonly panel: PanelId; readonly budget: LifeBudgetView }[];
};
