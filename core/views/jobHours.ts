import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import { jobRange, type StageHours } from '../estimate/rules/jobRange.ts';
import type { JobId } from '../shared/ids.ts';
import type { HoursView, StageView } from '../shared/views/bookings.ts';

const STAGES = `SELECT p20_min AS p20Min, p50_min AS p50Min, p80_min AS p80Min, mu, sigma FROM job_stage
  WHERE job_id = :jobId AND state <> 'dropped' AND crew > 0 AND p50_min > 0 ORDER BY seq`;

/** Spread of the total (log minutes) of the plan the stages came from: the agreed option's, else the newest estimate's. */
const SIGMAS = `SELECT asked.value AS jobId, coalesce(
    (SELECT json_extract(o.hours, '$.sigma') FROM quote q JOIN quote_option o ON o.quote_id = q.id AND o.letter = q.accepted_letter
     WHERE q.job_id = asked.value AND q.state = 'accepted'),
    (SELECT sigma FROM estimate WHERE job_id = asked.value ORDER BY version DESC LIMIT 1)) AS sigma
  FROM json_each(:jobIds) asked`;

const ALL_STAGES = `SELECT job_id AS jobId, p20_min AS p20Min, p50_min AS p50Min, p80_min AS p80Min, mu, sigma FROM job_stage
  WHERE job_id IN (SELECT value FROM json_each(:jobIds)) AND state <> 'dropped' AND crew > 0 AND p50_min > 0 ORDER BY seq`;

/** Middle of the attended minutes of each job, as its own page and its estimate have it: P50 of the sum, not the sum of P50s. */
export function middleOf(db: ReadDb, jobIds: readonly JobId[]): ReadonlyMap<JobId, number> {
  type Row = StageHours & { readonly jobId: JobId };
  const rows = Map.groupBy(allRows<Row>(db, ALL_STAGES, { jobIds: JSON.stringify(jobIds) }), (r) => r.jobId);
  const sigmas = sigmasOf(db, jobIds);
  const p50 = (id: JobId): number => jobRange(rows.get(id) ?? [], sigmas.get(id) ?? null).p50Min;
  return new Map(jobIds.map((id) => [id, p50(id)]));
}

function sigmasOf(db: ReadDb, jobIds: readonly JobId[]): ReadonlyMap<JobId, number | null> {
  type Row = { readonly jobId: JobId; readonly sigma: number | null };
  const rows = allRows<Row>(db, SIGMAS, { jobIds: JSON.stringify(jobIds) });
  return new Map(rows.map((r) => [r.jobId, r.sigma]));
}

/** Attended minutes of a job: the range of its plan, what was worked, what is left by the plan's middle. */
export function hoursOf(db: ReadDb, jobId: JobId, stages: readonly StageView[]): HoursView {
  const left = (s: StageView): number =>
    s.state === 'done' || s.state === 'dropped' || s.crew === 0
      ? 0
      : Math.max(0, s.p50Min - s.attendedMs / 60_000);
  return {
    ...jobRange(allRows<StageHours>(db, STAGES, { jobId }), sigmasOf(db, [jobId]).get(jobId) ?? null),
    workedMin: Math.round(stages.reduce((t, s) => t + s.attendedMs, 0) / 60_000),
    leftMin: Math.round(stages.reduce((t, s) => t + left(s), 0)),
  };
}
