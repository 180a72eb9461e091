import type { ItemId, JobId, PurchaseOrderId, SupplierId } from '../ids.ts';
import type { EpochMs, LocalDay, Minor } from '../units.ts';
import type { BaseUnit, Material, StageKind } from '../vocabulary.ts';
import type { ThrowAwayView } from './stockContainers.ts';
import type { ReasonView, Sentence } from './stockSentence.ts';

export const MOVEMENT_REASONS = [
  'open',
  'delivery',
  'draw',
  'waste',
  'count',
  'found',
  'return',
  'retire',
  'recost',
] as const;

/**
 * Why stock moved: opening balance, delivery, draw by a job, waste, count difference, pieces found in use that
 * the book did not have, return to the supplier, a worn-out piece retired, or the cost difference of a draw beyond book stock (amount 0).
 */
export type MovementReason = (typeof MOVEMENT_REASONS)[number];

export const PAD_STATES = ['clean', 'dirty', 'washing', 'retired'] as const;

/** Where a reusable piece (pad, towel, mitt) is in its round. */
export type PadState = (typeof PAD_STATES)[number];

export const ORDER_STATES = ['ordered', 'part', 'received', 'closed'] as const;

/** Nothing came yet, some came, all came, or the rest was cancelled. */
export type OrderState = (typeof ORDER_STATES)[number];

/**
 * Expected stock at the end of each day, base units; index 0 is today. `low`..`high` is P20–P80.
 * Never below 0 for show; `short` is how much the middle line lacks by then.
 */
export type ProjectionSeries = {
  readonly low: readonly number[];
  readonly mid: readonly number[];
  readonly high: readonly number[];
};

export type StockItemRow = {
  readonly id: ItemId;
  readonly name: string;
  readonly material: Material | null;
  readonly unit: BaseUnit;
  readonly reusable: boolean;
  readonly place: string;
  /** Base units in one pack, and what the pack is called ("bottle"). */
  readonly packSize: number;
  readonly packWord: string;
  readonly packPriceMinor: Minor | null;
  readonly onHand: number;
  /** What booked jobs will draw within the horizon. */
  readonly booked: number;
  /** On hand less what booked jobs will draw: may be negative. */
  readonly available: number;
  readonly onOrder: number;
  readonly valueMinor: Minor;
  /** First day the middle line reaches nothing; null = not within the horizon. */
  readonly runOutDay: LocalDay | null;
  /** The last day to order it for it to come in time, within the days shown; null = none in sight, or nobody sells it. */
  readonly orderByDay: LocalDay | null;
  readonly reorderPoint: number;
  /** A count is open: the book went below zero, or a count was asked for. */
  readonly countOpen: boolean;
  readonly needsHand: boolean;
  readonly arrivals: readonly LocalDay[];
  readonly series: ProjectionSeries;
};

/** One thing to order today, and why. */
export type SuggestionView = {
  readonly itemId: ItemId;
  readonly itemName: string;
  readonly supplierId: SupplierId;
  readonly packs: number;
  readonly packSize: number;
  readonly packWord: string;
  readonly unit: BaseUnit;
  readonly packPriceMinor: Minor;
  readonly totalMinor: Minor;
  readonly sentence: Sentence;
  /** A second sentence where the quantity follows another rule than usual. */
  readonly because: Sentence | null;
  /** Limits that pulled against each other (shelf below need, life below pack …), each a sentence. */
  readonly conflicts: readonly Sentence[];
  readonly reason: ReasonView;
};

export type SupplierSuggestions = {
  readonly supplierId: SupplierId;
  readonly supplierName: string;
  readonly leadDays: number;
  readonly totalMinor: Minor;
  /** Missing to the supplier's minimum order; 0 = reached. */
  readonly belowMinimumMinor: Minor;
  readonly lines: readonly SuggestionView[];
};

/** An order that is on its way while its item runs out before it comes: nothing to order, somebody to call. */
export type ChaseView = {
  readonly itemId: ItemId;
  readonly orderId: PurchaseOrderId;
  readonly orderNumber: number;
  /** It was due before today. */
  readonly late: boolean;
  readonly sentence: Sentence;
};

/** A material that booked stages ask for and that no item is kept of. */
export type MissingMaterial = {
  readonly material: Material;
  readonly unit: BaseUnit;
  /** What booked stages ask for within the horizon, by how many jobs, from which day on; 0, 0 and null for none. */
  readonly booked: number;
  readonly jobs: number;
  readonly firstDay: LocalDay | null;
  /** What stages that are finished used of it while no item was kept, and nobody has settled since. */
  readonly used: number;
  /** An item is kept by now: only what was used before is still to be settled. */
  readonly kept: boolean;
};

/** What a stage used of a material while no item of it was kept. */
export type UseWithoutItem = {
  readonly id: number;
  readonly jobId: JobId;
  readonly jobNumber: number;
  readonly stage: StageKind;
  readonly unit: BaseUnit;
  readonly amount: number;
  readonly atMs: EpochMs;
  readonly person: string;
};

