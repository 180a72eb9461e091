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
 * All weights 0: everything goes to the first part. No parts: refused as a bug by the caller's own check.
 */
export function spread(totalMinor: Minor, weights: readonly number[]): Minor[] {
  const sum = weights.reduce((a, b) => a + b, 0);
  if (sum === 0) return weights.map((_, i) => (i === 0 ? totalMinor : 0) as Minor);
  const exact = weights.map((w) => (totalMinor * w) / sum);
  const parts = exact.map((x) => Math.floor(x));
  const left = totalMinor - parts.reduce((a, b) => a + b, 0);
  const order = exact
    .map((x, i) => ({ i, rest: x - Math.floor(x) }))
    .sort((a, b) => b.rest - a.rest || a.i - b.i);
  for (let k = 0; k < left; k += 1) {
    const at = order[k % order.length]?.i ?? 0;
    parts[at] = (parts[at] ?? 0) + 1;
  }
  return parts as Minor[];
}
