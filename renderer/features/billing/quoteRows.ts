import type { Manner } from '#core/shared/text/manner.ts';
import { type QuoteCell, quoteLines, quoteTaxes } from '#core/shared/text/quoteLines.ts';
import type { Minor } from '#core/shared/units.ts';
import type { QuoteOptionView } from '#core/shared/views/billing.ts';
import type { Say } from '../../bridge/texts.tsx';

/** What one option has on a line; null where that is not in it. */
export type Cell = QuoteCell;

/** One line of a quote with a cell for each option, in their order. */
export type QuoteRow = {
  readonly key: string;
  readonly label: string;
  readonly cells: readonly Cell[];
  readonly big: boolean;
};

/** The same work of all options on the same line, things that go with it, then their sums. */
export function quoteRows(
  options: readonly QuoteOptionView[],
  say: Say,
  manner: Manner,
): readonly QuoteRow[] {
  const row = (key: string, label: string, minors: readonly Minor[]): QuoteRow => ({
    ...{ key, label, big: key === 'toPay' },
    cells: minors.map((minor) => ({ minutes: 0, minor })),
  });
  const sum = (key: string, label: string, of: (o: QuoteOptionView) => Minor): QuoteRow =>
    row(key, label, options.map(of));
  const rounded = options.some((o) => o.totals.roundingMinor !== 0);
  return [
    ...quoteLines(manner, options).map((line) => ({ ...line, big: false })),
    sum('net', say('quote.beforeTax'), (o) => o.totals.netMinor),
    ...quoteTaxes(manner, options).map(({ key, label, minors }) => row(`tax ${key}`, label, minors)),
    ...(rounded ? [sum('rounding', say('invoice.rounding'), (o) => o.totals.roundingMinor)] : []),
    sum('toPay', say('quote.toPay'), (o) => o.totals.toPayMinor),
    sum('deposit', say('quote.depositNow'), (o) => o.depositMinor),
  ];
}
