import type { BayId, CustomerId, JobId, PersonId, StageId, VehicleId } from '../ids.ts';
import type { Machine } from '../machineStep.ts';
import type { StageShare } from '../stageShare.ts';
import type { EpochMin, EpochMs, LocalDay, Minor, Ppm } from '../units.ts';
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
import type { MayWhy } from './paint.ts';

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

/** Money of one job. Everything with tax, null while there is nothing of the kind. */
export type JobMoneyView = {
  readonly quotedMinor: Minor | null;
  readonly quoteState: 'none' | 'draft' | 'sent' | 'accepted' | 'lapsed';
  /** Held for it now: not yet on an invoice, kept, paid back or moved. */
  readonly depositMinor: Minor | null;
  readonly invoicedMinor: Minor | null;
  /** Laid on its documents, and what is held. */
  readonly paidMinor: Minor | null;
  readonly owedMinor: Minor | null;
};

export type OverrideView = {
  readonly rule: OverrideRule;
  readonly by: string;
  readonly reason: string;
  readonly atMs: EpochMs;
  readonly panels: readonly PanelId[];
};
export const OVERRIDE_RULES = ['clayBeforeMachine', 'decontaminateBeforeMachine', 'cutBeforeRefine'] as const;
export type OverrideRule = (typeof OVERRIDE_RULES)[number];

/** What is known to contradict the plan or itself. Recorded as it happened, never refused. */
export type WorkConflict =
  | { readonly kind: 'twoAtOnce'; readonly person: PersonRef; readonly otherJobNumber: number }
  | { readonly kind: 'cureCutShort'; readonly missingMin: number }
  | { readonly kind: 'overrun'; readonly stage: StageKind; readonly overMin: number };

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
  readonly planBasis: PlanBasis;
  readonly customer: JobCustomerView;
  readonly payer: JobCustomerView | null;
  readonly vehicle: JobVehicleView;
  readonly promise: PromiseView;
  readonly hours: HoursView;
  readonly money: JobMoneyView;
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
  readonly late: boolean;
  readonly p20Min: number;
  readonly p50Min: number;
  readonly p80Min: number;
  readonly quotedMinor: Minor | null;
  readonly owedMinor: Minor | null;
};

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

/** How a stage is done: proposed settings in the trade's words. Common practice, no source. */
export type StageHow = {
  readonly machine: 'none' | Machine;
  readonly pad: Material | null;
  readonly liquid: Material | null;
  readonly spread: 'none' | 'lowestSpeed';
  /** Working speed of the machine in turns (or orbits) a minute as the shop has set it, null by hand. */
  readonly rpm: number | null;
  readonly padMm: number | null;
  /** Sections the stage is worked in and how fast the arm goes over them; null where no machine is used. */
  readonly section: { readonly alongMm: number; readonly acrossMm: number; readonly armMmS: number } | null;
  readonly cautions: readonly CardCaution[];
};
export const CARD_CAUTIONS = [
  'rotaryKick',
  'thinEdges',
  'readFirst',
  'protection',
  'ventilation',
  'dataSheets',
  'towels',
  'droppedClay',
  'cureUntouched',
  'wasteWater',
] as const;
export type CardCaution = (typeof CARD_CAUTIONS)[number];

/** Film facts of a panel on the card, 0.1 µm; null where nobody has read it. */
export type CardPanel = {
  readonly panel: PanelId;
  readonly lowestTenthUm: number | null;
  readonly mayTakeTenthUm: number | null;
  readonly thin: boolean;
  /** What that figure rests on, or why there is none. */
  readonly why: MayWhy;
  readonly findings: readonly string[];
};

export type CardStage = StageView & { readonly how: StageHow };

/** The job card: what somebody in the bay needs to do this car. */
export type CardView = {
  readonly job: JobView;
  readonly stages: readonly CardStage[];
  readonly panels: readonly CardPanel[];
  readonly shop: {
    readonly name: string;
    readonly zone: string;
    readonly locale: string;
    readonly filmUnit: 'um' | 'mil';
    readonly paper: 'A4' | 'Letter';
  };
  readonly nowMs: EpochMs;
};
