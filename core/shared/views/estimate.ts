import type { InspectionId, JobId } from '../ids.ts';
import type { QuoteBasis } from '../settings/billing.ts';
import type { PRICE_RULES } from '../settings/estimate.ts';
import type { StagePlan } from '../stagePlan.ts';
import type { TextKey } from '../text/en.ts';
import type { EpochMs, FilmTenthUm, Minor } from '../units.ts';
import type { Defect, Level, PanelId, StageKind } from '../vocabulary.ts';
import type { Held, PanelInspectionView } from './paint.ts';

export const ESTIMATE_BASES = ['provisional', 'inspected', 'testSpot'] as const;
/** What an estimate rests on: words on the telephone, the inspection, or a test spot on this very car. */
export type EstimateBasis = (typeof ESTIMATE_BASES)[number];

export const WISHES = ['clean', 'protect', 'oneStage', 'twoStage', 'full', 'interior'] as const;
/** How far the customer wants to go, before anybody has chosen levels panel by panel. */
export type Wish = (typeof WISHES)[number];

export const CONDITIONS = ['good', 'worn', 'neglected', 'unknown'] as const;
/** The paint as told on the telephone. */
export type StatedCondition = (typeof CONDITIONS)[number];

export const PROTECTIONS = ['none', 'sealant', 'coating'] as const;
export type Protection = (typeof PROTECTIONS)[number];

export const PAIR_STAGES = [
  'wash',
  'decontaminate',
  'clay',
  'mask',
  'sand',
  'cut',
  'refine',
  'panelWipe',
  'protect',
  'interior',
] as const satisfies readonly StageKind[];
/** A stage that two people may do together. */
export type PairStage = (typeof PAIR_STAGES)[number];

export type Ceiling = { readonly kind: 'hours' | 'money'; readonly value: number };

/** What was asked for beyond the levels. Ceilings: minutes, or minor units with tax. */
export type EstimateAsked = {
  /** Paint as told, before anybody looked; null once somebody has. */
  readonly condition: StatedCondition | null;
  readonly interior: boolean;
  readonly protection: Protection;
  /** Stages that two people do together; all others are one person's. */
  readonly two: readonly PairStage[];
  readonly ceiling: Ceiling | null;
};

/** Attended minutes of all people together, with their spread. `meanMin` is what the price rests on unless the shop's rule is fixed. */
export type HoursView = {
  readonly p20Min: number;
  readonly p50Min: number;
  readonly p80Min: number;
  readonly p95Min: number;
  readonly meanMin: number;
  /** Lognormal of the total, log minutes. */
  readonly mu: number;
  readonly sigma: number;
  /** Standard deviation (log) of the effect shared by all stages of this job. */
  readonly jobSigma: number;
};

/** Which minutes are charged: the mean of the spread, or its middle. */
export type PriceRule = (typeof PRICE_RULES)[number];

/** Price of an hour by kind of stage, minor units. */
export type StageRates = Readonly<Record<StageKind, Minor>>;

/**
 * Money of an estimate, on the footing of the shop's own rates: with tax when `taxIncluded`, else without.
 * Billing adds or extracts the tax.
 */
export type PriceView = {
  readonly labourMinor: Minor;
  readonly materialsMinor: Minor;
  readonly totalMinor: Minor;
  /** Per hour, on the day the estimate was made. */
  readonly rateMinor: Minor;
  /** Per hour of each kind of stage, on that day. */
  readonly rates: StageRates;
  readonly chargedMin: number;
  readonly rule: PriceRule;
  readonly basis: QuoteBasis;
  readonly taxIncluded: boolean;
};

export const LIMIT_KEYS = [
  'staysEtched',
  'staysDeep',
  'staysNotInFilm',
  'softens',
  'thinPanel',
  'override',
  'refinished',
  'unreadable',
  'notMeasured',
  'budgetUsed',
  'unseen',
  'leftOut',
  'sanded',
  'sandingOption',
] as const;
/** Text key is `limit.<key>`; the sentence names panel and defect. */
export type LimitKey = (typeof LIMIT_KEYS)[number];

/** One thing the quote must say: what stays, what may only soften, where the paint is thin, whose override. */
export type LimitView = {
  readonly key: LimitKey;
  readonly panel: PanelId | null;
  readonly defect: Defect | null;
  readonly data: Readonly<Record<string, string | number>>;
};

export type PanelPlanView = {
  readonly panel: PanelId;
  readonly level: Level;
  readonly areaCm2: number;
  /** Uncalibrated middle minutes of machine work on this panel. */
  readonly workMin: number;
  /** Wet sanding with the deepest and shallowest it may go and its minutes; null where the panel is not sanded. */
  readonly sanding: {
    readonly lowTenthUm: FilmTenthUm;
    readonly highTenthUm: FilmTenthUm;
    readonly workMin: number;
  } | null;
  /** With the sanding at its deepest. */
  readonly removalTenthUm: FilmTenthUm;
  /** Share of all damage in the whole car's paint that lies here and is taken, in ppm. */
  readonly gainPpm: number;
};

