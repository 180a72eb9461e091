import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { StageId } from '../shared/ids.ts';
import type { HonestyView, OutlierStory } from '../shared/views/figures.ts';
import { type Far, workOf } from './furthest.ts';

const NOTES = `SELECT s.id AS stageId, 'note' AS kind, s.note AS text, '' AS by
  FROM json_each(:stageIds) a JOIN job_stage s ON s.id = a.value WHERE s.note <> ''
  UNION ALL
  SELECT n.stage_id, 'note', n.note, coalesce(p.name, '')
  FROM json_each(:stageIds) a JOIN stage_note n ON n.stage_id = a.value LEFT JOIN person p ON p.id = n.person_id
  UNION ALL
  SELECT o.stage_id, 'override', o.reason, p.name
  FROM json_each(:stageIds) a JOIN job_stage s ON s.id = a.value JOIN job_override o ON o.job_id = s.job_id AND o.stage_id = s.id
    JOIN person p ON p.id = o.person_id`;
const WORKED = `SELECT w.stage_id AS stageId, count(*) AS times, count(DISTINCT w.person_id) AS people, sum(w.corrected) AS corrected
  FROM json_each(:stageIds) a JOIN stage_work w ON w.stage_id = a.value GROUP BY w.stage_id`;

/** The stages furthest from what was said of them, longer or shorter alike, with everything that was recorded about them. */
export function outliersOf(db: ReadDb, furthest: readonly Far[]): HonestyView['outliers'] {
  const found = workOf(db, furthest);
  const storyOf = stories(
    db,
    found.map((w) => w.stageId),
  );
  return found.map((w) => ({
    ...{ stageId: w.stageId, jobId: w.jobId, jobNumber: w.jobNumber, stage: w.kind, person: w.person },
    ...{ p50Min: w.p50Min, p80Min: w.p80Min, actualMin: Math.round(w.actualMin) },
    story: storyOf(w.stageId),
  }));
}

function stories(db: ReadDb, ids: readonly StageId[]): (id: StageId) => readonly OutlierStory[] {
  type Note = { readonly stageId: StageId; readonly kind: 'note' | 'override'; text: string; by: string };
  type Worked = { readonly stageId: StageId; times: number; people: number; corrected: number };
  const asked = { stageIds: JSON.stringify(ids) };
  const notes = Map.groupBy(allRows<Note>(db, NOTES, asked), (n) => n.stageId);
  const worked = new Map(allRows<Worked>(db, WORKED, asked).map((w) => [w.stageId, w]));
  return (id) => {
    const { times = 0, people = 0, corrected = 0 } = worked.get(id) ?? {};
    return [
      ...(notes.get(id) ?? []).map(({ kind, text, by }) => ({ kind, text, by })),
      ...(corrected > 0 ? [{ kind: 'corrected' as const, times: corrected }] : []),
      ...(times > 1 ? [{ kind: 'stretches' as const, times, people }] : []),
    ];
  };
}
