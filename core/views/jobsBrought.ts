import { openBetween } from '../bays/rules/calendar.ts';
import { daysBetween } from '../bays/rules/hours.ts';
import { tuples } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { BayId, JobId } from '../shared/ids.ts';
import { localDayOf } from '../shared/time.ts';
import { baysSetup } from './baysSetup.ts';
import { bayHours } from './hoursFrame.ts';
import { type JobSums, jobSums, ofFamily, type Span } from './jobSums.ts';

/** A collected job with all that was redone of it, and the open minutes of the bays it stood in. */
export type JobBrought = JobSums & { readonly bayMin: number };

/** Jobs collected in the span with what each brought and took. */
export function jobsBrought(db: ReadDb, span: Span, zone: string): readonly JobBrought[] {
  const bayMin = bayMinutes(db, span, zone);
  return jobSums(db, span).map((of) => ({ ...of, bayMin: bayMin.get(of.jobId) ?? 0 }));
}

/** Cars that have gone, where the board had them: the job charged, the job itself, the bay, minutes. */
const STOOD = ofFamily(
  'f.id, s.bay_id, s.arrive_min, s.leave_min, f.arrived_ms / 60000, f.collected_ms / 60000',
  'CROSS JOIN stay s ON s.job_id = f.id AND f.arrived_ms IS NOT NULL AND f.collected_ms IS NOT NULL',
);
type Stay = readonly [
  JobId,
  JobId,
  BayId,
  arriveMin: number,
  leaveMin: number,
  cameMin: number,
  wentMin: number,
];
type Stood = {
  readonly jobId: JobId;
  readonly bayId: BayId;
  readonly startMin: number;
  readonly endMin: number;
};

/** When the cars stood in a bay: as the board had them, from when they came until they went. */
function stoodIn(db: ReadDb, span: Span): readonly Stood[] {
  const rows = tuples<Stay>(db, STOOD, span);
  const found: Stood[] = [];
  // The stays of a job come one after the other, as it is the outer of the two that are joined.
  for (let from = 0, to = 0; from < rows.length; from = to) {
    to = from + 1;
    while (to < rows.length && rows[to]?.[1] === rows[from]?.[1]) to += 1;
    const stays = to === from + 1 ? [rows[from] as Stay] : rows.slice(from, to).sort((a, b) => a[3] - b[3]);
    stays.forEach(([jobId, , bayId, arriveMin, leaveMin, cameMin, wentMin], i) => {
      found.push({
        ...{ jobId, bayId },
        startMin: i === 0 ? cameMin : Math.max(arriveMin, cameMin),
        endMin: i === stays.length - 1 ? wentMin : Math.min(leaveMin, wentMin),
      });
    });
  }
  return found;
}

/** Open minutes of the bays in which each job's cars stood there; the yard is no bay. */
function bayMinutes(db: ReadDb, range: Span, zone: string): ReadonlyMap<JobId, number> {
  const stood = stoodIn(db, range);
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
