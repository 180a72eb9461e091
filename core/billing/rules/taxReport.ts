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
    taxableMinor: sum(all.map((r) => r.taxableMinor)) as Minor,
    taxMinor: sum(all.map((r) => r.taxMinor)) as Minor,
  };
}

function added(a: TaxReportRow, b: TaxReportRow): TaxReportRow {
  return {
    ...a,
    taxableMinor: (a.taxableMinor + b.taxableMinor) as Minor,
    taxMinor: (a.taxMinor + b.taxMinor) as Minor,
    documents: a.documents + b.documents,
  };
}