export type PadRow = {
  readonly itemId: ItemId;
  readonly itemName: string;
  readonly material: Material | null;
  readonly clean: number;
  /** Of the clean ones, what stages that are worked on now were planned to take: they go dirty when those end. */
  readonly inUse: number;
  readonly dirty: number;
  readonly washing: number;
  readonly retired: number;
  /** Uses a piece lasts, learned from retirements once there are some. */
  readonly usesPerLife: number;
  readonly learnedFrom: number;
  readonly lastCountMs: EpochMs | null;
  readonly shortage: PadShortage | null;
};

/** What a use of pieces outside a stage found: pieces the book did not have, and whether a count was opened for it. */
export type PadsUsed = { readonly found: number; readonly countOpened: boolean };

/** The first day that lacks clean pieces although everything dirty is washed in time, or unless it is. */
export type PadShortage = {
  readonly day: LocalDay;
  readonly jobId: JobId | null;
  readonly jobNumber: number | null;
  readonly customer: string;
  readonly needs: number;
  readonly has: number;
  /** True when washing what is dirty now is enough for that day. */
  readonly washHelps: boolean;
  /** The last day the shop works on which they have to go in the wash to be clean by then; today where it has gone by. */
  readonly washBy: LocalDay;
};

export type PurchaseOrderRow = {
  readonly id: PurchaseOrderId;
  readonly number: number;
  readonly supplierId: SupplierId;
  readonly supplierName: string;
  /** Where it is sent, '' = not known; and what was written beside it. */
  readonly supplierEmail: string;
  readonly note: string;
  readonly state: OrderState;
  readonly orderedDay: LocalDay;
  /** The first day on which something that is missing is expected; of an order that is closed the day it was due. */
  readonly dueDay: LocalDay;
  readonly late: boolean;
  readonly totalMinor: Minor;
  readonly lines: readonly PurchaseOrderLineView[];
  readonly revision: number;
};

export type PurchaseOrderLineView = {
  readonly id: string;
  readonly itemId: ItemId;
  readonly itemName: string;
  readonly supplierCode: string;
  readonly packs: number;
  readonly packSize: number;
  readonly packWord: string;
  readonly unit: BaseUnit;
  readonly priceMinor: Minor;
  readonly receivedPacks: number;
  readonly cancelledPacks: number;
  /** When what is missing is expected: as ordered, or as the supplier said since. */
  readonly dueDay: LocalDay;
  /** Something is missing and that day is before today. */
  readonly late: boolean;
};

export type OpenCountView = {
  readonly id: string;
  readonly itemId: ItemId;
  readonly itemName: string;
  readonly unit: BaseUnit;
  readonly place: string;
  readonly why: 'negative' | 'cycle' | 'full' | 'asked';
  readonly openedMs: EpochMs;
  readonly book: number;
  /** Send this back with the count: draws after it are kept. */
  readonly asOfMovementId: number;
};

/** Everything on the Stock screen, in one snapshot. */
/** A suggestion that somebody put off: it comes again on `untilDay`. */
export type PutOffView = {
  readonly itemId: ItemId;
  readonly itemName: string;
  readonly untilDay: LocalDay;
  readonly person: string;
};

export type StockBoard = {
  readonly today: LocalDay;
  /** First day of the axis is today; its length in days. */
  readonly horizonDays: number;
  readonly currency: string;
  readonly suggestions: readonly SupplierSuggestions[];
  /** What would be suggested, had nobody said "not today". */
  readonly putOff: readonly PutOffView[];
  readonly chases: readonly ChaseView[];
  readonly missing: readonly MissingMaterial[];
  readonly items: readonly StockItemRow[];
  readonly pads: readonly PadRow[];
  readonly orders: readonly PurchaseOrderRow[];
  readonly counts: readonly OpenCountView[];
  /** Past its life and still counted as on hand. */
  readonly toThrow: readonly ThrowAwayView[];
  readonly suppliers: readonly SupplierView[];
  readonly valueMinor: Minor;
};

/** What waits in Stock, for the mark beside its word. */
export type StockNeeds = {
  /** Suggestions, and what runs out with nobody written down who sells it. */
  readonly toOrder: number;
  /** Orders on their way, not late yet, that come after their item has run out. */
  readonly toChase: number;
  readonly toCount: number;
  /** Pads and towels whose next job lacks clean ones unless somebody washes. */
  readonly toWash: number;
  /** Opened containers and sealed packs past their life. */
  readonly toThrow: number;
  /** Orders past the day they were due. */
  readonly late: number;
};

/** An item found by a text. */
export type ItemHit = {
  readonly id: ItemId;
  readonly name: string;
  readonly place: string;
  readonly unit: BaseUnit;
  readonly onHand: number;
};

export type SupplierView = {
  readonly id: SupplierId;
  readonly name: string;
  readonly email: string;
  readonly leadDays: number;
  /** Learned from deliveries; null until there are three. */
  readonly learnedLead: { readonly meanDays: number; readonly sdDays: number; readonly n: number } | null;
  readonly openWeekdays: readonly number[];
  readonly closedDays: readonly LocalDay[];
  readonly minOrderMinor: Minor;
  readonly revision: number;
};
