import type { BayId, CustomerId, JobId, PersonId, StageId, VehicleId } from '../ids.ts';
import type { StageShare } from '../stageShare.ts';
import type { EpochMin, EpochMs, Minor, Ppm } from '../units.ts';
import type {
  BaseUnit,
  BayKind,
  BodyStyle,
  JobState,
  Material,
  PaintHardness,
  PanelId,
  Skill,
  StageKind,
  StageState,
} from '../vocabulary.ts';
import type { JobMoney } from './billingReports.ts';

/** Why a job came into the shop. */
export const PURPOSES = [
  'correction',
  'washOnly',
  'protection',
  'interior',
  'inspectionVisit',
  'redo',
] as const;

export type Purpose = (typeof PURPOSES)[number];

/** What the stage plan rests on: a guess from the call, the inspection, a test spot, or what the customer agreed to. */
export const PLAN_BASES = ['none', 'provisional', 'inspected', 'testSpot', 'agreed'] as const;

export type PlanBasis = (typeof PLAN_BASES)[number];

/** How somebody agreed to what was written down about the car. */
export const AGREED_WAYS = ['signature', 'printedForm', 'spoken'] as const;

export type AgreedWay = (typeof AGREED_WAYS)[number];

/** What the desk does to a job; each state allows some of them. */
export const JOB_ACTIONS = [
  'change',
  'plan',
  'quote',
  'book',
  'arrive',
  'sendHome',
  'work',
  'ready',
  'handOver',
  'noShow',
  'cancel',
  'stopHalfWay',
  'redo',
] as const;

export type JobAction = (typeof JOB_ACTIONS)[number];

export type PersonRef = { readonly id: PersonId; readonly name: string };

/** A point of a signature, each 0..1000 of the field's width and height. */
export type SignaturePoint = readonly [number, number];

export type DamageNote = { readonly panel: PanelId; readonly note: string };

/** What was written down when a car came or went. */
export type CarRecordView = {
  readonly id: string;
  readonly kind: 'arrival' | 'handover';
  readonly atMs: EpochMs;
  /** Minutes after the agreed drop-off; 0 when on time or nothing was agreed. */
  readonly lateMin: number;
  readonly mileage: number | null;
  readonly mileageUnit: 'km' | 'mi';
  readonly keyCount: number;
  readonly belongings: string;
  readonly damage: readonly DamageNote[];
  readonly picturesRecord: boolean;
  readonly picturesPublish: boolean;
  readonly agreedBy: string;
  readonly agreedWay: AgreedWay;
  readonly strokes: readonly (readonly SignaturePoint[])[];
  readonly note: string;
  /** BCP 47 tag that its paper is written in, '' = the shop's. */
  readonly locale: string;
  readonly by: PersonRef | null;
};

/** One stretch of work by one person; `endMs` null while it runs. */
export type WorkView = {
  readonly id: number;
  readonly person: PersonRef;
  readonly startMs: EpochMs;
  readonly endMs: EpochMs | null;
  readonly corrected: boolean;
};

export type StageNoteView = { readonly atMs: EpochMs; readonly by: string; readonly text: string };

/** Planned against used, in the material's base unit. `used` is null until something was drawn. */
export type StageMaterialView = {
  readonly material: Material;
  readonly unit: BaseUnit;
  readonly planned: number;
  readonly used: number | null;
  /** The part of `used` that is in no ledger, since no item of the material was kept. */
  readonly noItem: number;
};

/** Where and when the board has a stage; null when it is not placed. */
export type StagePlaceView = {
  readonly bayId: BayId;
  readonly bay: string;
  readonly people: readonly PersonRef[];
  readonly startMin: EpochMin;
  readonly endMin: EpochMin;
};

export type StageView = {
  readonly id: StageId;
  readonly seq: number;
  readonly kind: StageKind;
  readonly state: StageState;
  readonly panels: readonly PanelId[];
  readonly panelsDone: readonly PanelId[];
  readonly estimatedMin: number;
  readonly p20Min: number;
  readonly p50Min: number;
  readonly p80Min: number;
  readonly p95Min: number;
  readonly dwellMin: number;
  readonly bayKinds: readonly BayKind[];
  readonly skill: Skill;
  readonly crew: number;
  readonly note: string;
  readonly startedMs: EpochMs | null;
  readonly doneMs: EpochMs | null;
  /** Attended labour so far in ms; a running stretch counts up to the moment of the answer. */
  readonly attendedMs: number;
  readonly work: readonly WorkView[];
  readonly notes: readonly StageNoteView[];
  readonly materials: readonly StageMaterialView[];
  readonly place: StagePlaceView | null;
  /** Share billed when the job was stopped half way, null when it was not. */
  readonly sharePpm: Ppm | null;
  readonly revision: number;
};

/** What was done of a stage, and by what that is reckoned. */
export type HalfWayShare = StageShare & { readonly stageId: StageId; readonly kind: StageKind };

export type JobCustomerView = {
  readonly id: CustomerId;
  readonly name: string;
  readonly phone: string;
  readonly email: string;
};

