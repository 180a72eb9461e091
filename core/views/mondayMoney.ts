import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { MondayFacts, Stake } from '../figures/rules/mondayFacts.ts';
import type { JobId } from '../shared/ids.ts';
import { addLocalDays } from '../shared/time.ts';
import { type EpochMs, type LocalDay, PPM, type Ppm } from '../shared/units.ts';
import { BILLED_PPM } from './billedWork.ts';
import { invoicePage, jobsUnbilled, waitingQuotes } from './billingLists.ts';
import { quotesAnswered } from './quotesAnswered.ts';

/** A quote is rung about when it ends within so many days, or ended as lately. */
const LAPSE_DAYS = 7;
const MOST_OVERDUE = 500;
const YEAR_MS = 365 * 86_400_000;

/**
 * Agreed sum of each job, else the lowest of its newest standing quote, with tax; null where there is neither, nothing of
 * what is redone under warranty.
 */
const WORTH = `SELECT a.value AS jobId, coalesce(
    (SELECT 0 FROM job j WHERE j.id = a.value AND j.redo_of_job_id IS NOT NULL),
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

/** What issued invoices bill of a job's work, and what was done of it where it was stopped half way, by its minutes. */
const BILLABLE = `SELECT j.id AS jobId, ${BILLED_PPM} AS billedPpm,
    (SELECT sum(1.0 * h.share_ppm * s.p50_min) / sum(s.p50_min) FROM job_stage s JOIN stage_share h ON h.stage_id = s.id
      WHERE s.job_id = j.id) AS donePpm
  FROM json_each(:jobIds) a JOIN job j ON j.id = a.value`;

/** Finished work without an invoice, also where that lies there as a draft, at what it still asks for. */
export function billFacts(db: ReadDb, usualMinor: number): readonly Stake[] {
  type Row = { readonly jobId: string; readonly billedPpm: number; readonly donePpm: number | null };
  const jobs = jobsUnbilled(db);
  const jobIds = JSON.stringify(jobs.map((j) => j.jobId));
  const known = new Map(allRows<Row>(db, BILLABLE, { jobIds }).map((r) => [r.jobId, r]));
  return jobs.flatMap(({ jobId, jobNumber, customer, agreedMinor, partlyMinor }) => {
    const of = known.get(jobId);
    const share = ((of?.donePpm ?? PPM) / PPM) * (1 - (of?.billedPpm ?? 0) / PPM);
    const worthMinor = Math.round((agreedMinor ?? usualMinor) * share) - (partlyMinor ?? 0);
    return worthMinor > 0 ? [{ jobId, jobNumber, customer, worthMinor }] : [];
  });
}

/** The few jobs come first: SQLite would read every quote ever agreed to. */
const AGREED = `SELECT q.job_id AS jobId, o.to_pay_minor AS agreedMinor FROM json_each(:jobIds) a
  CROSS JOIN quote q ON q.job_id = a.value AND q.state = 'accepted'
  CROSS JOIN quote_option o ON o.quote_id = q.id AND o.letter = q.accepted_letter`;

/** Sent quotes that end within a week or ended in the last one; where something is agreed already, by what they add to it. */
export function quoteFacts(db: ReadDb, today: LocalDay): MondayFacts['quotes'] {
  const [from, to] = [addLocalDays(today, -LAPSE_DAYS), addLocalDays(today, LAPSE_DAYS)];
  const waiting = waitingQuotes(db, today).filter(
    (q) => q.state === 'sent' && from <= q.validUntilDay && q.validUntilDay <= to,
  );
  type Row = { readonly jobId: string; readonly agreedMinor: number };
  const jobIds = JSON.stringify(waiting.map((q) => q.jobId));
  const agreed = new Map(allRows<Row>(db, AGREED, { jobIds }).map((r) => [r.jobId, r.agreedMinor]));
  return waiting.flatMap(({ jobId, jobNumber, customer, lowMinor, validUntilDay, lapsed }) => {
    const worthMinor = lowMinor - (agreed.get(jobId) ?? 0);
    return worthMinor > 0 ? [{ jobId, jobNumber, customer, worthMinor, validUntilDay, lapsed }] : [];
  });
}

/** Of the quotes sent within a year and answered, or lapsed by now, how many were agreed to; none answered: nothing is known, so half. */
export function acceptedFacts(db: ReadDb, nowMs: EpochMs, today: LocalDay): MondayFacts['accepted'] {
  const answered = quotesAnswered(db, { fromMs: nowMs - YEAR_MS, toMs: nowMs + 1, today });
  const agreed = answered.filter((q) => q.accepted).length;
  const share = answered.length === 0 ? 0.5 : agreed / answered.length;
  return { ppm: Math.round(share * PPM) as Ppm, of: answered.length };
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
