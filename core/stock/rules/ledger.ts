import { invariant } from '../../shared/errors.ts';

/**
 * What a count changes: counted less the book as it stood beside the shelf. Draws booked since stay as they are,
 * so a count and the work need not wait for each other.
 * @example countDifference(480, 500) //=> -20
 */
export function countDifference(counted: number, bookThen: number): number {
  invariant(Number.isSafeInteger(counted) && counted >= 0, 'a count is a whole amount from 0 up');
  return counted - bookThen;
}
