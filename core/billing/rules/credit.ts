import type { Bill, BillLine, BillTotals } from '#core/shared/bill.ts';
import { refuse } from '#core/shared/errors.ts';
import type { Minor } from '#core/shared/units.ts';
import { askingFor, lineAmount, totalsOf } from './totals.ts';

/** The bill of a credit note for a whole document: every quantity and amount turned, prices as they were. */
export function turned(bill: Bill): Bill {
  return {
    ...bill,
    lines: bill.lines.map((l) => ({
      ...l,
      quantity: -l.quantity || 0,
      discountMinor: -l.discountMinor || 0,
    })),
    extras: bill.extras.map((x) => ({ ...x, amountMinor: -x.amountMinor || 0 })),
  };
}

/** The figures of a credit note for a whole document: document plus credit note are zero in every part. */
export function turnedTotals(totals: BillTotals): BillTotals {
  const turn = (value: number): Minor => (-value || 0) as Minor;
  return {
    lineNetMinor: totals.lineNetMinor.map(turn),
    extraNetMinor: totals.extraNetMinor.map(turn),
    lineShownMinor: totals.lineShownMinor.map(turn),
    taxes: totals.taxes.map((t) => ({
      ...t,
      taxableMinor: turn(t.taxableMinor),
      taxMinor: turn(t.taxMinor),
      ...(t.netMinor === undefined ? {} : { netMinor: turn(t.netMinor) }),
    })),
    linesMinor: turn(totals.linesMinor),
    allowancesMinor: turn(totals.allowancesMinor),
    chargesMinor: turn(totals.chargesMinor),
    netMinor: turn(totals.netMinor),
    taxMinor: turn(totals.taxMinor),
    withTaxMinor: turn(totals.withTaxMinor),
    roundingMinor: turn(totals.roundingMinor),
    toPayMinor: turn(totals.toPayMinor),
  };
}

/** What is given back of one line, in the amounts the document shows (with tax where prices are with tax). */
export type LineCredit = { readonly line: number; readonly amountMinor: Minor };

/**
 * The bill of a partial credit note. Each line is an agreed amount with the original's tax. `earlier` are the bills of
 * the credit notes before it: what they gave back of a line is no longer there. The note that takes the last of the
 * lines also takes back what was taken off them: discounts, charges and the prepayments that were deducted.
 * @throws CREDIT_ABOVE_LINE when more of a line is given back than it still has
 * @throws NOTHING_TO_CREDIT when no amount is left
 */
export function partOf(bill: Bill, credits: readonly LineCredit[], earlier: readonly Bill[] = []): Bill {
  const left = leftOfLines(bill, earlier);
  const lines = credits
    .filter((c) => c.amountMinor !== 0)
    .map((credit): BillLine => {
      const line = bill.lines[credit.line];
      if (!line) return refuse('NOT_FOUND', { what: 'line', id: String(credit.line + 1) });
      const most = left[credit.line] ?? 0;
      if (credit.amountMinor < 0 || credit.amountMinor > most)
        return refuse('CREDIT_ABOVE_LINE', {
          line: line.text,
          lineMinor: most,
          askedMinor: credit.amountMinor,
        });
      left[credit.line] = (most - credit.amountMinor) as Minor;
      return creditLine(line, credit.line, credit.amountMinor);
    });
  if (lines.length === 0) return refuse('NOTHING_TO_CREDIT', {});
  const part = { ...bill, lines, extras: [] };
  return left.some((amount) => amount > 0) ? part : restOf(bill, earlier);
}

/** The bill of a credit note for all that earlier ones left of a document. */
export function restOf(bill: Bill, earlier: readonly Bill[]): Bill {
  const left = leftOfLines(bill, earlier);
  const lines = bill.lines.flatMap((line, i) => (left[i] ? [creditLine(line, i, left[i])] : []));
  return { ...turned(bill), lines };
}

/** A line of a partial credit note; a negative amount takes back what a line of the document took off. */
function creditLine(line: BillLine, ofLine: number, amountMinor: number): BillLine {
  const quantity = Math.max(1, Math.abs(line.quantity));
  return {
    ...line,
    quantity: amountMinor < 0 ? quantity : -quantity,
    per: quantity,
    priceMinor: Math.abs(amountMinor) as Minor,
    discountMinor: 0,
    ofLine,
  };
}

/**
 * The figures of a partial credit note. Tax is rounded note by note, so that notes for every line of a document may
 * come to a unit more or less than it asked for: none gives back more than is left, and the one that takes the last of
 * the lines gives back exactly that. The difference goes to the rounding amount.
 */
export function partTotals(of: Bill, part: Bill, earlier: readonly Bill[], leftMinor: Minor): BillTotals {
  const totals = totalsOf(part);
  const ofLinesAlone = of.extras.length === 0 && of.lines.every((line) => lineAmount(line) >= 0);
  const isAbove = ofLinesAlone && -totals.toPayMinor > leftMinor;
  const takesLast = leftOfLines(of, [...earlier, part]).every((amount) => amount === 0);
  return takesLast || isAbove ? askingFor(totals, (-leftMinor || 0) as Minor) : totals;
}

/**
 * What credit notes may still give back of each line, in the amounts the document shows; below zero for a line that
 * takes something off.
 */
export function leftOfLines(bill: Bill, earlier: readonly Bill[]): Minor[] {
  const left = bill.lines.map(lineAmount);
  for (const line of earlier.flatMap((note) => note.lines))
    if (line.ofLine !== undefined) left[line.ofLine] = ((left[line.ofLine] ?? 0) + lineAmount(line)) as Minor;
  return left;
}

/**
 * Refuses a credit that takes more than the document still has after earlier credit notes.
 * `creditedMinor` is the sum of the earlier ones, a negative amount.
 * @throws CREDIT_ABOVE_INVOICE
 */
export function checkCredit(toPayMinor: Minor, creditedMinor: Minor, creditMinor: Minor): void {
  const leftMinor = toPayMinor + creditedMinor;
  if (-creditMinor > leftMinor) refuse('CREDIT_ABOVE_INVOICE', { leftMinor, askedMinor: -creditMinor });
}
