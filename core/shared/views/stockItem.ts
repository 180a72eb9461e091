import type { ItemId, JobId, StageId, SupplierId } from '../ids.ts';
import type { Problem } from '../problems.ts';
import type { Costing } from '../settings/stock.ts';
import type { EpochMs, LocalDay, Minor } from '../units.ts';
import type { BaseUnit, Material } from '../vocabulary.ts';
import type { MovementReason, StockItemRow } from './stock.ts';
import type { ReasonView } from './stockSentence.ts';

export type MovementView = {
  readonly id: number;
  readonly atMs: EpochMs;
  readonly reason: MovementReason;
  readonly amount: number;
  readonly valueMinor: Minor;
  readonly person: string;
  readonly jobId: JobId | null;
  readonly jobNumber: number | null;
  /** The draw that this line corrects. */
  readonly correctsId: number | null;
  /** Of a draw: what it comes to with its corrections; null of any other line, a correction itself among them. */
  readonly drawn: number | null;
  readonly note: string;
};

export type SupplierLinkView = {
  readonly supplierId: SupplierId;
  readonly supplierName: string;
  readonly code: string;
  readonly packSize: number;
  readonly priceMinor: Minor;
  readonly breaks: readonly PriceBreak[];
  readonly preferred: boolean;
  readonly revision: number;
};

/** From this many packs on, every pack costs this. */
export type PriceBreak = { readonly fromPacks: number; readonly priceMinor: Minor };

export type StockItemDetail = {
  readonly id: ItemId;
  readonly name: string;
  readonly material: Material | null;
  readonly unit: BaseUnit;
  readonly packSize: number;
  readonly packWord: string;
  readonly place: string;
  readonly shelfPacks: number | null;
  readonly sealedLifeDays: number | null;
  readonly openedLifeDays: number | null;
  readonly hazards: string;
  readonly sheet: string;
  readonly barcode: string;
  readonly reusable: boolean;
  readonly usesPerLife: number | null;
  readonly preference: number;
  readonly endedDay: LocalDay | null;
  readonly revision: number;
};

export type SheetFile = { readonly name: string; readonly addedMs: EpochMs };

/** Where to read up on something a stage uses: an item's safety data sheet, as a link or as a file kept here. */
export type SheetPlace = {
  readonly itemId: ItemId;
  readonly itemName: string;
  readonly hazards: string;
  /** '' = none. */
  readonly link: string;
  readonly hasFile: boolean;
};

export type StockItemPage = {
  readonly today: LocalDay;
  readonly item: StockItemDetail;
  readonly row: StockItemRow;
  readonly reason: ReasonView;
  /** Goes round, or is neither used nor booked nor on order: there is nothing to look ahead to. */
  readonly idle: boolean;
  readonly movements: readonly MovementView[];
  readonly links: readonly SupplierLinkView[];
  readonly latestMovementId: number;
  readonly fifoValueMinor: Minor;
  /** The safety data sheet kept as a file; null = none. */
  readonly sheetFile: SheetFile | null;
  /** Which of the two values the shop goes by. */
  readonly costing: Costing;
};

/** What a stage is expected to use: shown when it is finished, corrected there. */
export type ProposedDraw = {
  readonly material: Material;
  readonly unit: BaseUnit;
  /** The item it will be taken from; null when the shop keeps none of this material. */
  readonly itemId: ItemId | null;
  readonly itemName: string;
  readonly planned: number;
  /** Planned times what stages like it really used. */
  readonly proposed: number;
  readonly factor: number;
  /** What the factor is made of: stages of the kind; who works on it and the paint it meets, each beside them. */
  readonly learned: readonly DrawEvidence[];
  readonly onHand: number;
  readonly reusable: boolean;
};

/** One part of a learned factor; only what at least one finished stage tells of. */
export type DrawEvidence = {
  readonly what: 'stage' | 'technician' | 'condition';
  /** The person's name; the worst severity found, else what the job is for; '' of the stage. */
  readonly of: string;
  readonly factor: number;
  readonly n: number;
};

export type DrawResult = {
  readonly itemId: ItemId;
  readonly itemName: string;
  readonly amount: number;
  readonly valueMinor: Minor;
  readonly onHandAfter: number;
  readonly unit: BaseUnit;
  /** Of the amount, what the book did not have. Pieces that go round came in as found for it. */
  readonly beyond: number;
  /** More was used than the book had, and no count was open yet: one was opened. */
  readonly countOpened: boolean;
};

export type DrawnForStage = {
  readonly stageId: StageId;
  readonly drawn: readonly DrawResult[];
  /** What was used of materials that the shop keeps no item of: kept with the stage, in no ledger. */
  readonly notKept: readonly NotKept[];
};

export type NotKept = { readonly material: Material; readonly unit: BaseUnit; readonly amount: number };

/** What a job used, from the ledger, with the share of life its pads and towels lost. */
export type JobMaterialCost = {
  readonly jobId: JobId;
  readonly totalMinor: Minor;
  readonly lines: readonly {
    readonly itemId: ItemId;
    readonly itemName: string;
    readonly unit: BaseUnit;
    readonly amount: number;
    readonly valueMinor: Minor;
    readonly kind: 'used' | 'worn';
  }[];
};

/** Where a list does not fit: the line of the file, the column, and a key `problem.…` of the locale files. */
export type ListFault = {
  readonly line: number;
  readonly field: string;
  readonly problem: Problem | ListProblem;
  readonly limit?: number | string;
};

/** What can be wrong with a line of a list besides its single fields. */
export type ListProblem =
  | 'sameNameAbove'
  | 'noList'
  | 'moreCells'
  | 'columnTwice'
  | 'columnUnnamed'
  | 'notUtf8'
  | 'materialUnit'
  | 'roundInPieces'
  | 'barcodeOf'
  | 'barcodeOfEnded'
  | 'codeRounded'
  | 'unitFixed'
  | 'noSuchItem'
  | 'otherUnit'
  | 'notAmount'
  | 'twoWays'
  | 'lineAhead'
  | 'countedSince';

/** What a list of items would change, before anything is changed. */
export type ItemImportReport = {
  /** Lines of items in the list, those with faults included. */
  readonly rows: number;
  readonly added: readonly string[];
  readonly changed: readonly string[];
  readonly same: number;
  readonly faults: readonly ListFault[];
};
