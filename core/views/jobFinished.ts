import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { JobId } from '../shared/ids.ts';
import type { PanelId, StageKind } from '../shared/vocabulary.ts';

/** What the finished stages of one kind took, minutes of labour, and their panels; none = the whole car. */
export type FinishedKind = { readonly minutes: number; readonly panels: readonly PanelId[] };

type Row = {
  readonly kind: StageKind;
  readonly panels: string;
  readonly state: string;
  readonly ms: number;
};

const STAGES = `SELECT s.kind, s.panels, s.state, coalesce(sum(w.end_ms - w.start_ms), 0) AS ms
  FROM job_stage s LEFT JOIN stage_work w ON w.stage_id = s.id AND w.end_ms IS NOT NULL
  WHERE s.job_id = :jobId AND s.state <> 'dropped' GROUP BY s.id ORDER BY s.seq`;

/** Kinds of stage of a job that are wholly finished and that somebody's time was recorded on. */
export function finishedKinds(db: ReadDb, jobId: JobId): ReadonlyMap<StageKind, FinishedKind> {
  const rows = allRows<Row>(db, STAGES, { jobId });
  const found = new Map<StageKind, FinishedKind>();
  for (const kind of new Set(rows.map((row) => row.kind))) {
    const same = rows.filter((row) => row.kind === kind);
    const minutes = same.reduce((sum, row) => sum + row.ms, 0) / 60_000;
    if (minutes <= 0 || same.some((row) => row.state !== 'done')) continue;
    const panels = same.map((row) => JSON.parse(row.panels) as PanelId[]);
    found.set(kind, { minutes, panels: panels.some((p) => p.length === 0) ? [] : panels.flat() });
  }
  return found;
}
