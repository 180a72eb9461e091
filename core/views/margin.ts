import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { JobMarginRow } from '../shared/views/figures.ts';

/**
 * Jobs collected in `[fromMs, toMs)`: net of issued documents, material at the ledger's cost, minutes worked.
 * A prepayment invoice and its deduction on the final one cancel out, so each job's net counts once.
 */
export function marginRows(db: ReadDb, fromMs: number, toMs: number): readonly JobMarginRow[] {
  return allRows<JobMarginRow>(
    db,
    `SELECT j.id AS jobId, j.number AS jobNumber, c.name AS customer,
       coalesce((SELECT sum(t.taxable_minor) FROM invoice i JOIN invoice_tax t ON t.invoice_id = i.id WHERE i.job_id = j.id), 0) AS netMinor,
       coalesce((SELECT -sum(m.value_minor) FROM stock_movement m WHERE m.job_id = j.id), 0) AS materialMinor,
       coalesce((SELECT sum(w.end_ms - w.start_ms) FROM job_stage s JOIN stage_work w ON w.stage_id = s.id
                 WHERE s.job_id = j.id AND w.end_ms IS NOT NULL), 0) / 60000 AS workedMin
     FROM job j JOIN customer c ON c.id = j.customer_id
     WHERE j.collected_ms >= :fromMs AND j.collected_ms < :toMs ORDER BY j.collected_ms`,
    { fromMs, toMs },
  );
}
