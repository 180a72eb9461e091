import type { ReadCtx, WriteCtx } from '../../context.ts';
import type { BillTotals } from '../../shared/bill.ts';
import { refuse } from '../../shared/errors.ts';
import type { InvoiceId, JobId } from '../../shared/ids.ts';
import { paperManner } from '../../shared/text/papers.ts';
import { say } from '../../shared/text/say.ts';
import { date } from '../../shared/text/when.ts';
import type { Minor } from '../../shared/units.ts';
import type { BilledAboveView } from '../../shared/views/partial.ts';
import { shopOf } from '../../views/shop.ts';
import type { Prepaid } from '../rules/deposit.ts';
import { creditsForAbove } from '../rules/partialCredits.ts';
import { takenByTax } from '../rules/partialOff.ts';
import { isPart, isSplit } from '../rules/split.ts';
import { sum } from '../rules/totals.ts';
import { addDeduction, creditsOf, type InvoiceRecord, openPrepayments } from '../store/invoices.ts';
import { askedAfterCredits, openPartials } from '../store/partials.ts';
import { heldDeposits } from '../store/payments.ts';
import { progressOf } from './partialIssue.ts';

/** What was billed before the work was done, and comes off its invoice. */
export type TakenOff = {
  readonly prepayments: readonly InvoiceRecord[];
  readonly partials: readonly InvoiceRecord[];
  readonly prepaid: readonly Prepaid[];
};

/**
 * Prepayment and partial invoices that a draft takes off, in the words of its tag: halves take no prepayment off, and of
 * partial invoices only that of the payer of the rest does, as theirs they were.
 */
export function takenOff(ctx: ReadCtx, row: InvoiceRecord, jobId: JobId | null, tag: string): TakenOff {
  if (jobId === null) return { prepayments: [], partials: [], prepaid: [] };
  const prepayments = isSplit(row.bill) ? [] : openPrepayments(ctx.db, jobId);
  const partials = isPart(row.bill) ? [] : openPartials(ctx.db, jobId);
  const prepaid = [
    ...prepayments.flatMap((p) => prepaymentOff(ctx, p, tag)),
    ...partials.flatMap((p) => partialOff(ctx, p, tag)),
  ];
  return { prepayments, partials, prepaid };
}

/** A prepayment invoice as the final one takes it off. */
function prepaymentOff(ctx: ReadCtx, row: InvoiceRecord, locale: string): Prepaid[] {
  const tax = row.bill.lines[0]?.tax;
  const text = wordsOf(ctx, row, 'billing.deductedLine', locale);
  return tax ? [{ what: 'deposit', text, tax, totals: leftOf(ctx, row) }] : [];
}

/** A partial invoice as the final one takes it off. */
function partialOff(ctx: ReadCtx, row: InvoiceRecord, locale: string): Prepaid[] {
  return takenByTax(wordsOf(ctx, row, 'billing.billedLine', locale), [row, ...creditsOf(ctx.db, row.id)]);
}

function wordsOf(
  ctx: ReadCtx,
  row: InvoiceRecord,
  key: 'billing.deductedLine' | 'billing.billedLine',
  locale: string,
): string {
  const manner = paperManner({ ...shopOf(ctx.db), locale });
  const day = row.issuedDay ? date(manner, row.issuedDay) : '';
  return say(manner.locale, key, { number: row.number ?? 0, day });
}

/** What a prepayment invoice still stands for after its credit notes. */
function leftOf(ctx: ReadCtx, row: InvoiceRecord): Prepaid['totals'] {
  const all = [row, ...creditsOf(ctx.db, row.id)].map((r) => r.totals);
  return {
    netMinor: sum(all.map((t) => t.netMinor)) as Minor,
    toPayMinor: sum(all.map((t) => t.toPayMinor)) as Minor,
  };
}

type Figures = Pick<TakenOff, 'prepayments' | 'partials'> & { readonly totals: BillTotals };

/**
 * An invoice of the rest asks for nothing or more: what was billed too much goes back by a credit note first.
 * @throws PARTIALS_ABOVE
 */
export function checkRest({ partials, totals }: Figures): void {
  const number = partials.at(-1)?.number ?? null;
  if (number !== null && totals.toPayMinor < 0)
    refuse('PARTIALS_ABOVE', { number, aboveMinor: -totals.toPayMinor });
}

/** Keeps what an invoice takes off, before it gets its number. */
export function keepTaken(ctx: WriteCtx, invoiceId: InvoiceId, { prepayments, partials }: Figures): void {
  for (const taken of [...prepayments, ...partials])
    addDeduction(ctx.db, {
      prepaymentId: taken.id,
      invoiceId,
      takenMinor: askedAfterCredits(ctx.db, taken),
    });
}

/** Of a draft that partial invoices are above: by how much, and the credit notes that put it right; else null. */
export function billedAboveOf(
  ctx: ReadCtx,
  row: InvoiceRecord,
  { partials, totals }: Pick<Figures, 'partials' | 'totals'>,
  besides: readonly Prepaid[],
): BilledAboveView | null {
  if (row.number !== null || partials.length === 0 || totals.toPayMinor >= 0) return null;
  const standing = partials.map(({ id, number, bill, totals: own }) => ({
    ...{ id, number: number ?? 0, bill, totals: own },
    notes: creditsOf(ctx.db, id),
  }));
  const aboveMinor = -totals.toPayMinor as Minor;
  return { aboveMinor, credits: creditsForAbove(row.bill, standing, besides) };
}

/**
 * What a partial invoice takes of the deposits held: they stay for the invoice of the rest, but for what is above all
 * that is left for it.
 */
export function depositAbove(ctx: ReadCtx, row: InvoiceRecord): Minor {
  const progress = progressOf(ctx, row);
  if (progress === null || row.jobId === null) return 0 as Minor;
  const held = sum(heldDeposits(ctx.db, row.jobId).map((d) => d.leftMinor));
  const restMinor = progress.wholeMinor - sum(progress.before.map((b) => b.toPayMinor)) - row.toPayMinor;
  return Math.max(0, Math.min(held - Math.max(0, restMinor), row.toPayMinor)) as Minor;
}
