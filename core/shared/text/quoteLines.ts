import { type BillLine, type BillTotals, LINE_KINDS, type TaxShare } from '../bill.ts';
import type { Minor } from '../units.ts';
import type { QuoteOptionView } from '../views/billing.ts';
import { moneyPlain, rate } from './format.ts';
import { amountText, type PaperManner } from './manner.ts';
import { say } from './say.ts';

/** What one option has on a line of the quote; null where that is not in it. Amounts as the customer is shown them. */
export type QuoteCell = { readonly minutes: number; readonly minor: Minor } | null;

/** A line of the quote with a cell for each option, in their order. */
export type QuoteLine = {
  readonly key: string;
  readonly label: string;
  readonly cells: readonly QuoteCell[];
};

type Option = Pick<QuoteOptionView, 'bill' | 'totals'>;

/**
 * What the options ask for, the same on one line: work by its kind, panels and things each by itself. The cells of an
 * option sum to what its lines ask for.
 */
export function quoteLines(manner: PaperManner, options: readonly Option[]): readonly QuoteLine[] {
  const keyed = options.map((option) => keyedLines(manner, option));
  const found = new Map<string, { label: string; at: number }>();
  for (const line of keyed.flat()) if (!found.has(line.key)) found.set(line.key, line);
  return [...found]
    .sort(([, a], [, b]) => a.at - b.at)
    .map(([key, { label }]) => ({ key, label, cells: keyed.map((lines) => cellOf(lines, key)) }));
}

type Keyed = { key: string; label: string; at: number; minutes: number; minor: number };

/** Lines of one option; of two that read the same, the second is a line of its own. */
function keyedLines(manner: PaperManner, { bill, totals }: Option): readonly Keyed[] {
  const times = new Map<string, number>();
  return bill.lines.map((line, i) => {
    const alone = line.what === 'goods' || line.what === 'panel';
    const label = alone ? thingSaid(manner, line) : line.text;
    const n = times.get(label) ?? 0;
    if (alone) times.set(label, n + 1);
    return {
      key: alone ? `${line.what} ${n} ${label}` : line.what,
      ...{ label, at: LINE_KINDS.indexOf(line.what) },
      minutes: line.unit === 'min' ? line.quantity : 0,
      minor: totals.lineShownMinor[i] ?? 0,
    };
  });
}

function cellOf(lines: readonly Keyed[], key: string): QuoteCell {
  const own = lines.filter((line) => line.key === key);
  if (own.length === 0) return null;
  return {
    minutes: own.reduce((sum, line) => sum + line.minutes, 0),
    minor: own.reduce((sum, line) => sum + line.minor, 0) as Minor,
  };
}

/** `2 × Drying towel, 14.90 each, less 3.00`; one alone is only called. */
export function thingSaid(manner: PaperManner, line: BillLine): string {
  if (line.quoted === undefined) return line.text;
  return say(manner.locale, 'billing.thingLine', {
    n: line.quantity,
    text: line.text,
    each: moneyPlain(manner, line.priceMinor),
    off: line.discountMinor === 0 ? 'none' : moneyPlain(manner, line.discountMinor),
  });
}

/** A tax of the options, each with what is due of it; its rate is named where there is more than one. */
export function quoteTaxes(
  manner: PaperManner,
  options: readonly { readonly totals: BillTotals }[],
): readonly { readonly key: string; readonly label: string; readonly minors: readonly Minor[] }[] {
  const keyOf = ({ category, ratePpm, name }: TaxShare): string => `${category}/${ratePpm}/${name}`;
  const all = new Map(options.flatMap(({ totals }) => totals.taxes.map((tax) => [keyOf(tax), tax])));
  return [...all].map(([key, { name, ratePpm }]) => ({
    key,
    label: all.size === 1 ? name : `${name} ${amountText(rate(manner, ratePpm))}`,
    minors: options.map(
      ({ totals }) => totals.taxes.find((tax) => keyOf(tax) === key)?.taxMinor ?? (0 as Minor),
    ),
  }));
}