export type EstimateView = {
  readonly id: string;
  readonly jobId: JobId;
  /** 1, 2, 3 … per job; never changed afterwards. */
  readonly version: number;
  readonly basis: EstimateBasis;
  readonly madeMs: EpochMs;
  readonly madeBy: string;
  readonly inspectionId: InspectionId | null;
  readonly wish: Wish;
  readonly asked: EstimateAsked;
  readonly panels: readonly PanelPlanView[];
  readonly stages: readonly StagePlan[];
  readonly hours: HoursView;
  readonly price: PriceView;
  /** Share of all damage in the paint that this plan takes out, ppm. */
  readonly gainPpm: number;
  readonly limits: readonly LimitView[];
  readonly factors: readonly FactorView[];
};

/** An estimate that is not kept: for the desk while the customer is still on the telephone. */
export type EstimatePreview = Pick<
  EstimateView,
  'wish' | 'asked' | 'panels' | 'stages' | 'hours' | 'price' | 'gainPpm' | 'limits' | 'factors'
> & { readonly stair: StairView };

/** Wet sanding of one panel as an option: damage that no polishing reaches, what it adds, and what stands against it. */
export type SandingOptionView = {
  readonly panel: PanelId;
  readonly defects: readonly Defect[];
  /** Film of the sanding alone, a range; and with the polishing after it at its deepest. */
  readonly lowTenthUm: FilmTenthUm;
  readonly highTenthUm: FilmTenthUm;
  readonly allTenthUm: FilmTenthUm;
  /** Most that may come off where it is sanded; null where film is not known. */
  readonly limitTenthUm: FilmTenthUm | null;
  /** Middle minutes and price that it adds to the newest version, on that version's footing. */
  readonly addedMin: number;
  readonly addedMinor: Minor;
  readonly refusal: Held | null;
  /** The newest version plans it. */
  readonly taken: boolean;
  readonly consent: PanelInspectionView['consent'];
  readonly override: PanelInspectionView['override'];
};

/** One calibration factor and what it was learned from. */
export type FactorView = {
  readonly what: 'shop' | 'stage' | 'technician' | 'condition' | 'job' | 'testSpot';
  /** The stage kind, person id, condition … that the factor belongs to; of a test spot: the kind tried, '' = all others. */
  readonly of: string;
  /** Multiplies the model's minutes: 1.12 = 12 % longer. */
  readonly factor: number;
  /** Past observations behind it; 0 = the shop's default and nothing else. */
  readonly n: number;
  /** 80 % interval of the factor. */
  readonly low: number;
  readonly high: number;
};

/** Why the rest of the damage stays, ppm of all of it; with the gain it makes a whole. */
export type RestView = {
  /** More work would take it: another choice, a higher ceiling. */
  readonly choicePpm: number;
  /** No more film may come off there. */
  readonly filmPpm: number;
  /** Deeper than the work goes. */
  readonly depthPpm: number;
  /** Part of the gain, not of the rest: it lies where film is not known, and is not promised. */
  readonly unknownPpm: number;
};

/** A step of the stair: the exact best choice at one ceiling. */
export type StairStepView = {
  readonly p50Min: number;
  readonly p20Min: number;
  readonly p80Min: number;
  readonly meanMin: number;
  readonly totalMinor: Minor;
  readonly gainPpm: number;
  readonly rest: RestView;
  /** What this step takes up that the one before did not. */
  readonly added: readonly { readonly panel: PanelId; readonly level: Level }[];
  readonly levels: readonly { readonly panel: PanelId; readonly level: Level }[];
};
export type StairView = {
  /** Rising in hours and in gain; the first is the least that can be done at all. */
  readonly steps: readonly StairStepView[];
  /** Index of the last step of the stair under the ceiling; null when even the least is above it. */
  readonly best: number | null;
  readonly ceiling: Ceiling | null;
  /** What the ceiling's best choice costs; null when nothing fits. */
  readonly choice: StairStepView | null;
  /** How much the newest version is above the ceiling, minutes or minor units as the shop's prices are; null = not. */
  readonly above: number | null;
};

/** What an input of an explanation is counted in; a factor multiplies minutes. */
export type ExplainUnit = 'min' | 'minor' | 'tenthUm' | 'ppm' | 'factor';

/** Where a figure comes from: inputs by name, the rule in words, and its source. */
export type ExplainView = {
  readonly figure: string;
  readonly inputs: readonly {
    /** Text key of what it is. */
    readonly name: TextKey;
    readonly value: number;
    readonly unit: ExplainUnit;
    /** Past observations behind it; null where it is no learned factor. */
    readonly n: number | null;
  }[];
  /** Text key of the rule, `why.<figure>`. */
  readonly rule: TextKey;
  /** Text key of where the rule comes from, `source.<figure>`. */
  readonly source: TextKey;
};

/** Actual against estimated, from the shop's own past stages. */
export type LearningView = {
  readonly stagesSeen: number;
  readonly jobsSeen: number;
  readonly factors: readonly FactorView[];
  /** Share of finished jobs that stayed within their P80, ppm; null below ten jobs. */
  readonly withinP80Ppm: number | null;
  readonly rows: readonly {
    readonly jobNumber: number;
    readonly kind: StageKind;
    readonly person: string;
    readonly estimatedMin: number;
    readonly actualMin: number;
  }[];
};
