import type { Bill, BillLine, BillTotals, LineTax } from '#core/shared/bill.ts';
import { divideHalfAway, spread } from '#core/shared/money.ts';
import { factorOf } from '#core/shared/tax.ts';
import { type Minor, PPM } from '#core/shared/units.ts';
import { askingFor, lineAmount, taxKey, totalsOf } from './totals.ts';

/** What the second payer takes of a bill, with tax: a sum, such as an excess, or a share of it. */
export type Part =
  | { readonly by: 'sum'; readonly amountMinor: Minor }
  | { readonly by: 'share'; readonly sharePpm: number };

/** The same as a sum, half away from zero. */
export function partMinor(toPayMinor: Minor, part: Part): Minor {
  if (part.by === 'sum') return part.amountMinor;
  return divideHalfAway(BigInt(toPayMinor) * BigInt(part.sharePpm), BigInt(PPM)) as Minor;
}

export type Priced = { readonly bill: Bill; readonly totals: BillTotals };
export type SplitBill = { readonly rest: Priced; readonly part: Priced };

/**
 * Splits a bill between two payers. The part has one line for each tax of the bill, the rest has all its lines and takes
 * those off again with a quantity below zero, so that net amounts sum by rate. Both together ask for exactly what the
 * bill asks for, tax included; where prices are before tax, the unit that is lost by rounding twice stands in the
 * rounding amount. Tax may differ from the whole bill's by a unit a rate, as each invoice rounds its own.
 * @source EN 16931-1 BR-27 (no price below zero), BR-CO-16 (rounding amount); the split is common practice
 */
export function splitBill(
  bill: Bill,
  whole: BillTotals,
  askedMinor: Minor,
  words: { readonly part: string; readonly rest: string },
): SplitBill {
  const shares = sharesOf(bill, askedMinor);
  const lines = (text: string, quantity: number): BillLine[] =>
    shares.map(({ tax, priceMinor }) => ({
      ...{ what: 'share', text, quantity, unit: 'piece', per: 1, priceMinor, discountMinor: 0, tax },
    }));
  const part: Bill = { lines: lines(words.part, 1), extras: [], taxIncluded: bill.taxIncluded };
  const rest: Bill = { ...bill, lines: [...bill.lines, ...lines(words.rest, -1)] };
  return {
    part: { bill: part, totals: askingFor(totalsOf(part), askedMinor) },
    rest: { bill: rest, totals: askingFor(totalsOf(rest), (whole.toPayMinor - askedMinor) as Minor) },
  };
}

/** The asked sum by tax, in proportion to what the bill has of each; as its lines are priced. */
function sharesOf(bill: Bill, askedMinor: Minor): { tax: LineTax; priceMinor: Minor }[] {
  const taxes = new Map([...bill.lines, ...bill.extras].map(({ tax }) => [taxKey(tax), tax]));
  const gross = [...taxes.keys()].map((key) => Math.max(0, grossOf(bill, key)));
  const parts = spread(askedMinor, gross);
  return [...taxes.values()].flatMap((tax, i) => {
    const withTax = parts[i] ?? 0;
    const { num, den } = factorOf(tax);
    const priceMinor = (bill.taxIncluded ? withTax : divideHalfAway(BigInt(withTax) * den, num)) as Minor;
    return priceMinor > 0 ? [{ tax, priceMinor }] : [];
  });
}

/** What a bill asks for under one tax. */
function grossOf(bill: Bill, key: string): Minor {
  const under = ({ tax }: { readonly tax: LineTax }): boolean => taxKey(tax) === key;
  return totalsOf({ ...bill, lines: bill.lines.filter(under), extras: bill.extras.filter(under) })
    .withTaxMinor;
}

/** The bill as it was before it was split. */
export function joined(rest: Bill): Bill {
  return { ...rest, lines: rest.lines.filter((line) => line.what !== 'share') };
}

/** Whether a bill is one of two that were split: only then has it lines of a share. */
export function isSplit(bill: Bill): boolean {
  return bill.lines.some((line) => line.what === 'share' && lineAmount(line) !== 0);
}

/** Whether it is the owner's of the two: it asks for the share, the rest takes it off. */
export function isPart(bill: Bill): boolean {
  return bill.lines.some((line) => line.what === 'share' && lineAmount(line) > 0);
}
