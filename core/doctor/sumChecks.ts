import { netOfJob } from '../billing/rules/collective.ts';
import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { Broken, Check } from './check.ts';

/** What is kept of each job in sums, against the documents, the ledger of stock, the pads and the time recorded. */
export const sumChecks: readonly Check[] = [
  { name: 'collective.net', run: wrongParts },
  { name: 'job.net', run: (db) => jobsOf(db, NET) },
  { name: 'job.drawn', run: (db) => jobsOf(db, DRAWN) },
  { name: 'job.uses', run: (db) => jobsOf(db, USES) },
  { name: 'job.worked', run: (db) => jobsOf(db, WORKED) },
  { name: 'job.began', run: (db) => jobsOf(db, BEGAN) },
];

function jobsOf(db: ReadDb, sql: string): readonly Broken[] {
  return allRows<{ number: number; kept: number; again: number }>(db, sql).map(({ number, kept, again }) => ({
    job: String(number),
    ...{ kept, again },
  }));
}

/** The parts of each job in documents for several are held against those by the check before. */
const NET = `SELECT number, kept, again FROM (SELECT j.number, coalesce(s.net_minor, 0) AS kept,
    (SELECT total(t.net_minor) FROM invoice i JOIN invoice_tax t ON t.invoice_id = i.id WHERE i.job_id = j.id)
    - (SELECT total(e.net_minor) FROM invoice i JOIN voucher_entry e ON e.invoice_id = i.id WHERE i.job_id = j.id)
    + coalesce(c.minor, 0) AS again
  FROM job j LEFT JOIN job_sum s ON s.job_id = j.id
    LEFT JOIN (SELECT job_id, sum(net_minor) AS minor FROM collective_net GROUP BY job_id) c ON c.job_id = j.id)
  WHERE kept <> again`;

const DRAWN = `SELECT number, kept, again FROM (SELECT j.number, coalesce(s.drawn_minor, 0) AS kept,
    (SELECT -total(m.value_minor) FROM stock_movement m WHERE m.job_id = j.id) AS again
  FROM job j LEFT JOIN job_sum s ON s.job_id = j.id) WHERE kept <> again`;

/** Rows `(job_id, of_id, kept, again)` of both sides, where what they sum to differs. */
const apart = (rows: string, per: number): string =>
  `SELECT j.number, x.kept / ${per} AS kept, x.again / ${per} AS again FROM (
    SELECT job_id, sum(kept) AS kept, sum(again) AS again FROM (${rows}) GROUP BY job_id, of_id HAVING sum(kept) <> sum(again)) x
  JOIN job j ON j.id = x.job_id ORDER BY j.number`;

const USES = apart(
  `SELECT s.job_id, e.key AS of_id, e.value AS kept, 0 AS again FROM job_sum s, json_each(s.uses) e
    UNION ALL SELECT e.job_id, b.item_id, 0, e.pieces FROM pad_event e JOIN pad_batch b ON b.id = e.batch_id
      WHERE e.used = 1 AND e.job_id IS NOT NULL`,
  1,
);
const WORKED = apart(
  `SELECT job_id, person_id AS of_id, worked_ms AS kept, 0 AS again FROM job_hand
    UNION ALL SELECT s.job_id, w.person_id, 0, w.end_ms - w.start_ms FROM stage_work w JOIN job_stage s ON s.id = w.stage_id
      WHERE w.end_ms IS NOT NULL`,
  60_000,
);

/** Minutes by which a stretch lies outside of those between which all are said to have begun. */
const BEGAN = `SELECT j.number, max(h.first_ms - w.start_ms, w.start_ms - h.last_ms) / 60000 AS kept, 0 AS again
  FROM stage_work w JOIN job_stage s ON s.id = w.stage_id JOIN job j ON j.id = s.job_id
    JOIN job_hand h ON h.job_id = s.job_id AND h.person_id = w.person_id
  WHERE w.end_ms IS NOT NULL AND (w.start_ms < h.first_ms OR w.start_ms > h.last_ms) ORDER BY j.number`;

const PARTS = `SELECT i.number, b.job_id AS jobId, i.bill, i.totals, n.net_minor AS kept FROM billed_job b
  JOIN invoice i ON i.id = b.invoice_id LEFT JOIN collective_net n ON n.invoice_id = b.invoice_id AND n.job_id = b.job_id
  WHERE i.number IS NOT NULL`;

function wrongParts(db: ReadDb): readonly Broken[] {
  type Part = { number: number; jobId: string; bill: string; totals: string; kept: number | null };
  return allRows<Part>(db, PARTS).flatMap(({ number, jobId, bill, totals, kept }) => {
    const again = netOfJob(JSON.parse(bill), JSON.parse(totals), jobId);
    return kept === again ? [] : [{ document: String(number), kept: kept ?? 0, again }];
  });
}
