import { invariant } from '../../shared/errors.ts';

/** A ledger line as the rules see it: base units, signed. */
export type LedgerLine = { readonly id: number; readonly qty: number };

/**
 * On hand by the book: the sum of the movements, up to and with `upToId` when it is given.
 * Lines are in the order of their ids.
 */
export function onHand(lines: readonly LedgerLine[], upToId = Number.POSITIVE_INFINITY): number {
  let sum = 0;
  for (const line of lines) if (line.id <= upToId) sum += line.qty;
  return sum;
}

/**
 * What a count changes: counted less the book as it stood beside the shelf. Draws booked since stay as they are,
 * so a count and the work need not wait for each other.
 * @example countDifference(480, 500) //=> -20
 */
export function countDifference(counted: number, bookThen: number): number {
  invariant(Number.isSafeInteger(counted) && counted >= 0, 'a count is a whole amount from 0 up');
  return counted - bookThen;
}

/** Whole packs and what is left over, from base units. */
export function inPacks(amount: number, packSize: number): { readonly packs: number; readonly rest: number } {
  invariant(packSize > 0, 'a pack holds something');
  const packs = Math.trunc(amount / packSize);
  return { packs, rest: amount - packs * packSize };
}

/** Base units of whole packs and a rest. */
export function fromPacks(packs: number, packSize: number, rest = 0): number {
  return packs * packSize + rest;
}
