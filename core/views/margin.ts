import { netOfJob } from '../billing/rules/collective.ts';
import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { JobMarginRow } from '../shared/views/figures.ts';

/** Each job collected in the range, and with it everything that was redone of it, whenever that was. */
export const FAMILY = `WITH RECURSIVE
  redone AS MATERIALIZED (SELECT id, redo_of_job_id AS ofId FROM job WHERE redo_of_job_id IS NOT NULL),
  family (rootId, id) AS (
    SELECT id, id FROM job WHERE collected_ms >= :fromMs AND collected_ms < :toMs AND redo_of_job_id IS NULL
    UNION SELECT f.rootId, r.id FROM family f JOIN redone r ON r.ofId = f.id)`;

/** A redo bears nothing of its own: what it cost was lost on the job it repeats. */
const PARTS = `SELECT f.rootId,
    coalesce((SELECT sum(t.net_minor) FROM invoice i JOIN invoice_tax t ON t.invoice_id = i.id
      WHERE i.job_id = f.id), 0)
    - coalesce((SELECT sum(e.net_minor) FROM invoice i CROSS JOIN voucher_entry e ON e.invoice_id = i.id
      WHERE i.job_id = f.id), 0) AS net,
    (SELECT -sum(m.value_minor) FROM stock_movement m WHERE m.job_id = f.id) AS drawn,
    (SELECT sum(round(l.last_cost_minor * 1.0 / l.last_cost_qty * u.uses / coalesce(i.uses_per_life, 20)))
      FROM (SELECT b.item_id, sum(e.pieces) AS uses FROM pad_event e JOIN pad_batch b ON b.id = e.batch_id
        WHERE e.job_id = f.id AND e.used = 1 GROUP BY b.item_id) u
      JOIN stock_item i ON i.id = u.item_id JOIN stock_level l ON l.item_id = u.item_id
      WHERE l.last_cost_qty > 0) AS worn,
    (SELECT sum(w.end_ms - w.start_ms) FROM job_stage s JOIN stage_work w ON w.stage_id = s.id
      WHERE s.job_id = f.id AND w.end_ms IS NOT NULL) AS workedMs
  FROM family f`;

/** What was billed of each together with other jobs. */
const COLLECTED = `SELECT f.rootId, f.id AS jobId, i.bill, i.totals
  FROM family f JOIN billed_job b ON b.job_id = f.id JOIN invoice i ON i.id = b.invoice_id WHERE i.number IS NOT NULL`;

/**
 * Jobs collected in `[fromMs, toMs)`: net of issued documents, material at the ledger's cost with the wear of pads and
 * towels, minutes worked. A prepayment invoice and its deduction on the final one cancel out, and what a taxed voucher
 * took off is the job's all the same, so each job's net counts once. A redo is no row of its own: it is charged to the job it repeats.
 */
export function marginRows(db: ReadDb, fromMs: number, toMs: number): readonly JobMarginRow[] {
  const together = netTogether(db, fromMs, toMs);
  const rows = allRows<JobMarginRow>(
    db,
    `${FAMILY}
     SELECT j.id AS jobId, j.number AS jobNumber, c.name AS customer, coalesce(sum(p.net), 0) AS netMinor,
       coalesce(sum(p.drawn), 0) + CAST(coalesce(sum(p.worn), 0) AS INTEGER) AS materialMinor,
       coalesce(sum(p.workedMs), 0) / 60000 AS workedMin
     FROM (${PARTS}) p JOIN job j ON j.id = p.rootId JOIN customer c ON c.id = j.customer_id
     GROUP BY j.id ORDER BY j.collected_ms, j.number`,
    { fromMs, toMs },
  );
  return rows.map((row) => ({
    ...row,
    netMinor: (row.netMinor + (together.get(row.jobId) ?? 0)) as JobMarginRow['netMinor'],
  }));
}

/** Net of each job, and of what was redone of it, on invoices for several jobs. */
function netTogether(db: ReadDb, fromMs: number, toMs: number): ReadonlyMap<string, number> {
  type Row = {
    readonly rootId: string;
    readonly jobId: string;
    readonly bill: string;
    readonly totals: string;
  };
  const nets = new Map<string, number>();
  for (const { rootId, jobId, bill, totals } of allRows<Row>(db, `${FAMILY} ${COLLECTED}`, { fromMs, toMs }))
    nets.set(rootId, (nets.get(rootId) ?? 0) + netOfJob(JSON.parse(bill), JSON.parse(totals), jobId));
  return nets;
}
