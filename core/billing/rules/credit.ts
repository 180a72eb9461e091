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
 * the credit notes before it: what they gave back of a line is no longer there.
 * @throws CREDIT_ABOVE_LINE when more of a line is given back than it still has
 * @throws NOTHING_TO_CREDIT when no amount is left
 */
export function partOf(bill: Bill, credits: readonly LineCredit[], earlier: readonly Bill[] = []): Bill {
  const given = givenBack(earlier);
  const lines = credits
    .filter((c) => c.amountMinor !== 0)
    .map((credit): BillLine => {
      const line = bill.lines[credit.line];
      if (!line) return refuse('NOT_FOUND', { what: 'line', id: String(credit.line + 1) });
      const before = given.get(credit.line) ?? 0;
      const most = (lineAmount(line) - before) as Minor;
      if (credit.amountMinor < 0 || credit.amountMinor > most)
        return refuse('CREDIT_ABOVE_LINE', {
          line: line.text,
          lineMinor: most,
          askedMinor: credit.amountMinor,
        });
      given.set(credit.line, before + credit.amountMinor);
      const quantity = Math.max(1, Math.abs(line.quantity));
      return {
        ...line,
        quantity: -quantity,
        per: quantity,
        priceMinor: credit.amountMinor,
        discountMinor: 0,
        ofLine: credit.line,
      };
    });
  if (lines.length === 0) return refuse('NOTHING_TO_CREDIT', {});
  return { ...bill, lines, extras: [] };
}

/**
 * The figures of a partial credit note. Tax is rounded note by note, so that notes for every line of a document may
 * come to a unit more or less than it asked for: none gives back more than is left, and the one that takes the last of
 * the lines gives back exactly that. The difference goes to the rounding amount.
 */
export function partTotals(of: Bill, part: Bill, earlier: readonly Bill[], leftMinor: Minor): BillTotals {
  const totals = totalsOf(part);
  const ofLinesAlone = of.extras.length === 0 && of.lines.every((line) => lineAmount(line) >= 0);
  if (!ofLinesAlone) return totals;
  const given = givenBack([...earlier, part]);
  const takesLast = of.lines.every((line, i) => (given.get(i) ?? 0) === lineAmount(line));
  const isAbove = -totals.toPayMinor > leftMinor;
  return takesLast || isAbove ? askingFor(totals, (-leftMinor || 0) as Minor) : totals;
}

/** What earlier credit notes gave back, by line of the document. */
function givenBack(earlier: readonly Bill[]): Map<number, number> {
  const given = new Map<number, number>();
  for (const line of earlier.flatMap((bill) => bill.lines))
    if (line.ofLine !== undefined) given.set(line.ofLine, (given.get(line.ofLine) ?? 0) - lineAmount(line));
  return given;
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
