import type { Bill, BillLine, LineKind, LineTax } from '#core/shared/bill.ts';

/** Charges that a job bears for its labour, not for what it used. */
const FOR_LABOUR: readonly LineKind[] = ['minimum', 'rush', 'afterHours'];

function isLabour({ what }: Pick<BillLine, 'what'>): boolean {
  return what.startsWith('labour.');
}

/**
 * The lines with the tax of labour on labour and on the charges for it; materials, goods, packages and panels keep
 * theirs, and so do charges beside these, where no labour stands by itself. null = labour is taxed as all else is.
 * @source common practice, no source; whether labour bears sales tax, and where a package does, is local law
 */
export function withLabourTax(lines: readonly BillLine[], tax: LineTax | null): readonly BillLine[] {
  if (tax === null || !lines.some(isLabour)) return lines;
  return lines.map((line) => (isLabour(line) || FOR_LABOUR.includes(line.what) ? { ...line, tax } : line));
}

/** The tax that an agreed bill has on its labour, where it is another than the rest bears. */
export function labourTaxOf(bill: Bill): LineTax | null {
  const labour = bill.lines.find(isLabour)?.tax;
  return labour && labour.code !== 'standard' ? labour : null;
}
