import type { ReadCtx } from '../../context.ts';
import type { JobId, QuoteId } from '../../shared/ids.ts';
import { localDayOf } from '../../shared/time.ts';
import type { AcceptanceView, QuoteOptionView, QuoteView } from '../../shared/views/billing.ts';
import {
  type BilledJob,
  billedJob,
  billedVehicle,
  datesOfWork,
  partyOf,
  payerTagOf,
  sellerOf,
} from '../../views/billingParty.ts';
import { depositHeldFor } from '../../views/heldMoney.ts';
import { pickUpsWith } from '../../views/pickUpWith.ts';
import { isDepositOver } from '../commands/depositJob.ts';
import { isLapsed } from '../rules/lapse.ts';
import { hourPrices } from '../rules/quoteLines.ts';
import { type OptionRecord, optionsOf, type QuoteRecord, quoteOf, quotesOfJob } from '../store/quotes.ts';

/** A quote with its options, people, vehicle and what is held for its job. */
export function readQuote(ctx: ReadCtx, quoteId: QuoteId): QuoteView {
  const row = quoteOf(ctx.db, quoteId);
  const job = billedJob(ctx.db, row.jobId);
  const seller = sellerOf(ctx.db, row.locale || payerTagOf(ctx.db, job));
  const { termsDays: _c, ...customer } = partyOf(ctx.db, job.customerId);
  const { termsDays: _p, ...payer } = partyOf(ctx.db, job.payerId ?? job.customerId);
  const today = localDayOf(ctx.now, seller.zone);
  return {
    id: row.id,
    number: row.number,
    version: row.version,
    state: row.state,
    jobId: job.id,
    jobNumber: job.number,
    jobState: job.state,
    basis: row.basis,
    madeMs: row.madeMs,
    madeDay: localDayOf(row.madeMs, seller.zone),
    validUntilDay: row.validUntilDay,
    lapsed: isLapsed(row.state, row.validUntilDay, today),
    options: optionViews(ctx, row, job.id),
    acceptance: acceptanceOf(row),
    reason: row.reason,
    customer,
    payer,
    vehicle: billedVehicle(ctx.db, job.vehicleId),
    ceilingMinor: job.ceilingMinor,
    ...datesOf(ctx, job),
    depositHeldMinor: depositHeldFor(ctx.db, job.id),
    depositOver: isDepositOver(ctx.db, job),
    seller,
    versions: quotesOfJob(ctx.db, job.id).map((q) => ({ id: q.id, version: q.version, state: q.state })),
    revision: row.revision,
  };
}

/** Drop-off, pick-up and how sure it is, once dates for the work itself are booked. */
function datesOf(
  ctx: ReadCtx,
  { id, dropOffMin, pickUpMin, promisePpm }: BilledJob,
): Pick<QuoteView, 'dropOffMin' | 'pickUpMin' | 'promisePpm'> {
  if (datesOfWork(ctx.db, id)) return { dropOffMin, pickUpMin, promisePpm };
  return { dropOffMin: null, pickUpMin: null, promisePpm: null };
}

/** The version of a job's quote that matters now: the newest that is open, else the accepted one, else the newest. */
export function readJobQuote(ctx: ReadCtx, jobId: JobId): QuoteView | null {
  const all = quotesOfJob(ctx.db, jobId);
  const open = all.find((q) => q.state === 'draft' || q.state === 'sent');
  const chosen = open ?? all.find((q) => q.state === 'accepted') ?? all[0];
  return chosen ? readQuote(ctx, chosen.id) : null;
}

/** The options, and what each does to the dates of a car that is booked while one of them can still be agreed to. */
function optionViews(ctx: ReadCtx, quote: QuoteRecord, jobId: JobId): readonly QuoteOptionView[] {
  const rows = optionsOf(ctx.db, quote.id);
  const open = quote.state === 'draft' || quote.state === 'sent';
  const hours = rows.map(({ stages, hours }) => ({ stages, jobSigma: hours.jobSigma }));
  const pickUps = open && datesOfWork(ctx.db, jobId) ? pickUpsWith(ctx.db, ctx.now, jobId, hours) : [];
  return rows.map((row, i) => ({ ...optionView(row), pickUp: pickUps[i] ?? null }));
}

function optionView(row: OptionRecord): Omit<QuoteOptionView, 'pickUp'> {
  const { letter, estimateId, title, bill, totals, limits, panels, hours, chargedMin, gainPpm } = row;
  const hourPricesMinor = hourPrices(row.stages, row.rates);
  return {
    letter,
    estimateId,
    title,
    bill,
    totals,
    limits,
    panels,
    hours,
    chargedMin,
    hourPricesMinor,
    gainPpm,
    depositMinor: row.depositMinor,
  };
}

function acceptanceOf(row: QuoteRecord): AcceptanceView | null {
  if (!row.acceptedMs || !row.acceptedLetter || !row.acceptedWay) return null;
  return { letter: row.acceptedLetter, name: row.acceptedName, way: row.acceptedWay, atMs: row.acceptedMs };
}
