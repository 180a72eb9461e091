import type { Bill, BillLine, BillTotals } from '#core/shared/bill.ts';
import { refuse } from '#core/shared/errors.ts';
import type { JobId } from '#core/shared/ids.ts';
import { spread } from '#core/shared/money.ts';
import type { Minor } from '#core/shared/units.ts';
import { leftOfLines } from './credit.ts';
import { lineAmount, sum, taxKey } from './totals.ts';

/** A job of a collective invoice: what it asks for by itself, and what it is called there. */
export type CollectedJob = { readonly jobId: JobId; readonly text: string; readonly bill: Bill };

/**
 * The bill of several jobs of one payer: each job has one line for each of its taxes, whose amount is the sum of what
 * its own bill shows under that tax, so that nothing is rounded on the way.
 * @throws COLLECTIVE_MIXED when some are priced with tax and some before it
 */
export function collectiveBill(jobs: readonly CollectedJob[]): Bill {
  const taxIncluded = jobs[0]?.bill.taxIncluded ?? true;
  if (jobs.some((job) => job.bill.taxIncluded !== taxIncluded)) refuse('COLLECTIVE_MIXED', {});
  return { lines: jobs.flatMap(linesOf), extras: [], taxIncluded };
}

function linesOf({ jobId, text, bill }: CollectedJob): BillLine[] {
  const parts = [
    ...bill.lines.map((line) => ({ tax: line.tax, amount: lineAmount(line) })),
    ...bill.extras.map((extra) => ({ tax: extra.tax, amount: extra.amountMinor })),
  ];
  const taxes = new Map(parts.map((part) => [taxKey(part.tax), part.tax]));
  return [...taxes].map(([key, tax]): BillLine => {
    const amount = sum(parts.filter((part) => taxKey(part.tax) === key).map((part) => part.amount));
    return {
      ...{ what: 'job', text, quantity: amount < 0 ? -1 : 1, unit: 'piece', per: 1, discountMinor: 0 },
      ...{ priceMinor: Math.abs(amount) as Minor, tax, ofJob: jobId },
    };
  });
}

/**
 * What one job has of a collective document before tax: its lines, and of a discount or charge on the whole the part that
 * falls on them by their net. Those of all jobs sum to the document's net.
 */
export function netOfJob(bill: Pick<Bill, 'lines'>, totals: BillTotals, jobId: string): Minor {
  const { lineNetMinor } = totals;
  const beside = spread(sum(totals.extraNetMinor) as Minor, lineNetMinor.map(Math.abs));
  const own = bill.lines.map((line, i) =>
    line.ofJob === jobId ? (lineNetMinor[i] ?? 0) + (beside[i] ?? 0) : 0,
  );
  return sum(own) as Minor;
}

/** Whether credit notes of a collective invoice took all that one job has on it; a job that costs nothing is not by that. */
export function isJobCredited(bill: Bill, notes: readonly Bill[], jobId: string): boolean {
  const left = leftOfLines(bill, notes);
  const own = bill.lines.flatMap((line, i) =>
    line.ofJob === jobId && lineAmount(line) !== 0 ? [left[i] ?? 0] : [],
  );
  return own.length > 0 && own.every((amount) => amount === 0);
}
