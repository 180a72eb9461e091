import type { BillLine, LineKind, LineTax } from '#core/shared/bill.ts';
import { timesPpm } from '#core/shared/money.ts';
import type { Minor } from '#core/shared/units.ts';
import type { ChargeShares } from '#core/shared/views/shop.ts';
import { agreedLine } from './quoteLines.ts';
import { lineAmount, sum } from './totals.ts';

/**
 * Lines of work with what a job costs beside it: first what it lacks to the least a job costs, then each surcharge as a
 * share of that price, none of them on the other. Half away from zero. Where there is no work nothing is charged.
 * @source common practice, no source; how a surcharge has to be shown to a consumer is local law
 */
export function withCharges(
  work: readonly BillLine[],
  charges: ChargeShares,
  tax: LineTax,
  textOf: (what: LineKind) => string,
): readonly BillLine[] {
  if (work.length === 0) return work;
  const workMinor = sum(work.map(lineAmount));
  const lackMinor = Math.max(0, charges.minimumMinor - workMinor);
  const priceMinor = (workMinor + lackMinor) as Minor;
  const more = [
    ['minimum', lackMinor],
    ['rush', timesPpm(priceMinor, charges.rushPpm)],
    ['afterHours', timesPpm(priceMinor, charges.afterHoursPpm)],
  ] as const;
  return [
    ...work,
    ...more
      .filter(([, amount]) => amount > 0)
      .map(([what, amount]) => agreedLine(what, textOf(what), 0, amount as Minor, tax)),
  ];
}
