import type { Bill, BillTotals, LineTax } from '#core/shared/bill.ts';
import type { Minor } from '#core/shared/units.ts';
import { leftOfLines, partOf, partTotals } from './credit.ts';
import type { Prepaid } from './deposit.ts';
import { lineAmount, sum, taxKey, totalsOf } from './totals.ts';

type Figured = { readonly bill: Bill; readonly totals: BillTotals };

/** A partial invoice that stands, with its credit notes. */
export type StandingPartial<Id> = Figured & {
  readonly id: Id;
  readonly number: number;
  readonly notes: readonly Figured[];
};
export type CreditOf<Id> = {
  readonly invoiceId: Id;
  readonly number: number;
  readonly lines: readonly { readonly line: number; readonly amountMinor: Minor }[];
};

/** Rounded twice, an even credit can leave a unit too much: it may take this many more. */
const MOST_MORE = 3;

/**
 * The credit notes that take off partial invoices what they are above all that is billed, tax by tax: first of the work
 * that was billed further than it is billed at last, then of any, the latest partial invoice first; so that the final one
 * asks for nothing or more. None where they are
 * priced otherwise, with tax or before it: then somebody has to write them by hand.
 * @param bill all that is billed, before anything is taken off
 * @param besides what else is taken off before tax or with it, such as prepayments
 */
export function creditsForAbove<Id>(
  bill: Bill,
  partials: readonly StandingPartial<Id>[],
  besides: readonly Prepaid[],
): CreditOf<Id>[] {
  if (partials.some((p) => p.bill.taxIncluded !== bill.taxIncluded)) return [];
  const asks = totalsOf(bill).toPayMinor - sum(besides.map((p) => p.totals.toPayMinor));
  for (const credits of [creditsOfWork, creditsOfAll])
    for (let more = 0; more <= MOST_MORE; more += 1) {
      const proposed = credits(bill, partials, excessByTax(bill, partials, besides, more));
      const after = partials.map((p) =>
        askedAfter(
          p,
          proposed.find((c) => c.invoiceId === p.id),
        ),
      );
      if (proposed.length > 0 && asks - sum(after) >= 0) return proposed;
    }
  return [];
}

/** Line by line: what was billed above the same work of the bill goes first. */
function creditsOfWork<Id>(
  bill: Bill,
  partials: readonly StandingPartial<Id>[],
  excess: Map<string, number>,
): CreditOf<Id>[] {
  const notDone = aboveWork(bill, partials);
  const latest = [...partials].reverse();
  const lefts = latest.map((p) => leftNow(p).map((left) => Math.max(0, left)));
  const taken = lefts.map((left) => left.map(() => 0));
  const take = (p: number, line: number, most: number): number => {
    const key = taxKey(latest[p]?.bill.lines[line]?.tax as LineTax);
    const left = (lefts[p]?.[line] ?? 0) - (taken[p]?.[line] ?? 0);
    const amount = Math.max(0, Math.min(most, left, excess.get(key) ?? 0));
    excess.set(key, (excess.get(key) ?? 0) - amount);
    (taken[p] as number[])[line] = (taken[p]?.[line] ?? 0) + amount;
    return amount;
  };
  latest.forEach(({ bill: own }, p) => {
    own.lines.forEach(({ what }, line) => {
      notDone.set(what, (notDone.get(what) ?? 0) - take(p, line, notDone.get(what) ?? 0));
    });
  });
  latest.forEach(({ bill: own }, p) => {
    own.lines.forEach((_, line) => {
      take(p, line, Number.MAX_SAFE_INTEGER);
    });
  });
  return latest.flatMap((p, i) => creditOf(p, taken[i] ?? []));
}

/** By how much each kind of work was billed above what the bill has of it. */
function aboveWork<Id>(bill: Bill, partials: readonly StandingPartial<Id>[]): Map<string, number> {
  const sums = new Map<string, number>();
  const add = (what: string, amount: number): void => {
    sums.set(what, (sums.get(what) ?? 0) + amount);
  };
  for (const line of bill.lines) add(line.what, -lineAmount(line));
  for (const { bill: own, notes } of partials)
    for (const line of [own, ...notes.map((note) => note.bill)].flatMap(({ lines }) => lines))
      add(line.what, lineAmount(line));
  return sums;
}

function leftNow<Id>({ bill, notes }: StandingPartial<Id>): Minor[] {
  return leftOfLines(
    bill,
    notes.map((note) => note.bill),
  );
}

