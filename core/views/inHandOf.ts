import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { JobId, PersonId } from '../shared/ids.ts';
import { type BayRecord, wholeMinuteMs } from './bayRecord.ts';

/** From somebody's first work on a job to their last, in whole minutes since the epoch: it is in their hands. */
type Held = { readonly jobId: JobId; readonly startMin: number; readonly endMin: number };

/** The jobs first: left to itself SQLite reads all work ever done in the order of people, to group it. */
const HELD = `SELECT w.person_id AS personId, g.job_id AS jobId, min(w.start_ms) / 60000 AS startMin,
    max(coalesce(w.end_ms, :nowMs)) / 60000 AS endMin
  FROM json_each(:jobIds) t CROSS JOIN job_stage g ON g.job_id = t.value CROSS JOIN stage_work w ON w.stage_id = g.id
  GROUP BY w.person_id, g.job_id`;

/**
 * For each person what they did themselves, and what happened to the cars that they had in hand, cut to the time they
 * had them: all of it, however short the time is that the records are of.
 */
export function inHandOf(
  db: ReadDb,
  records: readonly BayRecord[],
  nowMs: number,
): (personId: PersonId) => readonly BayRecord[] {
  const jobIds = new Set(records.filter((r) => r.kind !== 'attended').map((r) => r.jobId));
  const asked = { nowMs: wholeMinuteMs(nowMs), jobIds: JSON.stringify([...jobIds]) };
  const held = Map.groupBy(allRows<Held & { personId: PersonId }>(db, HELD, asked), (r) => r.personId);
  const worked = Map.groupBy(
    records.filter((r) => r.kind === 'attended'),
    (r) => r.personId,
  );
  const byJob = Map.groupBy(
    records.filter((r) => r.kind !== 'attended'),
    (r) => r.jobId,
  );
  return (personId) => [
    ...(worked.get(personId) ?? []),
    ...(held.get(personId) ?? []).flatMap((h) =>
      (byJob.get(h.jobId) ?? []).flatMap((r) => {
        const [startMin, endMin] = [Math.max(r.startMin, h.startMin), Math.min(r.endMin, h.endMin)];
        return startMin < endMin ? [{ ...r, startMin, endMin }] : [];
      }),
    ),
  ];
}
