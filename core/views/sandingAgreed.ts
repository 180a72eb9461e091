import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { JobId } from '../shared/ids.ts';
import type { PanelId } from '../shared/vocabulary.ts';

const AGREED = `SELECT s.panel FROM sanding_consent s JOIN inspection i ON i.id = s.inspection_id
  WHERE i.job_id = :jobId AND s.removed_ms IS NULL`;

/** Panels of a job that its owner has agreed to wet sand, and not taken back. */
export function sandingAgreed(db: ReadDb, jobId: JobId): readonly PanelId[] {
  return allRows<{ readonly panel: PanelId }>(db, AGREED, { jobId }).map((row) => row.panel);
}