function creditOf<Id>({ id, number }: StandingPartial<Id>, amounts: readonly number[]): CreditOf<Id>[] {
  const lines = amounts
    .map((amountMinor, line) => ({ line, amountMinor: amountMinor as Minor }))
    .filter(({ amountMinor }) => amountMinor > 0);
  return lines.length === 0 ? [] : [{ invoiceId: id, number, lines }];
}

/** Whole partial invoices where lines alone do not do: only with all of one do its discounts and charges go back. */
function creditsOfAll<Id>(
  _: Bill,
  partials: readonly StandingPartial<Id>[],
  excess: Map<string, number>,
): CreditOf<Id>[] {
  return [...partials].reverse().flatMap((partial) => creditOf(partial, amountsToCredit(partial, excess)));
}

/**
 * What of a partial invoice's lines is above, taken off `excess`: all of it, discounts and charges with it, where all is
 * above or a charge on the whole is, which no line can give back.
 */
function amountsToCredit<Id>(partial: StandingPartial<Id>, excess: Map<string, number>): number[] {
  const { bill } = partial;
  const left = leftNow(partial);
  const standing = standingByTax([partial]);
  const above = (key: string): number => Math.max(0, excess.get(key) ?? 0);
  const ofLines = (key: string): number =>
    sum(bill.lines.map(({ tax }, i) => (taxKey(tax) === key ? Math.max(0, left[i] ?? 0) : 0)));
  const isAll =
    [...standing].every(([key, amount]) => above(key) >= amount) ||
    [...standing].some(([key, amount]) => Math.min(above(key), amount) > ofLines(key));
  if (isAll) for (const [key, amount] of standing) excess.set(key, (excess.get(key) ?? 0) - amount);
  return bill.lines.map(({ tax }, line) => {
    const most = Math.max(0, left[line] ?? 0);
    if (isAll) return most;
    const take = Math.min(most, above(taxKey(tax)));
    excess.set(taxKey(tax), above(taxKey(tax)) - take);
    return take;
  });
}

/**
 * By how much what is taken off is above the bill, by tax, in the amounts that the bill shows; and of the one with most
 * left `more`.
 */
function excessByTax<Id>(
  bill: Bill,
  partials: readonly StandingPartial<Id>[],
  besides: readonly Prepaid[],
  more: number,
): Map<string, number> {
  const standing = standingByTax(partials);
  const sums = new Map(standing);
  const add = (tax: LineTax, amount: number): void => {
    sums.set(taxKey(tax), (sums.get(taxKey(tax)) ?? 0) + amount);
  };
  for (const line of bill.lines) add(line.tax, -lineAmount(line));
  for (const extra of bill.extras) add(extra.tax, -extra.amountMinor);
  for (const { tax, totals } of besides) add(tax, bill.taxIncluded ? totals.toPayMinor : totals.netMinor);
  // Of a tax whose lines are all taken off already, no more can be.
  const left = (key: string): number => (standing.get(key) ?? 0) - (sums.get(key) ?? 0);
  const [most] = [...sums.keys()].filter((key) => (sums.get(key) ?? 0) > 0).sort((a, b) => left(b) - left(a));
  if (most !== undefined) sums.set(most, (sums.get(most) ?? 0) + more);
  return sums;
}

/** What partial invoices show under each tax after their credit notes. */
function standingByTax<Id>(partials: readonly StandingPartial<Id>[]): Map<string, number> {
  const sums = new Map<string, number>();
  for (const { bill, notes } of partials)
    for (const { lines, extras } of [bill, ...notes.map((note) => note.bill)])
      for (const [tax, amount] of [
        ...lines.map((line) => [line.tax, lineAmount(line)] as const),
        ...extras.map((extra) => [extra.tax, extra.amountMinor] as const),
      ])
        sums.set(taxKey(tax), (sums.get(taxKey(tax)) ?? 0) + amount);
  return sums;
}

/** What a partial invoice asks for after its credit notes and one more. */
function askedAfter<Id>(partial: StandingPartial<Id>, credit: CreditOf<Id> | undefined): number {
  const notes = partial.notes.map((note) => note.bill);
  const leftMinor = sum([partial, ...partial.notes].map((d) => d.totals.toPayMinor)) as Minor;
  if (!credit) return leftMinor;
  const part = partOf(partial.bill, credit.lines, notes);
  return leftMinor + partTotals(partial.bill, part, notes, leftMinor).toPayMinor;
}
