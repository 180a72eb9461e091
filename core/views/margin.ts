import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { JobId } from '../shared/ids.ts';
import type { JobMarginRow } from '../shared/views/figures.ts';
import { jobSums } from './jobSums.ts';

const CALLED = `SELECT j.id AS jobId, j.number AS jobNumber, c.name AS customer
  FROM job j JOIN customer c ON c.id = j.customer_id
  WHERE j.collected_ms >= :fromMs AND j.collected_ms < :toMs AND j.redo_of_job_id IS NULL
  ORDER BY j.collected_ms, j.number`;

/** Jobs collected in `[fromMs, toMs)` by name, in the order they left, with what each brought and took. */
export function marginRows(db: ReadDb, fromMs: number, toMs: number): readonly JobMarginRow[] {
  const sums = new Map(jobSums(db, { fromMs, toMs }).map((s) => [s.jobId, s]));
  type Called = { readonly jobId: JobId; readonly jobNumber: number; readonly customer: string };
  return allRows<Called>(db, CALLED, { fromMs, toMs }).flatMap((called) => {
    const of = sums.get(called.jobId);
    if (!of) return [];
    const { netMinor, materialMinor, workedMin, labourMinor, unknownMs } = of;
    return [{ ...called, netMinor, materialMinor, workedMin, labourMinor, unknownMs }];
  });
}
