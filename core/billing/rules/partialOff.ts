import type { Bill, BillTotals, LineTax } from '#core/shared/bill.ts';
import type { Minor } from '#core/shared/units.ts';
import type { Prepaid } from './deposit.ts';
import { sum, taxKey, totalsOf } from './totals.ts';

type Figured = { readonly bill: Bill; readonly totals: BillTotals };

/**
 * A partial invoice as the final one takes it off, after its credit notes: a line for each of its taxes. Together they
 * ask for exactly what those documents ask for; a unit that they have in their rounding amounts stands with the first.
 * @param documents the partial invoice and its credit notes
 */
export function takenByTax(text: string, documents: readonly Figured[]): Prepaid[] {
  const taxes = new Map<string, LineTax>();
  for (const { bill } of documents)
    for (const { tax } of [...bill.lines, ...bill.extras])
      if (!taxes.has(taxKey(tax))) taxes.set(taxKey(tax), tax);
  const rows = [...taxes].map(([key, tax]) => {
    const parts = documents.map(({ bill }) => totalsOf(under(bill, key)));
    const netMinor = sum(parts.map((t) => t.netMinor));
    return { tax, netMinor, toPayMinor: sum(parts.map((t) => t.toPayMinor)) };
  });
  const asked = sum(documents.map(({ totals }) => totals.toPayMinor));
  const off = asked - sum(rows.map((row) => row.toPayMinor));
  return rows.flatMap(({ tax, netMinor, toPayMinor }, i): Prepaid[] => {
    const totals = { netMinor: netMinor as Minor, toPayMinor: (toPayMinor + (i === 0 ? off : 0)) as Minor };
    return netMinor === 0 && totals.toPayMinor === 0 ? [] : [{ what: 'billed', text, tax, totals }];
  });
}

function under(bill: Bill, key: string): Bill {
  const isUnder = ({ tax }: { readonly tax: LineTax }): boolean => taxKey(tax) === key;
  return { ...bill, lines: bill.lines.filter(isUnder), extras: bill.extras.filter(isUnder) };
}
