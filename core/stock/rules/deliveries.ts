import type { PackPrice } from './slips.ts';

/**
 * Packs of the ordered size that an amount answers for: one canister of four litres is four bottles of one, and nothing of
 * the order is due after it. To the nearest pack, so that 900 ml in place of a litre is no rest to wait for.
 * @example inOrderedPacks(4_000_000, 1_000_000) //=> 4
 */
export function inOrderedPacks(amount: number, orderedSize: number): number {
  return Math.floor(amount / orderedSize + 0.5);
}

/** By the base unit, whatever the packs. */
export function isDearer(came: PackPrice, agreed: PackPrice): boolean {
  return came.priceMinor * agreed.packSize > agreed.priceMinor * came.packSize;
}
