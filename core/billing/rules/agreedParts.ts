import { type Bill, type BillLine, isWorkLine } from '#core/shared/bill.ts';
import type { Minor } from '#core/shared/units.ts';
import { lineAmount, sum } from './totals.ts';

/** What was agreed for materials and for all other work; what stands beside the work is no part of either. */
export function agreedParts(bill: Bill): { readonly materials: Minor; readonly labour: Minor } {
  const of = (isOne: (line: BillLine) => boolean): Minor =>
    sum(bill.lines.filter(isOne).map(lineAmount)) as Minor;
  return {
    materials: of((line) => line.what === 'materials'),
    labour: of((line) => line.what !== 'materials' && isWorkLine(line)),
  };
}
