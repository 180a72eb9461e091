import { allRows } from '../db/prepared.ts';
import type { Check } from './check.ts';

/** What a job's state says against what was recorded. */
export const jobChecks: readonly Check[] = [
  {
    name: 'job.dates',
    run: (db) =>
      allRows<{ number: number; state: string }>(
        db,
        `SELECT number, state FROM job WHERE
           (state IN ('here','inWork','ready','collected') AND arrived_ms IS NULL)
           OR (state IN ('ready','collected') AND ready_ms IS NULL)
           OR (state = 'collected' AND collected_ms IS NULL)
           OR (state IN ('cancelled','noShow') AND ended_ms IS NULL)
           OR (state = 'booked' AND (drop_off_min IS NULL OR pick_up_min IS NULL))`,
      ).map((row) => ({ job: String(row.number), jobState: row.state })),
  },
  {
    name: 'job.stages',
    run: (db) =>
      allRows<{ number: number; kind: string }>(
        db,
        `SELECT j.number, s.kind FROM job_stage s JOIN job j ON j.id = s.job_id
         WHERE j.state IN ('collected','cancelled') AND s.state IN ('planned','inWork','paused')`,
      ).map((row) => ({ job: String(row.number), stage: row.kind })),
  },
  {
    name: 'work.closed',
    run: (db) =>
      allRows<{ number: number; kind: string }>(
        db,
        `SELECT j.number, s.kind FROM stage_work w JOIN job_stage s ON s.id = w.stage_id JOIN job j ON j.id = s.job_id
         WHERE w.end_ms IS NULL AND s.state IN ('done','dropped')`,
      ).map((row) => ({ job: String(row.number), stage: row.kind })),
  },
];
