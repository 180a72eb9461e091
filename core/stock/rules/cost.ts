import { invariant } from '../../shared/errors.ts';
import { divideHalfAway } from '../../shared/money.ts';

/** What an amount of stock cost: minor units per base unit is a fraction, so both halves are kept. */
export type UnitCost = { readonly qty: number; readonly valueMinor: number };

/**
 * Book stock at moving average: amount and value together. `qty` may be below 0 after draws beyond the book;
 * then `valueMinor` is what those draws were booked at, negative.
 */
export type Book = { readonly qty: number; readonly valueMinor: number; readonly lastCost: UnitCost };

export const EMPTY_BOOK: Book = { qty: 0, valueMinor: 0, lastCost: { qty: 0, valueMinor: 0 } };

export type Posted = {
  readonly book: Book;
  /** Change of the book value by the movement itself. */
  readonly valueMinor: number;
  /** Further change because draws beyond the book turned out dearer (−) or cheaper (+); 0 as a rule. */
  readonly recostMinor: number;
};

/** The value of a part of it, to the nearest minor unit. */
export function share(part: number, of: UnitCost): number {
  return of.qty === 0 ? 0 : divideHalfAway(BigInt(of.valueMinor) * BigInt(part), BigInt(of.qty));
}

/**
 * Takes `qty` (> 0) out at the moving average; the last piece takes the last cent along, so nothing is left at
 * amount 0. What goes beyond the book is valued at the latest price.
 */
export function takeOut(book: Book, qty: number): Posted {
  invariant(qty > 0, 'an issue is more than nothing');
  const covered = Math.max(0, Math.min(qty, book.qty));
  const fromBook = covered > 0 ? share(covered, book) : 0;
  const beyond = share(qty - covered, book.lastCost);
  const valueMinor = 0 - fromBook - beyond;
  return {
    book: { ...book, qty: book.qty - qty, valueMinor: book.valueMinor + valueMinor },
    valueMinor,
    recostMinor: 0,
  };
}

/** Puts `qty` (> 0) in at a known cost. Draws beyond the book are settled at this cost first. */
export function putIn(book: Book, qty: number, costMinor: number, priced = true): Posted {
  invariant(qty > 0, 'a receipt is more than nothing');
  const settled = Math.min(qty, Math.max(0, -book.qty));
  const booked = settled > 0 ? share(settled, { qty: -book.qty, valueMinor: -book.valueMinor }) : 0;
  const recostMinor = settled > 0 ? booked - share(settled, { qty, valueMinor: costMinor }) : 0;
  return {
    book: {
      qty: book.qty + qty,
      valueMinor: book.valueMinor + costMinor + recostMinor,
      lastCost: priced ? { qty, valueMinor: costMinor } : book.lastCost,
    },
    valueMinor: costMinor,
    recostMinor: recostMinor || 0,
  };
}

/** What `qty` found by a count is worth: at the moving average, else at the latest price. */
export function worthOf(book: Book, qty: number): number {
  return book.qty > 0 ? share(qty, book) : share(qty, book.lastCost);
}

/** Stock by purchase: each layer what is left of one receipt, oldest first. */
export type Fifo = {
  readonly layers: readonly UnitCost[];
  /** Taken beyond all layers, settled by the next receipt. */
  readonly owed: number;
  readonly issuedMinor: number;
};
export const EMPTY_FIFO: Fifo = { layers: [], owed: 0, issuedMinor: 0 };

/** A receipt becomes the youngest layer, less what was already taken on credit. */
export function fifoIn(stock: Fifo, qty: number, costMinor: number): Fifo {
  const settled = Math.min(qty, stock.owed);
  const settledMinor = share(settled, { qty, valueMinor: costMinor });
  const layer = { qty: qty - settled, valueMinor: costMinor - settledMinor };
  return {
    layers: layer.qty > 0 ? [...stock.layers, layer] : stock.layers,
    owed: stock.owed - settled,
    issuedMinor: stock.issuedMinor + settledMinor,
  };
}

/** Takes from the oldest layers first; `pieces` what was taken of each. */
export function fifoTake(
  stock: Fifo,
  qty: number,
): { readonly stock: Fifo; readonly pieces: readonly UnitCost[] } {
  let left = qty;
  let issued = 0;
  let at = 0;
  let head: UnitCost | null = null;
  const pieces: UnitCost[] = [];
  while (left > 0 && at < stock.layers.length) {
    const layer = stock.layers[at] as UnitCost;
    const take = Math.min(left, layer.qty);
    const value = share(take, layer);
    pieces.push({ qty: take, valueMinor: value });
    issued += value;
    left -= take;
    at += 1;
    if (take < layer.qty) head = { qty: layer.qty - take, valueMinor: layer.valueMinor - value };
  }
  const rest = stock.layers.slice(at);
  const layers = head ? [head, ...rest] : rest;
  return { stock: { layers, owed: stock.owed + left, issuedMinor: stock.issuedMinor + issued }, pieces };
}

export function fifoOut(stock: Fifo, qty: number): Fifo {
  return fifoTake(stock, qty).stock;
}

export function fifoLeft(stock: Fifo): UnitCost {
  // from 0, since less nothing alone would be −0
  let qty = 0 - stock.owed;
  let valueMinor = 0;
  for (const layer of stock.layers) {
    qty += layer.qty;
    valueMinor += layer.valueMinor;
  }
  return { qty, valueMinor };
}
