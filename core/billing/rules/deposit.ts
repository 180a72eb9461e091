import type { Bill, BillLine, BillTotals, LineTax } from '#core/shared/bill.ts';
import { refuse } from '#core/shared/errors.ts';
import { timesPpm } from '#core/shared/money.ts';
import type { Minor, Ppm } from '#core/shared/units.ts';
import { askingFor, sum, totalsOf } from './totals.ts';

/** Deposit asked for an amount to pay: its share, half away from zero. */
export function depositFor(toPayMinor: Minor, sharePpm: Ppm): Minor {
  return timesPpm(toPayMinor, sharePpm);
}

/**
 * A deposit that with what is held goes above the quote is asked about once: a digit too many looks just like it.
 * @param quotedMinor all that the quote comes to; null without one, which asks nothing
 * @throws DEPOSIT_ABOVE_QUOTE
 */
export function checkDeposit(amountMinor: Minor, heldMinor: Minor, quotedMinor: Minor | null): void {
  const aboveMinor = heldMinor + amountMinor - (quotedMinor ?? 0);
  if (quotedMinor !== null && aboveMinor > 0) refuse('DEPOSIT_ABOVE_QUOTE', { quotedMinor, aboveMinor });
}

/** The bill of a prepayment invoice: one line with tax, at the rate of the work to come. */
export function prepaymentBill(amountMinor: Minor, text: string, tax: LineTax): Bill {
  const line: BillLine = {
    what: 'deposit',
    text,
    quantity: 1,
    unit: 'piece',
    per: 1,
    priceMinor: amountMinor,
    discountMinor: 0,
    tax,
  };
  return { lines: [line], extras: [], taxIncluded: true };
}

/**
 * What a final invoice deducts as taxed before: a prepayment invoice or what a partial one billed under one tax, less
 * their credit notes, or a taxed voucher.
 */
export type Prepaid = {
  readonly what: 'deposit' | 'billed' | 'voucher';
  readonly text: string;
  readonly tax: LineTax;
  readonly totals: Pick<BillTotals, 'netMinor' | 'toPayMinor'>;
};

/**
 * The final bill with negative lines for prepayments, one per prepayment, at the rate each was taxed at, so that
 * tax is due once. Quantity is negative and the price positive, as prices may not be below zero (BR-27).
 * @source EN 16931-1 BR-27; deduction by negative lines is common practice
 */
export function deducting(bill: Bill, prepaid: readonly Prepaid[]): Bill {
  const lines = prepaid.map((p): BillLine => {
    const taken = bill.taxIncluded ? p.totals.toPayMinor : p.totals.netMinor;
    return {
      what: p.what,
      text: p.text,
      quantity: taken < 0 ? 1 : -1,
      unit: 'piece',
      per: 1,
      priceMinor: Math.abs(taken),
      discountMinor: 0,
      tax: p.tax,
    };
  });
  return { ...bill, lines: [...bill.lines, ...lines] };
}

/**
 * Figures of a final bill after prepayments. What it asks for plus what the prepayments asked for is exactly the
 * whole job's price; a unit lost by rounding twice goes to the rounding amount.
 */
export function deductedTotals(bill: Bill, whole: BillTotals, prepaid: readonly Prepaid[]): BillTotals {
  if (prepaid.length === 0) return whole;
  const totals = totalsOf(deducting(bill, prepaid));
  return askingFor(totals, (whole.toPayMinor - sum(prepaid.map((p) => p.totals.toPayMinor))) as Minor);
}

type Issued = {
  readonly bill: Bill;
  readonly totals: BillTotals;
  readonly vouchers: readonly { readonly amountMinor: number }[];
};

/**
 * An issued document as it was before taxed vouchers and partial invoices came off it: its credit note gave those back.
 * @param billedMinor what it took off for partial invoices, with tax
 */
export function beforeTaken(
  { bill, totals, vouchers }: Issued,
  billedMinor: number,
): Pick<Issued, 'bill' | 'totals'> {
  const lines = bill.lines.filter((line) => line.what !== 'voucher' && line.what !== 'billed');
  if (lines.length === bill.lines.length) return { bill, totals };
  const whole: Bill = { ...bill, lines };
  const askedMinor = totals.toPayMinor + billedMinor + sum(vouchers.map((v) => v.amountMinor));
  return { bill: whole, totals: askingFor(totalsOf(whole), askedMinor as Minor) };
}
