import type { QuoteBand } from '#core/shared/views/figuresMoney.ts';

/** A quote that was answered or has lapsed: what was asked, minor units with tax, and whole days from request to quote. */
export type AnsweredQuote = {
  readonly askedMinor: number;
  readonly waitedDays: number;
  readonly accepted: boolean;
};

const PRICE_BANDS = 4;
/** First days of the bands of waiting. @source common practice, no source */
const WAITS = [0, 2, 4, 8] as const;

/** Four bands by price with about as many quotes each; equal prices are never parted. Fewer prices, fewer bands. */
export function bandsByPrice(quotes: readonly AnsweredQuote[]): readonly QuoteBand[] {
  const prices = quotes.map((q) => q.askedMinor).toSorted((a, b) => a - b);
  const cuts = Array.from(
    { length: PRICE_BANDS },
    (_, i) => prices[Math.floor((i * prices.length) / PRICE_BANDS)],
  );
  const from = [...new Set(cuts.filter((c) => c !== undefined))];
  return banded(quotes, from, (q) => q.askedMinor);
}

/** By how long the customer waited for the quote: the same or the next day, up to a week in two steps, longer. */
export function bandsByWait(quotes: readonly AnsweredQuote[]): readonly QuoteBand[] {
  return quotes.length === 0 ? [] : banded(quotes, WAITS, (q) => Math.max(0, q.waitedDays));
}

function banded(
  quotes: readonly AnsweredQuote[],
  starts: readonly number[],
  of: (q: AnsweredQuote) => number,
): readonly QuoteBand[] {
  return starts.map((from, i) => {
    const to = starts[i + 1] ?? null;
    const within = quotes.filter((q) => of(q) >= from && (to === null || of(q) < to));
    return { from, to, answered: within.length, accepted: within.filter((q) => q.accepted).length };
  });
}
