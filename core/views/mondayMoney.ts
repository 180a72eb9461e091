import { allRows, oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { MondayFacts, Stake } from '../figures/rules/mondayFacts.ts';
import type { JobId } from '../shared/ids.ts';
import { addLocalDays } from '../shared/time.ts';
import type { EpochMs, LocalDay, Ppm } from '../shared/units.ts';
import { invoicePage, jobsToBill, waitingQuotes } from './billingLists.ts';

/** A quote is rung about when it ends within so many days, or ended as lately. */
const LAPSE_DAYS = 7;
const MOST_OVERDUE = 500;
const YEAR_MS = 365 * 86_400_000;

/** Agreed sum of each job, else the lowest of its newest standing quote, with tax; null where there is neither. */
const WORTH = `SELECT a.value AS jobId, coalesce(
    (SELECT o.to_pay_minor FROM quote q JOIN quote_option o ON o.quote_id = q.id AND o.letter = q.accepted_letter
     WHERE q.job_id = a.value AND q.state = 'accepted'),
    (SELECT min(o.to_pay_minor) FROM quote q JOIN quote_option o ON o.quote_id = q.id
     WHERE q.job_id = a.value AND q.state IN ('sent', 'draft') GROUP BY q.id ORDER BY q.version DESC LIMIT 1)) AS worth
  FROM json_each(:jobIds) a`;

/** What hangs on jobs; `usualMinor` where nothing was agreed or quoted. */
export function worthOf(
  db: ReadDb,
  jobIds: readonly string[],
  usualMinor: number,
): (jobId: string) => number {
  type Row = { readonly jobId: string; readonly worth: number | null };
  const rows = allRows<Row>(db, WORTH, { jobIds: JSON.stringify(jobIds) });
  const known = new Map(rows.map((r) => [r.jobId, r.worth]));
  return (jobId) => known.get(jobId) ?? usualMinor;
}

/** Standing invoices past their due day. */
export function overdueFacts(db: ReadDb, today: LocalDay): MondayFacts['overdue'] {
  const page = { list: 'overdue', search: '', limit: MOST_OVERDUE, offset: 0 } as const;
  return invoicePage(db, page, today).rows.flatMap((r) =>
    r.number === null || r.owedMinor <= 0
      ? []
      : [
          {
            ...{ invoiceId: r.id, number: r.number, customer: r.customer },
            ...{ owedMinor: r.owedMinor, overdueDays: r.overdueDays },
          },
        ],
  );
}

/** Finished work without an invoice. */
export function billFacts(db: ReadDb, usualMinor: number): readonly Stake[] {
  return jobsToBill(db).map((j) => ({
    ...{ jobId: j.jobId, jobNumber: j.jobNumber, customer: j.customer },
    worthMinor: j.agreedMinor ?? usualMinor,
  }));
}

/** Sent quotes that end within a week or ended in the last one. */
export function quoteFacts(db: ReadDb, today: LocalDay): MondayFacts['quotes'] {
  const [from, to] = [addLocalDays(today, -LAPSE_DAYS), addLocalDays(today, LAPSE_DAYS)];
  return waitingQuotes(db, today)
    .filter((q) => q.state === 'sent' && from <= q.validUntilDay && q.validUntilDay <= to)
    .map((q) => ({
      ...{ jobId: q.jobId, jobNumber: q.jobNumber, customer: q.customer, worthMinor: q.lowMinor },
      ...{ validUntilDay: q.validUntilDay, lapsed: q.lapsed },
    }));
}

/** Of the quotes sent within a year and answered, or lapsed by now, how many were agreed to; none answered: nothing is known, so half. */
const ANSWERED = `SELECT count(*) AS answered, sum(agreed) AS agreed FROM (
  SELECT max(q.accepted_ms IS NOT NULL) AS agreed FROM quote q
  WHERE q.sent_ms >= :fromMs AND (q.accepted_ms IS NOT NULL OR q.state = 'declined' OR q.valid_until_day < :today)
  GROUP BY q.job_id)`;
export function acceptedFacts(db: ReadDb, nowMs: EpochMs, today: LocalDay): MondayFacts['accepted'] {
  const row = oneRow<{ answered: number; agreed: number | null }>(db, ANSWERED, {
    fromMs: nowMs - YEAR_MS,
    today,
  });
  const answered = row?.answered ?? 0;
  const share = answered === 0 ? 0.5 : (row?.agreed ?? 0) / answered;
  return { ppm: Math.round(share * 1_000_000) as Ppm, of: answered };
}

/**
 * Requests without a day, with the minutes their newest estimate says, else the usual job's. Whoever declined, or left
 * the newest quote lapse for longer than anybody rings about it, waits for nothing.
 */
const REQUESTS = `SELECT j.id AS jobId, j.number AS jobNumber, c.name AS customer,
    (SELECT e.p50_min FROM estimate e WHERE e.job_id = j.id ORDER BY e.version DESC LIMIT 1) AS minutes
  FROM job j JOIN customer c ON c.id = j.customer_id
  WHERE j.state IN ('enquiry', 'quoted') AND j.drop_off_min IS NULL AND j.purpose <> 'inspectionVisit'
    AND coalesce((SELECT q.state IN ('draft', 'accepted') OR (q.state = 'sent' AND q.valid_until_day >= :sinceDay)
      FROM quote q WHERE q.job_id = j.id ORDER BY q.version DESC LIMIT 1), 1)
  ORDER BY j.number`;
export type RequestRow = {
  readonly jobId: JobId;
  readonly jobNumber: number;
  readonly customer: string;
  readonly minutes: number | null;
};
export function requestRows(db: ReadDb, today: LocalDay): readonly RequestRow[] {
  return allRows<RequestRow>(db, REQUESTS, { sinceDay: addLocalDays(today, -LAPSE_DAYS) });
}
