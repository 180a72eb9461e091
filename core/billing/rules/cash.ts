import { refuse } from '#core/shared/errors.ts';
import { divideHalfAway } from '#core/shared/money.ts';
import type { Minor } from '#core/shared/units.ts';
import type { PaymentWay } from '#core/shared/views/billing.ts';

/**
 * What an amount comes to in coins: the nearest multiple of the shop's step, half away from zero. A step of 1 leaves it.
 * @source common practice, no source; where and how cash is rounded is local law
 */
export function inCash(amountMinor: number, stepMinor: number): Minor {
  return (divideHalfAway(BigInt(amountMinor), BigInt(stepMinor)) * stepMinor) as Minor;
}

/** @throws CASH_NOT_ROUND when no coins make the amount */
export function checkCoins(way: PaymentWay, amountMinor: number, stepMinor: number): void {
  if (way === 'cash' && amountMinor % stepMinor !== 0)
    refuse('CASH_NOT_ROUND', { askedMinor: amountMinor, nearMinor: inCash(amountMinor, stepMinor) });
}

/**
 * What is left to the rounding when cash settles all that is owed: above zero the shop lets it go, below zero it takes
 * more. 0 when the amount does not settle by rounding.
 */
export function roundedOff(way: PaymentWay, owedMinor: Minor, amountMinor: Minor, stepMinor: number): Minor {
  if (way !== 'cash' || amountMinor !== inCash(owedMinor, stepMinor)) return 0 as Minor;
  return (owedMinor - amountMinor) as Minor;
}

export type TillCount = {
  readonly expectedMinor: Minor;
  readonly countedMinor: Minor;
  /** Taken out of the till to the bank after counting. */
  readonly bankedMinor: Minor;
  readonly reason: string;
};

/** What a till's first count says of the time before it. */
export type Opening = {
  /** Change that lay in it before any cash was taken. */
  readonly floatMinor: Minor;
  /** Taken out of it to the bank before it was counted. */
  readonly bankedMinor: Minor;
};

/** A first count on the terms of every other: the float should lie there too, and what went to the bank once did. */
export function withOpening(count: TillCount, opening: Opening): TillCount {
  return {
    ...count,
    expectedMinor: (count.expectedMinor + opening.floatMinor) as Minor,
    countedMinor: (count.countedMinor + opening.bankedMinor) as Minor,
    bankedMinor: (count.bankedMinor + opening.bankedMinor) as Minor,
  };
}

/**
 * What is wrong with a count: something else was expected meanwhile, more goes to the bank than is there, or a
 * difference has no reason.
 * @throws CASH_MOVED · BANKED_ABOVE_COUNTED · CASH_NEEDS_REASON
 */
export function checkCount(count: TillCount, expectedNowMinor: Minor, opening: Opening | null): void {
  const { countedMinor, bankedMinor } = count;
  if (count.expectedMinor !== expectedNowMinor) refuse('CASH_MOVED', { nowMinor: expectedNowMinor });
  if (bankedMinor > countedMinor) refuse('BANKED_ABOVE_COUNTED', { countedMinor, bankedMinor });
  const whole = opening ? withOpening(count, opening) : count;
  const differenceMinor = whole.countedMinor - whole.expectedMinor;
  if (differenceMinor !== 0 && count.reason === '') refuse('CASH_NEEDS_REASON', { differenceMinor });
}
