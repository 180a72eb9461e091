import type { Bill, BillLine } from '#core/shared/bill.ts';
import { divideHalfAway, spread, timesPpm } from '#core/shared/money.ts';
import { type Minor, PPM, type Ppm } from '#core/shared/units.ts';
import { lineKindOf, type StageLabour } from './quoteLines.ts';
import { lineAmount, sum, taxKey } from './totals.ts';
import { type StageDone, sharesOf } from './workDone.ts';

/** The amounts of a bill's parts as it shows them: its lines, behind them the discounts and charges on the whole. */
export function amountsOf(bill: Bill): Minor[] {
  return [...bill.lines.map(lineAmount), ...bill.extras.map((extra) => extra.amountMinor as Minor)];
}

/**
 * The share of each line that is done: of labour by its own stages, of materials, prices as a whole and charges by all
 * labour together. What is sold beside the work counts when all of it is done.
 * @param agreed the agreed labour by stage
 * @source common practice, no source; what may be billed before the end is contract and local law
 */
export function doneOfLines(
  bill: Bill,
  agreed: readonly StageLabour[],
  done: readonly StageDone[],
): readonly Ppm[] {
  const shares = sharesOf(agreed, done);
  const parts = agreed.map((stage, i) => ({
    what: lineKindOf(stage.kind),
    wholeMinor: stage.amountMinor,
    doneMinor: timesPpm(stage.amountMinor, shares[i] ?? (0 as Ppm)),
  }));
  const all = ratioOf(parts);
  return bill.lines.map((line): Ppm => {
    if (line.what.startsWith('labour.')) return ratioOf(parts.filter((p) => p.what === line.what));
    if (line.what === 'goods' || line.what === 'fee') return (all === PPM ? PPM : 0) as Ppm;
    return all;
  });
}

function ratioOf(parts: readonly { readonly wholeMinor: Minor; readonly doneMinor: Minor }[]): Ppm {
  const [done, whole] = [sum(parts.map((p) => p.doneMinor)), sum(parts.map((p) => p.wholeMinor))];
  return (whole <= 0 ? 0 : divideHalfAway(BigInt(done) * BigInt(PPM), BigInt(whole))) as Ppm;
}

/**
 * What partial invoices billed of each part so far. Those of an earlier version of the quote billed other lines: their
 * sum counts on what is left of these.
 * @param own by part, from the same version
 * @param othersMinor the sum of those of earlier versions
 */
export function billedOf(bill: Bill, own: ReadonlyMap<number, number>, othersMinor: number): Minor[] {
  const whole = amountsOf(bill);
  const billed = whole.map((_, i) => own.get(i) ?? 0);
  const left = whole.map((amount, i) => Math.max(0, amount - (billed[i] ?? 0)));
  const others = spread(Math.max(0, Math.min(othersMinor, sum(left))) as Minor, left);
  return billed.map((amount, i) => (amount + (others[i] ?? 0)) as Minor);
}

/**
 * What is billed now of each part of an agreed bill, so that each line is billed up to its share with what was billed
 * before: never below nothing, never above the line. Discounts and charges on the whole follow the lines of their tax,
 * where there are none all lines.
 * @param shares of each line, with what was billed before
 * @example nowOf(twoLinesOf100, [0, 40], [1_000_000, 500_000]) //=> [100, 10]
 */
export function nowOf(bill: Bill, billed: readonly Minor[], shares: readonly Ppm[]): Minor[] {
  const whole = amountsOf(bill);
  const upTo = (i: number, target: number): Minor => {
    const more = target - (billed[i] ?? 0);
    return ((whole[i] ?? 0) < 0 ? Math.min(0, more) : Math.max(0, more)) as Minor;
  };
  const lines = bill.lines.map((_, i) =>
    upTo(i, timesPpm(whole[i] ?? (0 as Minor), shares[i] ?? (0 as Ppm))),
  );
  const extras = bill.extras.map((extra, k) => {
    const own = bill.lines.flatMap(({ tax }, i) => (taxKey(tax) === taxKey(extra.tax) ? [i] : []));
    const by = own.length > 0 ? own : bill.lines.map((_, i) => i);
    const reached = sum(by.map((i) => (lines[i] ?? 0) + (billed[i] ?? 0)));
    const all = sum(by.map((i) => whole[i] ?? 0));
    const target = all <= 0 ? 0 : divideHalfAway(BigInt(extra.amountMinor) * BigInt(reached), BigInt(all));
    return upTo(bill.lines.length + k, target);
  });
  return [...lines, ...extras];
}

/** The share of a line that an amount is, 0 of a line that comes to nothing. */
export function shareOf(amountMinor: Minor, wholeMinor: Minor): Ppm {
  if (wholeMinor === 0) return 0 as Ppm;
  const [part, whole] = wholeMinor < 0 ? [-amountMinor, -wholeMinor] : [amountMinor, wholeMinor];
  return divideHalfAway(BigInt(part) * BigInt(PPM), BigInt(whole)) as Ppm;
}

/** The bill of a partial invoice: a line for each part of the agreed bill of which something is billed. */
export function partialBill(
  bill: Bill,
  now: readonly Minor[],
  textOf: (line: BillLine, at: number) => string,
): Bill {
  const lines = bill.lines.flatMap((line, i): BillLine[] => {
    const amount = now[i] ?? 0;
    if (amount === 0) return [];
    const { what, tax } = line;
    const quantity = amount < 0 ? -1 : 1;
    const head = { what, text: textOf(line, i), quantity, unit: 'piece', per: 1 } as const;
    return [{ ...head, priceMinor: Math.abs(amount), discountMinor: 0, tax, ofPart: i }];
  });
  const extras = bill.extras.flatMap((extra, k) => {
    const ofPart = bill.lines.length + k;
    const amountMinor = now[ofPart] ?? 0;
    return amountMinor === 0 ? [] : [{ ...extra, amountMinor, ofPart }];
  });
  return { lines, extras, taxIncluded: bill.taxIncluded };
}

/** What a partial invoice, or a credit note of one, bills of each part of the agreed bill. */
export function billedParts(bill: Bill): { readonly part: number; readonly amountMinor: Minor }[] {
  const amounts = amountsOf(bill);
  const sums = new Map<number, number>();
  [...bill.lines, ...bill.extras].forEach(({ ofPart }, i) => {
    if (ofPart !== undefined) sums.set(ofPart, (sums.get(ofPart) ?? 0) + (amounts[i] ?? 0));
  });
  return [...sums]
    .filter(([, amount]) => amount !== 0)
    .map(([part, amount]) => ({ part, amountMinor: amount as Minor }));
}

/** A partial invoice as somebody may change it by hand: its lines without the parts that they bill. */
export function withoutParts(bill: Bill): Bill {
  const bare = <T extends { readonly ofPart?: number }>({ ofPart: _, ...rest }: T): Omit<T, 'ofPart'> => rest;
  return { ...bill, lines: bill.lines.map(bare), extras: bill.extras.map(bare) };
}

/** Whether a line is billed further than its work is done, by more than what evens out the tax. */
export function isAheadOfDone(
  bill: Bill,
  reached: readonly Minor[],
  done: readonly Ppm[],
  withinMinor: number,
): boolean {
  return bill.lines.some((line, i) => {
    const whole = lineAmount(line);
    const above = (reached[i] ?? 0) - timesPpm(whole, done[i] ?? (0 as Ppm));
    return (whole < 0 ? -above : above) > withinMinor;
  });
}
