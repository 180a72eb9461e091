import { isOpen } from '../../bookings/rules/jobStates.ts';
import type { WriteCtx } from '../../context.ts';
import type { ReadDb } from '../../db/types.ts';
import { refuse } from '../../shared/errors.ts';
import type { JobId } from '../../shared/ids.ts';
import type { Minor } from '../../shared/units.ts';
import type { JobState } from '../../shared/vocabulary.ts';
import { type BilledJob, billedJob } from '../../views/billingParty.ts';
import { isPart } from '../rules/split.ts';
import type { InvoiceRecord } from '../store/invoices.ts';
import { agreedOption, optionsOf, quotesOfJob } from '../store/quotes.ts';
import { standingForWork } from './invoices.ts';

/**
 * The job that a deposit is for.
 * @throws DEPOSIT_WHERE_TO unless it is one that is still to be done
 * @throws DEPOSIT_BILLED when its invoice is issued: nothing would take the deposit off any more
 */
export function jobForDeposit(ctx: WriteCtx, jobId: JobId | null): BilledJob {
  const job = jobId === null ? null : billedJob(ctx.db, jobId);
  if (!job || !isOpen(job.state)) return refuse('DEPOSIT_WHERE_TO', {});
  const number = standingInvoice(ctx.db, job.id)?.number ?? null;
  return number === null ? job : refuse('DEPOSIT_BILLED', { number });
}

/** Nothing will take a deposit of this job off any more: it will not be done, or the bill that takes it is issued. */
export function isDepositOver(db: ReadDb, job: { readonly id: JobId; readonly state: JobState }): boolean {
  if (job.state === 'cancelled' || job.state === 'noShow') return true;
  return standingInvoice(db, job.id) !== undefined;
}

/** What a job's quote comes to: the option agreed, before that the dearest of the open version; null without either. */
export function quotedFor(db: ReadDb, jobId: JobId): Minor | null {
  const agreed = agreedOption(db, jobId)?.option.totals.toPayMinor;
  if (agreed !== undefined) return agreed;
  const open = quotesOfJob(db, jobId).find((q) => q.state === 'draft' || q.state === 'sent');
  return open ? (Math.max(...optionsOf(db, open.id).map((o) => o.totals.toPayMinor)) as Minor) : null;
}

/**
 * The issued invoice after which no deposit of a job is taken off: the one for its work, where two pay the owner's part.
 * None while that part is a draft, though the rest is issued.
 */
function standingInvoice(db: ReadDb, jobId: JobId): InvoiceRecord | undefined {
  const standing = standingForWork(db, jobId);
  if (standing.some((row) => row.number === null && isPart(row.bill))) return undefined;
  const issued = standing.filter((row) => row.number !== null);
  return issued.find((row) => isPart(row.bill)) ?? issued[0];
}
