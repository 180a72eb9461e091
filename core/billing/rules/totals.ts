import type { Bill, BillLine, BillTotals, LineTax, TaxShare } from '#core/shared/bill.ts';
import { refuse } from '#core/shared/errors.ts';
import { divideHalfAway, timesPpm } from '#core/shared/money.ts';
import type { Minor, Ppm } from '#core/shared/units.ts';

const MILLION = 1_000_000n;

/**
 * Amount of a line as it is priced, minor units: `quantity × price / per − discount`, half away from zero.
 * @source EN 16931-1 BT-131 (quantity, price, base quantity, line allowance)
 * @example lineAmount({ quantity: 353, priceMinor: 8500, per: 60, discountMinor: 0 }) //=> 50008
 */
export function lineAmount(line: Pick<BillLine, 'quantity' | 'priceMinor' | 'per' | 'discountMinor'>): Minor {
  const gross = divideHalfAway(BigInt(line.quantity) * BigInt(line.priceMinor), BigInt(line.per));
  return (gross - line.discountMinor) as Minor;
}

type Part = { readonly amount: number; readonly tax: LineTax };
type Group = { readonly tax: LineTax; readonly at: number[]; readonly amounts: number[] };
type Worked = { readonly share: TaxShare; readonly nets: readonly number[]; readonly rounding: number };

/**
 * Every figure of a document. Prices without tax: tax per category from the sum of its amounts.
 * Prices with tax: the sum with tax per rate is fixed, tax is extracted, the net is spread over the parts by
 * largest remainder, and what the tax computed from the net lacks or exceeds goes to the rounding amount.
 * Money in minor units, half away from zero.
 * @source EN 16931-1 clause 6.4 and BR-CO-10 to BR-CO-17; the with-tax rule is this program's own
 */
export function totalsOf(bill: Bill): BillTotals {
  const shown = [...bill.lines.map(lineAmount), ...bill.extras.map((x) => x.amountMinor)];
  const parts = [...bill.lines, ...bill.extras].map((p, i): Part => ({ amount: shown[i] ?? 0, tax: p.tax }));
  const nets: number[] = parts.map((p) => p.amount);
  const groups = groupsOf(parts);
  const worked = groups.map((group) => (bill.taxIncluded ? fromGross(group) : fromNet(group)));
  worked.forEach((w, g) => {
    w.nets.forEach((net, k) => {
      nets[groups[g]?.at[k] ?? -1] = net;
    });
  });
  return sumUp(bill.lines.length, shown, nets, worked);
}

/** Parts of one category and rate, in order of their first appearance. */
function groupsOf(parts: readonly Part[]): Group[] {
  const groups = new Map<string, Group>();
  parts.forEach((part, i) => {
    const key = `${part.tax.category}/${part.tax.ratePpm}`;
    const group = groups.get(key) ?? { tax: part.tax, at: [], amounts: [] };
    group.at.push(i);
    group.amounts.push(part.amount);
    groups.set(key, group);
  });
  return [...groups.values()];
}

function fromNet(group: Group): Worked {
  return { share: shareOf(group.tax, sum(group.amounts)), nets: group.amounts, rounding: 0 };
}

function fromGross(group: Group): Worked {
  const gross = sum(group.amounts);
  const base = MILLION + BigInt(group.tax.ratePpm);
  const net = gross - divideHalfAway(BigInt(gross) * BigInt(group.tax.ratePpm), base);
  const share = shareOf(group.tax, net);
  return { share, nets: spreadNet(group.amounts, net, base), rounding: gross - net - share.taxMinor };
}

/** Largest remainder over the exact nets. Signs are turned first, so that a document and its credit mirror. */
function spreadNet(amounts: readonly number[], net: number, base: bigint): number[] {
  const lead = net !== 0 ? net : (amounts.find((a) => a !== 0) ?? 0);
  const sign = lead < 0 ? -1 : 1;
  const cut = amounts.map((amount) => {
    const exact = BigInt(sign * amount) * MILLION;
    const rest = ((exact % base) + base) % base;
    return { floor: Number((exact - rest) / base), rest };
  });
  const left = sign * net - sum(cut.map((c) => c.floor));
  const order = cut.map((c, i) => ({ i, rest: c.rest })).sort((a, b) => Number(b.rest - a.rest) || a.i - b.i);
  const up = new Set(order.slice(0, left).map((o) => o.i));
  return cut.map((c, i) => sign * (c.floor + (up.has(i) ? 1 : 0)) || 0);
}

function shareOf(tax: LineTax, taxable: number): TaxShare {
  return {
    category: tax.category,
    ratePpm: tax.ratePpm as Ppm,
    name: tax.name,
    reason: tax.reason,
    taxableMinor: taxable as Minor,
    taxMinor: timesPpm(taxable as Minor, tax.ratePpm as Ppm),
  };
}

function sumUp(
  lineCount: number,
  shown: readonly number[],
  nets: readonly number[],
  worked: readonly Worked[],
): BillTotals {
  const extras = nets.slice(lineCount);
  const lines = sum(nets.slice(0, lineCount));
  const net = sum(nets);
  const tax = sum(worked.map((w) => w.share.taxMinor));
  const rounding = sum(worked.map((w) => w.rounding));
  return {
    lineNetMinor: nets.slice(0, lineCount) as Minor[],
    extraNetMinor: extras as Minor[],
    lineShownMinor: shown.slice(0, lineCount) as Minor[],
    taxes: worked.map((w) => w.share),
    linesMinor: lines as Minor,
    allowancesMinor: (sum(extras.filter((x) => x < 0).map((x) => -x)) || 0) as Minor,
    chargesMinor: sum(extras.filter((x) => x > 0)) as Minor,
    netMinor: net as Minor,
    taxMinor: tax as Minor,
    withTaxMinor: (net + tax) as Minor,
    roundingMinor: rounding as Minor,
    toPayMinor: (net + tax + rounding) as Minor,
  };
}

/** The same figures asking for exactly `toPay`: the difference goes to the rounding amount (BT-114). */
export function askingFor(totals: BillTotals, toPay: Minor): BillTotals {
  return { ...totals, roundingMinor: (toPay - totals.withTaxMinor) as Minor, toPayMinor: toPay };
}

/**
 * What an invoice may ask for, before deposits are taken off: nothing, but not less.
 * @throws BILL_BELOW_ZERO
 */
export function checkBill(bill: Bill): void {
  const { toPayMinor } = totalsOf(bill);
  if (toPayMinor < 0) refuse('BILL_BELOW_ZERO', { belowMinor: -toPayMinor });
}

export function sum(values: readonly number[]): number {
  return values.reduce((a, b) => a + b, 0);
}
