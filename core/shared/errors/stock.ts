import type { LocalDay } from '../units.ts';
import type { PadState } from '../views/stock.ts';
import type { BaseUnit, Material } from '../vocabulary.ts';

/** Refusals of the stock area: code → data. Every code has its sentence in core/shared/text. */
export type StockErrors = {
  readonly BARCODE_TAKEN: { readonly barcode: string; readonly item: string };
  readonly ITEM_NAME_TAKEN: { readonly item: string };
  /** Reusable things are counted in pieces. */
  readonly REUSABLE_IN_PIECES: { readonly item: string };
  /** The item's unit does not belong to the material stages ask for. */
  readonly MATERIAL_UNIT: { readonly item: string; readonly unit: BaseUnit; readonly needs: BaseUnit };
  /** More came than was ordered: ask, then send again with a yes. */
  readonly ABOVE_ORDER: {
    readonly item: string;
    readonly ordered: number;
    readonly before: number;
    readonly now: number;
  };
  readonly OTHER_PACK: {
    readonly item: string;
    readonly ordered: number;
    readonly came: number;
    readonly unit: BaseUnit;
    /** Packs of the ordered size that it makes, of those that are still due. */
    readonly counts: number;
    readonly due: number;
  };
  /** A price far from the agreed one for such a pack: ask, then send again with a yes. */
  readonly PRICE_UNLIKELY: {
    readonly item: string;
    readonly agreedMinor: number;
    readonly cameMinor: number;
  };
  /** A count far beyond all that ever came in: ask, then send again with a yes. */
  readonly COUNT_UNLIKELY: { readonly item: string };
  /** An item's name, or a material that no item is kept of; the other is empty. */
  readonly TOO_MANY_PIECES: { readonly item: string; readonly material: Material | '' };
  readonly ORDER_NOT_OPEN: { readonly number: number };
  readonly LINE_OF_OTHER_ORDER: { readonly item: string };
  readonly NOT_SOLD_BY: { readonly item: string; readonly supplier: string };
  readonly PADS_NOT_THERE: {
    readonly item: string;
    readonly state: PadState;
    readonly has: number;
    readonly asked: number;
  };
  readonly NOT_REUSABLE: { readonly item: string };
  readonly RETIRE_INSTEAD: { readonly item: string };
  readonly MORE_THAN_THERE: {
    readonly item: string;
    readonly has: number;
    readonly asked: number;
    readonly unit: BaseUnit;
  };
  readonly BREAKS_NOT_RISING: { readonly item: string };
  /** What was used without an item was given to one or removed already. */
  readonly USE_SETTLED: Readonly<Record<string, never>>;
  readonly USE_OTHER_MATERIAL: { readonly item: string; readonly material: Material };
  readonly NOT_A_DRAW: Readonly<Record<string, never>>;
  readonly SHEET_TOO_LARGE: { readonly mostMb: number };
  readonly SHEET_UNREADABLE: Readonly<Record<string, never>>;
  readonly DUE_IS_PAST: { readonly dueDay: LocalDay };
  readonly LATER_IS_PAST: { readonly untilDay: LocalDay };
  /** What goes round is in no container. */
  readonly NOT_IN_CONTAINERS: { readonly item: string };
  readonly OPENED_AHEAD: { readonly openedDay: LocalDay };
  readonly CONTAINER_CLOSED: { readonly item: string };
  /** Something is wrong with what was read: below the empty container, or more than it can hold. */
  readonly LIGHTER_THAN_EMPTY: { readonly item: string };
  readonly MORE_THAN_HOLDS: {
    readonly item: string;
    readonly read: number;
    readonly holds: number;
    readonly unit: BaseUnit;
  };
  readonly NOT_WEIGHED: { readonly item: string };
  readonly DENSITY_MISSING: { readonly item: string };
  readonly THROWN_WHY: { readonly item: string };
  readonly COUNT_AHEAD: { readonly item: string };
  readonly IMPORT_FAULTS: { readonly faults: number; readonly line: number; readonly field: string };
};
