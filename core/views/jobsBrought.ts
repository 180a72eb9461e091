import { openBetween } from '../bays/rules/calendar.ts';
import { daysBetween } from '../bays/rules/hours.ts';
import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { Brought } from '../figures/rules/moneySums.ts';
import type { BayId, JobId, PersonId } from '../shared/ids.ts';
import { localDayOf } from '../shared/time.ts';
import type { EpochMs } from '../shared/units.ts';
import type { Purpose } from '../shared/views/bookings.ts';
import { baysSetup } from './baysSetup.ts';
import { bayHours } from './hoursFrame.ts';
import { FAMILY, marginRows } from './margin.ts';

/** A collected job with all that was redone of it. */
export type JobBrought = Brought & {
  readonly jobId: JobId;
  readonly purpose: Purpose;
  readonly collectedMs: EpochMs;
  readonly worked: readonly { readonly personId: PersonId; readonly minutes: number }[];
};

const FACTS = `${FAMILY} SELECT j.id AS jobId, j.purpose, j.collected_ms AS collectedMs
  FROM family f CROSS JOIN job j ON j.id = f.id WHERE f.id = f.rootId`;
const WORKED = `${FAMILY} SELECT f.rootId AS jobId, w.person_id AS personId, sum(w.end_ms - w.start_ms) / 60000.0 AS minutes
  FROM family f CROSS JOIN job_stage s ON s.job_id = f.id CROSS JOIN stage_work w ON w.stage_id = s.id
  WHERE w.end_ms IS NOT NULL GROUP BY f.rootId, w.person_id ORDER BY f.rootId, w.person_id`;
/** When the cars stood in a bay: as the board had them, from when they came until they went. */
const STOOD = `${FAMILY} SELECT f.rootId AS jobId, s.bay_id AS bayId,
    iif(row_number() OVER by_time = 1, j.arrived_ms / 60000, max(s.arrive_min, j.arrived_ms / 60000)) AS startMin,
    iif(lead(s.id) OVER by_time IS NULL, j.collected_ms / 60000, min(s.leave_min, j.collected_ms / 60000)) AS endMin
  FROM family f CROSS JOIN job j ON j.id = f.id CROSS JOIN stay s ON s.job_id = j.id
  WHERE j.arrived_ms IS NOT NULL AND j.collected_ms IS NOT NULL
  WINDOW by_time AS (PARTITION BY s.job_id ORDER BY s.arrive_min)`;

/** Jobs collected in `[fromMs, toMs)` with what each brought and took. */
export function jobsBrought(db: ReadDb, fromMs: number, toMs: number, zone: string): readonly JobBrought[] {
  const range = { fromMs, toMs };
  type Facts = Pick<JobBrought, 'jobId' | 'purpose' | 'collectedMs'>;
  const facts = new Map(allRows<Facts>(db, FACTS, range).map((f) => [f.jobId, f]));
  type Worked = { readonly jobId: JobId; readonly personId: PersonId; readonly minutes: number };
  const worked = Map.groupBy(allRows<Worked>(db, WORKED, range), (w) => w.jobId);
  const bayMin = bayMinutes(db, range, zone);
  return marginRows(db, fromMs, toMs).flatMap((row) => {
    const of = facts.get(row.jobId);
    const { netMinor, materialMinor, workedMin } = row;
    return of
      ? [
          {
            ...{ ...of, netMinor, materialMinor, workedMin, bayMin: bayMin.get(row.jobId) ?? 0 },
            worked: worked.get(row.jobId) ?? [],
          },
        ]
      : [];
  });
}

type Stood = {
  readonly jobId: JobId;
  readonly bayId: BayId;
  readonly startMin: number;
  readonly endMin: number;
};

/** Open minutes of the bays in which each job's cars stood there; the yard is no bay. */
function bayMinutes(
  db: ReadDb,
  range: { readonly fromMs: number; readonly toMs: number },
  zone: string,
): ReadonlyMap<JobId, number> {
  const stood = allRows<Stood>(db, STOOD, range);
  const first = stood.reduce((least, s) => Math.min(least, s.startMin), range.fromMs / 60_000);
  const last = stood.reduce((most, s) => Math.max(most, s.endMin), range.toMs / 60_000);
  const days = daysBetween(localDayOf(first * 60_000, zone), localDayOf(last * 60_000, zone), zone);
  const setup = baysSetup(db, days[0]?.day ?? localDayOf(range.fromMs, zone));
  const hours = new Map(
    setup.bays
      .filter((bay) => bay.kind !== 'yard')
      .map((bay) => [bay.bayId, bayHours(bay, { days, setup, zone })]),
  );
  const found = new Map<JobId, number>();
  for (const { jobId, bayId, startMin, endMin } of stood) {
    const open = hours.get(bayId);
    if (open) found.set(jobId, (found.get(jobId) ?? 0) + openBetween(open, startMin, endMin));
  }
  return found;
}
