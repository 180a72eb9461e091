import { divideHalfAway } from '#core/shared/money.ts';
import type { LocalDay, Minor } from '#core/shared/units.ts';
import type { TaxBasis, TaxReport, TaxReportRow } from '#core/shared/views/billingReports.ts';
import { sum } from './totals.ts';

/**
 * The part of a document's amount that falls on one payment: what falls on everything paid so far, less what fell on
 * what was paid before, so that the parts of all payments sum to the document exactly.
 */
export function partPaid(
  amountMinor: number,
  toPayMinor: number,
  beforeMinor: number,
  paidMinor: number,
): Minor {
  if (toPayMinor === 0) return 0 as Minor;
  const sign = toPayMinor < 0 ? -1n : 1n;
  const upTo = (paid: number): number =>
    divideHalfAway(BigInt(amountMinor) * BigInt(paid) * sign, BigInt(toPayMinor) * sign);
  return (upTo(beforeMinor + paidMinor) - upTo(beforeMinor)) as Minor;
}

/** Money that settled a part of a document, and what had been paid on it before. */
export type Settlement = {
  readonly invoiceId: string;
  readonly beforeMinor: number;
  readonly amountMinor: number;
};
/** Money laid on a document in its turn; only what came `within` the period asked for (1) counts. */
export type Laid = Pick<Settlement, 'invoiceId' | 'amountMinor'> & { readonly within: 0 | 1 };

/**
 * What was laid on each document within a period; the rows stand document by document, as the money came. Payments that
 * follow each other are one settlement: the parts that fall on them sum to the part that falls on all of them.
 */
export function settlements(rows: readonly Laid[]): readonly Settlement[] {
  const found: Settlement[] = [];
  let paidMinor = 0;
  rows.forEach(({ invoiceId, amountMinor, within }, i) => {
    const before = rows[i - 1];
    const goesOn = before?.invoiceId === invoiceId;
    if (!goesOn) paidMinor = 0;
    const last = found.at(-1);
    if (within === 1 && last && goesOn && before.within === 1)
      found[found.length - 1] = { ...last, amountMinor: last.amountMinor + amountMinor };
    else if (within === 1) found.push({ invoiceId, beforeMinor: paidMinor, amountMinor });
    paidMinor += amountMinor;
  });
  return found;
}

/** Rows of one category, rate and name together, with their sums. */
export function taxReport(
  head: {
    readonly fromDay: LocalDay;
    readonly toDay: LocalDay;
    readonly basis: TaxBasis;
    readonly currency: string;
  },
  rows: readonly TaxReportRow[],
): TaxReport {
  const merged = new Map<string, TaxReportRow>();
  for (const row of rows) {
    const key = `${row.category}/${row.ratePpm}/${row.name}`;
    const known = merged.get(key);
    merged.set(key, known ? added(known, row) : row);
  }
  const all = [...merged.values()].sort(
    (a, b) => a.category.localeCompare(b.category) || b.ratePpm - a.ratePpm || a.name.localeCompare(b.name),
  );
  return {
    ...head,
    rows: all,
    taxableMinor: sum(all.map((r) => r.netMinor)) as Minor,
    taxMinor: sum(all.map((r) => r.taxMinor)) as Minor,
  };
}

function added(a: TaxReportRow, b: TaxReportRow): TaxReportRow {
  return {
    ...a,
    taxableMinor: (a.taxableMinor + b.taxableMinor) as Minor,
    taxMinor: (a.taxMinor + b.taxMinor) as Minor,
    netMinor: (a.netMinor + b.netMinor) as Minor,
    documents: a.documents + b.documents,
  };
}
