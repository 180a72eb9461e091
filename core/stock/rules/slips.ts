import type { BaseUnit } from '../../shared/vocabulary.ts';

/** Pieces taken out at once above which a barcode was read into the field. Common practice, no source. */
export const MOST_PIECES = 10_000;
/** So many times what ever came in, and so many packs, is no count without a yes. Common practice, no source. */
const UNLIKELY_TIMES = 10;
/** So many times the agreed price, or as small a part of it, is no price without a yes. Common practice, no source. */
const PRICE_TIMES = 5;

/** Amounts of all other units are bound where they come in: eight digits of them are too many as it is. */
export function tooManyPieces(unit: BaseUnit, amount: number): boolean {
  return unit === 'piece' && amount > MOST_PIECES;
}

/** So many times what the book has, and so many packs beyond it, neither: a point or a digit slipped. Common practice, no source. */
const BOOK_TIMES = 5;
const BOOK_PACKS = 10;

/** An item as far as a count of it can be unlikely, what the book has, and all that ever came in of it. */
type Counted = {
  readonly unit: BaseUnit;
  readonly packSize: number;
  readonly onHand: number;
  readonly everCame: number;
};

/**
 * A count far beyond the book, or beyond all that ever came in, and more than a few packs that nobody booked in; of what nothing ever came
 * in a first count says what there is, as long as it is no barcode.
 */
export function isUnlikelyCount(counted: number, { unit, packSize, onHand, everCame }: Counted): boolean {
  if (everCame <= 0) return tooManyPieces(unit, counted);
  if (onHand > 0 && counted >= BOOK_TIMES * onHand && counted - onHand > BOOK_PACKS * packSize) return true;
  return counted > UNLIKELY_TIMES * Math.max(everCame, packSize);
}

/** Price of a pack and what it holds, base units. */
export type PackPrice = { readonly priceMinor: number; readonly packSize: number };

/** A price by the base unit far from the agreed one. What costs nothing, as a sample, is no slip. */
export function isUnlikelyPrice(agreed: PackPrice, came: PackPrice): boolean {
  const was = agreed.priceMinor * came.packSize;
  const is = came.priceMinor * agreed.packSize;
  return was > 0 && is > 0 && (is >= PRICE_TIMES * was || PRICE_TIMES * is <= was);
}

/** A number with an exponent, as spreadsheets leave a long barcode: its last digits are gone. */
export function isRoundedCode(barcode: string): boolean {
  return /^\d+[.,]\d+[eE]\+?\d+$/.test(barcode);
}