export type JobVehicleView = {
  readonly id: VehicleId;
  readonly body: BodyStyle;
  readonly makeModel: string;
  readonly colour: string;
  readonly year: number | null;
  readonly plate: string;
  readonly vin: string;
  readonly hardness: PaintHardness;
};

export type PromiseView = {
  /** Null too once they bind nobody: the job was cancelled, missed, sent home or stopped half way. */
  readonly dropOffMin: EpochMin | null;
  readonly pickUpMin: EpochMin | null;
  /** Chance computed when the promise was made; `bays.promises` has today's. Null once the car is ready. */
  readonly promisedPpm: Ppm | null;
  readonly bold: boolean;
  /** The pick-up is that of a visit for a look at the paint: the work has no dates yet. */
  readonly forVisit: boolean;
  /** When the board now expects the last stage to end, null when nothing is placed. */
  readonly likelyMin: EpochMin | null;
  /** The board expects the end after the promise, or the promise has passed and the car is not ready. */
  readonly late: boolean;
};

/** Attended hours of the whole job in minutes; range P20–P80. */
export type HoursView = {
  readonly p20Min: number;
  readonly p50Min: number;
  readonly p80Min: number;
  readonly workedMin: number;
  /** Attended minutes still to do by the plan's P50. */
  readonly leftMin: number;
};

export type OverrideView = {
  readonly rule: OverrideRule;
  readonly by: string;
  readonly reason: string;
  readonly atMs: EpochMs;
  readonly panels: readonly PanelId[];
};

export const OVERRIDE_RULES = [
  'clayBeforeMachine',
  'decontaminateBeforeMachine',
  'sandBeforeCut',
  'cutBeforeRefine',
  'washBeforeTouch',
  'decontaminateBeforeClay',
  'machineBeforeProtect',
  'wipeBeforeProtect',
  'workBeforeCheck',
  'cureUntouched',
] as const;

export type OverrideRule = (typeof OVERRIDE_RULES)[number];

/** What is known to contradict the plan or itself. Recorded as it happened, never refused. */
export type WorkConflict =
  | { readonly kind: 'twoAtOnce'; readonly person: PersonRef; readonly otherJobNumber: number }
  | { readonly kind: 'cureCutShort'; readonly missingMin: number }
  | { readonly kind: 'overrun'; readonly stage: StageKind; readonly overMin: number };

/** Somebody who began another stage of the same car: nobody works on one car in two ways at once. */
export type LeftStage = { readonly kind: 'leftStage'; readonly person: PersonRef; readonly stage: StageKind };

/** Hours that an hour late of a job counts for when a plan is chosen; the usual one comes first. */
export const LATE_WEIGHTS = [1, 2, 4] as const;
export type LateWeight = (typeof LATE_WEIGHTS)[number];

/** All on one job. */
export type JobView = {
  readonly id: JobId;
  readonly number: number;
  readonly state: JobState;
  readonly purpose: Purpose;
  readonly wish: string;
  readonly ceilingMinor: Minor | null;
  readonly ceilingMin: number | null;
  readonly wantedByMin: EpochMin | null;
  readonly lateWeight: LateWeight;
  readonly planBasis: PlanBasis;
  readonly customer: JobCustomerView;
  readonly payer: JobCustomerView | null;
  readonly vehicle: JobVehicleView;
  readonly promise: PromiseView;
  readonly hours: HoursView;
  readonly money: JobMoney;
  readonly stages: readonly StageView[];
  readonly records: readonly CarRecordView[];
  readonly overrides: readonly OverrideView[];
  readonly conflicts: readonly WorkConflict[];
  readonly allows: readonly JobAction[];
  readonly inspectionCount: number;
  readonly arrivedMs: EpochMs | null;
  readonly readyMs: EpochMs | null;
  readonly collectedMs: EpochMs | null;
  readonly endedMs: EpochMs | null;
  readonly endReason: string;
  readonly stoppedHalfWay: boolean;
  readonly redoOf: { readonly id: JobId; readonly number: number } | null;
  readonly createdMs: EpochMs;
  readonly revision: number;
};

/** What the strip of the job in hand says. */
export type HandFacts = {
  readonly jobId: JobId;
  readonly number: number;
  readonly state: JobState;
  readonly customer: string;
  readonly vehicle: string;
  readonly colour: string;
  readonly year: number | null;
  readonly dropOffMin: EpochMin | null;
  readonly pickUpMin: EpochMin | null;
  readonly promisedPpm: Ppm | null;
  readonly forVisit: boolean;
  /** A quote is agreed to: what waits is the work itself. */
  readonly agreed: boolean;
  readonly late: boolean;
  readonly p20Min: number;
  readonly p50Min: number;
  readonly p80Min: number;
  readonly money: HandMoney | null;
};

/** Where the money of a job stands: what its quote says, what is still to pay, or what was paid once all is. */
export type HandMoney = { readonly kind: 'quoted' | 'owed' | 'paid'; readonly minor: Minor };
