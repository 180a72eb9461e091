import type { ReadCtx } from '../context.ts';
import { oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { JobId } from '../shared/ids.ts';
import type { JobMoney } from '../shared/views/billingReports.ts';
import type { HandFacts, HandMoney } from '../shared/views/bookings.ts';
import { INVOICED } from './billedWork.ts';
import { jobView } from './jobFacts.ts';

/** What the strip says of the jobs in hand. Jobs that do not exist are left out. */
export function handFacts(ctx: ReadCtx, input: { readonly jobIds: readonly JobId[] }): readonly HandFacts[] {
  const known = input.jobIds.filter((id) =>
    oneRow(ctx.db, 'SELECT 1 AS yes FROM job WHERE id = :id', { id }),
  );
  return known.map((jobId) => {
    const job = jobView(ctx, { jobId });
    return {
      jobId,
      number: job.number,
      state: job.state,
      customer: job.customer.name,
      vehicle: job.vehicle.makeModel,
      colour: job.vehicle.colour,
      year: job.vehicle.year,
      dropOffMin: job.promise.dropOffMin,
      pickUpMin: job.promise.pickUpMin,
      promisedPpm: job.promise.promisedPpm,
      forVisit: job.promise.forVisit,
      agreed: job.money.quoteState === 'accepted',
      late: job.promise.late,
      p20Min: job.hours.p20Min,
      p50Min: job.hours.p50Min,
      p80Min: job.hours.p80Min,
      money: moneyOf(ctx.db, jobId, job.money),
    };
  });
}

const BILLED = `SELECT 1 AS yes FROM job j WHERE j.id = :jobId AND ${INVOICED}`;

/** A job is paid once its invoice is; a deposit that was paid leaves the rest of the quote to come. */
function moneyOf(db: ReadDb, jobId: JobId, money: JobMoney): HandMoney | null {
  const { quotedMinor, owedMinor, invoicedMinor } = money;
  if (owedMinor !== null && owedMinor > 0) return { kind: 'owed', minor: owedMinor };
  if (invoicedMinor !== null && oneRow(db, BILLED, { jobId })) return { kind: 'paid', minor: invoicedMinor };
  return quotedMinor === null ? null : { kind: 'quoted', minor: quotedMinor };
}
