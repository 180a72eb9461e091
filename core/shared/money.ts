import { data as iso4217 } from 'currency-codes';
import { refuse } from './errors.ts';
import type { Minor, Ppm } from './units.ts';

/**
 * Minor-unit digits of a currency, from the ISO 4217 list (library currency-codes), never from Intl:
 * they disagree for 16 currencies.
 * @throws CURRENCY_UNKNOWN when the list has no such code
 * @source ISO 4217
 */
export function currencyDigits(code: string): number {
  const row = iso4217.find((r) => r.code === code);
  if (!row) return refuse('CURRENCY_UNKNOWN', { code });
  return row.digits;
}

/**
 * `amount × ppm / 1,000,000`, half away from zero, exact for any safe integers (BigInt inside).
 * @source EN 16931 rounding by the currency's minor unit
 */
export function timesPpm(amountMinor: Minor, ratePpm: Ppm): Minor {
  return divideHalfAway(BigInt(amountMinor) * BigInt(ratePpm), 1_000_000n) as Minor;
}

/** `numerator / denominator` half away from zero. `denominator` must be positive. */
export function divideHalfAway(numerator: bigint, denominator: bigint): number {
  const negative = numerator < 0n;
  const size = negative ? -numerator : numerator;
  const rounded = (size * 2n + denominator) / (denominator * 2n);
  return Number(negative ? -rounded : rounded);
}

/**
 * Splits an amount over weights so that the parts sum to it exactly (largest remainder; ties to the earlier part).
 * Weights are whole and not negative. All weights 0: everything goes to the first part. No parts: an empty list.
 * Exact for any safe integers (BigInt inside).
 */
export function spread(totalMinor: Minor, weights: readonly number[]): Minor[] {
  const sum = BigInt(weights.reduce((a, b) => a + b, 0));
  if (sum === 0n) return weights.map((_, i) => (i === 0 ? totalMinor : 0) as Minor);
  const shares = weights.map((w, i) => ({ i, ...floorDivide(BigInt(totalMinor) * BigInt(w), sum) }));
  const parts = shares.map((s) => Number(s.floor));
  const left = totalMinor - parts.reduce((a, b) => a + b, 0);
  const neediest = [...shares].sort((a, b) => Number(b.rest - a.rest) || a.i - b.i);
  for (const { i } of neediest.slice(0, left)) parts[i] = (parts[i] ?? 0) + 1;
  return parts as Minor[];
}

/** Towards minus infinity, so that the rest is never negative; `by` is positive. */
function floorDivide(value: bigint, by: bigint): { readonly floor: bigint; readonly rest: bigint } {
  const rest = ((value % by) + by) % by;
  return { floor: (value - rest) / by, rest };
}
