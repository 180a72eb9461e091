import { LINE_KINDS, type LineKind } from '#core/shared/bill.ts';
import type { QuoteOptionView } from '#core/shared/views/billing.ts';
import type { Say } from '../../bridge/texts.tsx';

/** What one option has on a line; null where that work is not in it. */
export type Cell = { readonly minutes: number; readonly minor: number } | null;

/** One line of a quote with a cell for each option, in their order. */
export type QuoteRow = {
  readonly key: string;
  readonly label: string;
  readonly cells: readonly Cell[];
  readonly big: boolean;
};

/** The same work of all options on the same line, then their sums. */
export function quoteRows(options: readonly QuoteOptionView[], say: Say): readonly QuoteRow[] {
  const lines = options.flatMap((o) => o.bill.lines);
  const work = LINE_KINDS.filter((what) => lines.some((l) => l.what === what)).map((what) => ({
    key: what,
    label: lines.find((l) => l.what === what)?.text ?? '',
    cells: options.map((o) => cellOf(o, what)),
    big: false,
  }));
  const sum = (key: string, label: string, of: (o: QuoteOptionView) => number): QuoteRow => ({
    ...{ key, label, big: key === 'toPay' },
    cells: options.map((o) => ({ minutes: 0, minor: of(o) })),
  });
  const rounded = options.some((o) => o.totals.roundingMinor !== 0);
  return [
    ...work,
    sum('net', say('quote.beforeTax'), (o) => o.totals.netMinor),
    sum('tax', options[0]?.totals.taxes[0]?.name ?? '', (o) => o.totals.taxMinor),
    ...(rounded ? [sum('rounding', say('invoice.rounding'), (o) => o.totals.roundingMinor)] : []),
    sum('toPay', say('quote.toPay'), (o) => o.totals.toPayMinor),
    sum('deposit', say('quote.depositNow'), (o) => o.depositMinor),
  ];
}

function cellOf(option: QuoteOptionView, what: LineKind): Cell {
  let [minutes, minor, found] = [0, 0, false];
  option.bill.lines.forEach((line, i) => {
    if (line.what !== what) return;
    found = true;
    minutes += line.unit === 'min' ? line.quantity : 0;
    minor += option.totals.lineShownMinor[i] ?? 0;
  });
  return found ? { minutes, minor } : null;
}
