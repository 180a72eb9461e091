import type { ReadCtx } from '../../context.ts';
import { allRows } from '../../db/prepared.ts';
import { refuse } from '../../shared/errors.ts';
import type { CustomerId, JobId } from '../../shared/ids.ts';
import { paperLocale } from '../../shared/text/papers.ts';
import { localeFor, say } from '../../shared/text/say.ts';
import { billedJob, paperTagOf } from '../../views/billingParty.ts';
import { shopOf } from '../../views/shop.ts';

type Row = {
  readonly id: JobId;
  readonly number: number;
  readonly customerId: CustomerId;
  readonly who: string;
  readonly vehicle: string;
  readonly dropOffMin: number;
  readonly pickUpMin: number;
  readonly state: string;
  readonly revision: number;
};
const ROWS = `SELECT j.id, j.number, j.customer_id AS customerId, c.name AS who, v.make_model AS vehicle, j.drop_off_min AS dropOffMin,
    j.pick_up_min AS pickUpMin, j.state, j.revision
  FROM job j JOIN customer c ON c.id = j.customer_id JOIN vehicle v ON v.id = j.vehicle_id
  WHERE j.drop_off_min IS NOT NULL AND j.pick_up_min IS NOT NULL
    AND (j.id = :jobId OR (:jobId IS NULL AND j.state IN ('booked','here','inWork','ready'))) ORDER BY j.number`;

/**
 * What the calendar file shows: two entries per job, each with an id that stays the same for good. That of one job is
 * for its customer and in their language.
 * @throws JOB_NOT_BOOKED for a job without agreed times · NOT_FOUND
 */
export function calendarEntries(ctx: ReadCtx, input: { readonly jobId?: JobId | undefined }) {
  const shop = shopOf(ctx.db);
  const rows = allRows<Row>(ctx.db, ROWS, { jobId: input.jobId ?? null });
  const [only] = rows;
  if (input.jobId !== undefined && !only)
    refuse('JOB_NOT_BOOKED', { number: billedJob(ctx.db, input.jobId).number });
  const locale =
    input.jobId && only ? paperLocale(paperTagOf(ctx.db, only.customerId)) : localeFor(shop.locale);
  const entries = rows.flatMap((r) =>
    [
      { end: 'dropOff' as const, at: r.dropOffMin },
      { end: 'pickUp' as const, at: r.pickUpMin },
    ].map(({ end, at }) => ({
      uid: `${r.id}-${end}@rakelight`,
      sequence: r.revision,
      startMs: at * 60_000,
      minutes: 15,
      summary: say(locale, `bays.calendar.${end}`, { who: r.who }),
      description: `${r.number} · ${r.vehicle}`,
      place: [shop.name, shop.address.replaceAll('\n', ', ')].filter(Boolean).join(', '),
      cancelled: r.state === 'cancelled' || r.state === 'noShow',
      changedMs: ctx.now,
    })),
  );
  const fileName = input.jobId && only ? `job-${only.number}.ics` : 'shop.ics';
  return { shop: { name: shop.name, zone: shop.zone }, entries, fileName };
}
