import type { Minor } from '#core/shared/units.ts';

/** Money held for later: what is left of it. */
type Held = { readonly leftMinor: Minor };
/** A part taken from held money. */
export type Share<T extends Held> = readonly [T, Minor];

/** Takes an amount from held money in its order; of more than there is, all of it. */
export function shares<T extends Held>(held: readonly T[], amountMinor: Minor): Share<T>[] {
  const parts: Share<T>[] = [];
  let left: number = amountMinor;
  for (const row of held) {
    const take = Math.min(left, row.leftMinor);
    if (take > 0) parts.push([row, take as Minor]);
    left -= take;
  }
  return parts;
}

/** Held money as it is after parts were taken from it. */
export function afterShares<T extends Held>(held: readonly T[], taken: readonly Share<T>[]): T[] {
  const off = new Map(taken);
  return held.map((row) => ({ ...row, leftMinor: (row.leftMinor - (off.get(row) ?? 0)) as Minor }));
}
