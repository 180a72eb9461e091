import type { ReadCtx } from '../context.ts';
import { oneRow } from '../db/prepared.ts';
import type { JobId } from '../shared/ids.ts';
import type { HandFacts } from '../shared/views/bookings.ts';
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
      late: job.promise.late,
      p20Min: job.hours.p20Min,
      p50Min: job.hours.p50Min,
      p80Min: job.hours.p80Min,
      quotedMinor: job.money.quotedMinor,
      owedMinor: job.money.owedMinor,
    };
  });
}
