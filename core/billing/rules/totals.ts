import type { Bill, BillLine, BillTotals, LineTax, TaxShare } from '#core/shared/bill.ts';
import { refuse } from '#core/shared/errors.ts';
import { divideHalfAway } from '#core/shared/money.ts';
import { factorOf } from '#core/shared/tax.ts';
import type { Minor } from '#core/shared/units.ts';
import { sharesOf } from './taxShares.ts';

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
type Worked = { readonly tax: LineTax; readonly nets: readonly number[] };

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
  const worked = groups.map((g): Worked => ({ tax: g.tax, nets: bill.taxIncluded ? netsOf(g) : g.amounts }));
  worked.forEach((w, g) => {
    w.nets.forEach((net, k) => {
      nets[groups[g]?.at[k] ?? -1] = net;
    });
  });
  const taxes = sharesOf(worked.map((w) => ({ tax: w.tax, netMinor: sum(w.nets) })));
  return sumUp(bill.lines.length, shown, nets, taxes, bill.taxIncluded ? sum(shown) : null);
}

/** Parts of one category and rate, in order of their first appearance. */
function groupsOf(parts: readonly Part[]): Group[] {
  const groups = new Map<string, Group>();
  parts.forEach((part, i) => {
    const key = taxKey(part.tax);
    const group = groups.get(key) ?? { tax: part.tax, at: [], amounts: [] };
    group.at.push(i);
    group.amounts.push(part.amount);
    groups.set(key, group);
  });
  return [...groups.values()];
}

/** Amounts under one key are taxed alike. */
export function taxKey({ category, ratePpm, parts }: LineTax): string {
  return [`${category}/${ratePpm}`, ...(parts ?? []).map((p) => `${p.name}/${p.ratePpm}/${p.onTax}`)].join(
    '+',
  );
}

function netsOf(group: Group): readonly number[] {
  const gross = sum(group.amounts);
  const { num, den } = factorOf(group.tax);
  const net = gross - divideHalfAway(BigInt(gross) * (num - den), num);
  return spreadNet(group.amounts, net, num, den);
}

/** Largest remainder over the exact nets. Signs are turned first, so that a document and its credit mirror. */
function spreadNet(amounts: readonly number[], net: number, base: bigint, scale: bigint): number[] {
  const lead = net !== 0 ? net : (amounts.find((a) => a !== 0) ?? 0);
  const sign = lead < 0 ? -1 : 1;
  const cut = amounts.map((amount) => {
    const exact = BigInt(sign * amount) * scale;
    const rest = ((exact % base) + base) % base;
    return { floor: Number((exact - rest) / base), rest };
  });
  const left = sign * net - sum(cut.map((c) => c.floor));
  const order = cut.map((c, i) => ({ i, rest: c.rest })).sort((a, b) => Number(b.rest - a.rest) || a.i - b.i);
  const up = new Set(order.slice(0, left).map((o) => o.i));
  return cut.map((c, i) => sign * (c.floor + (up.has(i) ? 1 : 0)) || 0);
}

function sumUp(
  lineCount: number,
  shown: readonly number[],
  nets: readonly number[],
  taxes: readonly TaxShare[],
  gross: number | null,
): BillTotals {
  const extras = nets.slice(lineCount);
  const net = sum(nets);
  const tax = sum(taxes.map((t) => t.taxMinor));
  const rounding = gross === null ? 0 : gross - net - tax;
  return {
    lineNetMinor: nets.slice(0, lineCount) as Minor[],
    extraNetMinor: extras as Minor[],
    lineShownMinor: shown.slice(0, lineCount) as Minor[],
    taxes,
    linesMinor: sum(nets.slice(0, lineCount)) as Minor,
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
