import { roundHalfAway } from './units.ts';
import type { PadRow, StockItemRow } from './views/stock.ts';
import type { StockItemDetail } from './views/stockItem.ts';
import type { BaseUnit } from './vocabulary.ts';

/** How lists name each base unit, and how many base units one of those holds: ml, g, m, pieces. */
export const LIST_UNITS = {
  ul: { word: 'ml', holds: 1000 },
  mg: { word: 'g', holds: 1000 },
  mm: { word: 'm', holds: 1000 },
  piece: { word: 'piece', holds: 1 },
} as const satisfies Readonly<Record<BaseUnit, { readonly word: string; readonly holds: number }>>;
export const LIST_UNIT_WORDS = Object.values(LIST_UNITS)
  .map((u) => u.word)
  .join(', ');

/** The base unit that a list calls so; null when none is. */
export function unitOfWord(word: string): BaseUnit | null {
  const found = Object.entries(LIST_UNITS).find(([, u]) => u.word === word);
  return found ? (found[0] as BaseUnit) : null;
}

/** An amount in base units in the unit of lists: 2.5 for 2500 ul. */
export function listFigure(amount: number, unit: BaseUnit): number {
  return amount / LIST_UNITS[unit].holds;
}

/** The same as lists write it: `500`, `2.5`. */
export function listAmount(amount: number, unit: BaseUnit): string {
  return String(listFigure(amount, unit));
}

/** A plain figure of a list as whole base units; null when it is none (`2.5`) or finer than a base unit. */
export function baseAmount(plain: string, unit: BaseUnit): number | null {
  if (!/^\d+(\.\d+)?$/.test(plain)) return null;
  const exact = Number(plain) * LIST_UNITS[unit].holds;
  const whole = roundHalfAway(exact);
  return Math.abs(whole - exact) < 1e-6 ? whole : null;
}

/** Columns of a list of items, in their order. Amounts in the unit that stands beside them. */
export const ITEM_COLUMNS = [
  'name',
  'material',
  'unit',
  'packSize',
  'packWord',
  'place',
  'shelfPacks',
  'sealedLifeDays',
  'openedLifeDays',
  'hazards',
  'sheet',
  'barcode',
  'reusable',
  'usesPerLife',
  'preference',
] as const;
export type ItemColumn = (typeof ITEM_COLUMNS)[number];

/** One item as it travels in a list; `reusable` is yes or no. */
export type ItemLine = Omit<Pick<StockItemDetail, ItemColumn>, 'reusable'> & {
  readonly reusable: 'yes' | 'no';
};

/** A booked job will lack clean ones, and dirty ones that a wash would bring back in time are there. */
export function isToWash(pad: Pick<PadRow, 'dirty' | 'shortage'>): boolean {
  return pad.dirty > 0 && pad.shortage?.washHelps === true;
}

/** It runs out within the days looked at, and nobody is written down who sells it: nothing can be suggested. */
export function isUnsold(item: Pick<StockItemRow, 'runOutDay' | 'packPriceMinor' | 'reusable'>): boolean {
  return item.runOutDay !== null && item.packPriceMinor === null && !item.reusable;
}

/** Columns of a count list. `asOf` is the ledger line it stands beside, `counted` is filled in, in `unit`. */
export const COUNT_COLUMNS = ['item', 'barcode', 'place', 'unit', 'asOf', 'counted'] as const;

/** Nothing is left by the book, which may be below nothing: it is out now, on whatever day more is wanted. */
export function isOut({ onHand }: { readonly onHand: number }): boolean {
  return onHand <= 0;
}
