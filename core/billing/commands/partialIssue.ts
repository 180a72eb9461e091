import type { ReadCtx, WriteCtx } from '../../context.ts';
import type { Progress } from '../../db/schema/billing.ts';
import { refuse } from '../../shared/errors.ts';
import type { JobId } from '../../shared/ids.ts';
import type { LocalDay, Minor, Ppm } from '../../shared/units.ts';
import type { BilledBefore } from '../../shared/views/partial.ts';
import { stagesDone } from '../../views/billingWork.ts';
import { agreedParts } from '../rules/agreedParts.ts';
import { amountsOf, billedOf, billedParts, doneOfLines, isAheadOfDone } from '../rules/partial.ts';
import { MOST_EVENED } from '../rules/partialTax.ts';
import { labourByStage } from '../rules/quoteLines.ts';
import { type InvoiceRecord, invoiceOf } from '../store/invoices.ts';
import {
  addPartialLine,
  askedAfterCredits,
  billedOfOption,
  billedOfOthers,
  billedOn,
  partialsOfJob,
  standingPartials,
} from '../store/partials.ts';
import { agreedOption, type OptionRecord, optionOf } from '../store/quotes.ts';
import { standingForWork } from './invoices.ts';

/** The share of each agreed line that is done by the stages finished now. */
export function doneNow(ctx: ReadCtx, jobId: JobId, option: OptionRecord): readonly Ppm[] {
  const agreed = labourByStage(option.stages, {
    labourMinor: agreedParts(option.bill).labour,
    chargedMin: option.chargedMin,
    rates: option.rates,
  });
  return doneOfLines(option.bill, agreed, stagesDone(ctx.db, jobId));
}

/** What partial invoices billed of each part of an option so far. */
export function billedSoFar(ctx: ReadCtx, jobId: JobId, option: OptionRecord): Minor[] {
  const { quoteId, letter, bill } = option;
  const others = billedOfOthers(ctx.db, jobId, quoteId, letter);
  return billedOf(bill, billedOfOption(ctx.db, quoteId, letter), others);
}

/** Which partial invoice of the job comes next, and those that stand before it. */
export function progressSoFar(ctx: ReadCtx, jobId: JobId): Pick<Progress, 'nth' | 'before'> {
  const nth = partialsOfJob(ctx.db, jobId).filter((row) => row.number !== null).length + 1;
  return { nth, before: standingPartials(ctx.db, jobId).map((row) => beforeOf(ctx, row)) };
}

function beforeOf(ctx: ReadCtx, row: InvoiceRecord): BilledBefore {
  const day = row.issuedDay ?? ('' as LocalDay);
  return { id: row.id, number: row.number ?? 0, day, toPayMinor: askedAfterCredits(ctx.db, row) };
}

/** What a document says of a job's progress: as it was issued, of a draft as it stands now; null of any other. */
export function progressOf(ctx: ReadCtx, row: InvoiceRecord): Progress | null {
  if (row.progress === null || row.jobId === null) return null;
  return row.number === null ? { ...row.progress, ...progressSoFar(ctx, row.jobId) } : row.progress;
}

/**
 * Of a partial invoice those before it; of the one for the rest those it takes off.
 * @param partials what a draft takes off
 */
export function billedBefore(
  ctx: ReadCtx,
  row: InvoiceRecord,
  partials: readonly InvoiceRecord[],
): readonly BilledBefore[] {
  const progress = progressOf(ctx, row);
  if (progress !== null) return progress.before;
  if (row.number !== null || row.kind !== 'invoice') return billedOn(ctx.db, row.id);
  return partials.map((partial) => beforeOf(ctx, partial));
}

/** A partial invoice bills a line further than its work is done. */
export function isPartialAhead(ctx: ReadCtx, row: InvoiceRecord): boolean {
  const agreed = agreedOf(ctx, row);
  if (agreed === null) return false;
  const { jobId, option } = agreed;
  const reached = billedSoFar(ctx, jobId, option);
  for (const { part, amountMinor } of billedParts(row.bill))
    reached[part] = ((reached[part] ?? 0) + amountMinor) as Minor;
  return isAheadOfDone(option.bill, reached, doneNow(ctx, jobId, option), MOST_EVENED);
}

function agreedOf(
  ctx: ReadCtx,
  row: InvoiceRecord,
): { readonly jobId: JobId; readonly option: OptionRecord } | null {
  if (row.kind !== 'partial' || row.progress === null || row.jobId === null) return null;
  const option = optionOf(ctx.db, row.progress.quoteId, row.progress.letter);
  return option ? { jobId: row.jobId, option } : null;
}

/**
 * Whether a partial invoice can still be issued as it was drafted.
 * @throws JOB_ALREADY_BILLED once the invoice of the rest is issued
 * @throws PARTIAL_REQUOTED when another version of the quote was agreed since
 * @throws PARTIAL_ABOVE_LINE when a line was billed since, so that this would bill it twice
 */
export function checkPartial(ctx: ReadCtx, row: InvoiceRecord): void {
  const agreed = agreedOf(ctx, row);
  if (agreed === null) return;
  const { jobId, option } = agreed;
  const issued = standingForWork(ctx.db, jobId).find((other) => other.number !== null);
  if (issued) refuse('JOB_ALREADY_BILLED', { number: issued.number ?? 0 });
  const standing = agreedOption(ctx.db, jobId)?.option;
  if (standing?.quoteId !== option.quoteId || standing.letter !== option.letter)
    refuse('PARTIAL_REQUOTED', {});
  const [billed, whole] = [billedSoFar(ctx, jobId, option), amountsOf(option.bill)];
  for (const { part, amountMinor } of billedParts(row.bill)) {
    const left = (whole[part] ?? 0) - (billed[part] ?? 0);
    const text = option.bill.lines[part]?.text ?? '';
    if (Math.abs(amountMinor) > Math.abs(left)) refuse('PARTIAL_ABOVE_LINE', { text, leftMinor: left });
  }
}

/** Keeps what an issued partial invoice bills of each agreed line, or what a credit note of one gives back. */
export function keepParts(ctx: WriteCtx, row: InvoiceRecord): void {
  const partial = row.kind === 'credit' && row.ofInvoiceId ? invoiceOf(ctx.db, row.ofInvoiceId) : row;
  if (partial.kind !== 'partial' || partial.progress === null) return;
  const { quoteId, letter } = partial.progress;
  for (const { part, amountMinor } of billedParts(row.bill))
    addPartialLine(ctx.db, {
      ...{ invoiceId: row.id, partialId: partial.id, quoteId, letter },
      ...{ line: part, amountMinor },
    });
}
