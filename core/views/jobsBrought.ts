import { type Calendar, openBetween } from '../bays/rules/calendar.ts';
import { daysBetween } from '../bays/rules/hours.ts';
import { tuples } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { BayId } from '../shared/ids.ts';
import { localDayOf } from '../shared/time.ts';
import { baysSetup } from './baysSetup.ts';
import { bayHours } from './hoursFrame.ts';
import { type JobSums, jobSums, ofFamily, type Span } from './jobSums.ts';

/** A collected job with all that was redone of it, and the open minutes of the bays it stood in. */
export type JobBrought = JobSums & { readonly bayMin: number };

/** Jobs collected in the span with what each brought and took. */
export function jobsBrought(db: ReadDb, span: Span, zone: string): readonly JobBrought[] {
  const bayMin = bayMinutes(db, span, zone);
  return jobSums(db, span).map((of) => Object.assign(of, { bayMin: bayMin.get(of.jobNumber) ?? 0 }));
}

/** Cars that have gone, where the board had them: number of the job charged, its own, the bay, minutes. */
const STOOD = ofFamily(
  'f.number, s.bay_id, s.arrive_min, s.leave_min, f.arrived_ms / 60000, f.collected_ms / 60000',
  'CROSS JOIN stay s ON s.job_id = f.id AND f.arrived_ms IS NOT NULL AND f.collected_ms IS NOT NULL',
);
type Stay = readonly [
  number,
  number,
  BayId,
  arriveMin: number,
  leaveMin: number,
  cameMin: number,
  wentMin: number,
];

/**
 * Open minutes of the bays in which each job's cars stood there, as the board had them, from when they came until they
 * went; the yard is no bay.
 */
function bayMinutes(db: ReadDb, span: Span, zone: string): ReadonlyMap<number, number> {
  const stays = tuples<Stay>(db, STOOD, span);
  const hours = openHoursOf(db, zone, {
    fromMs: stays.reduce((least, s) => Math.min(least, s[5] * 60_000), span.fromMs),
    toMs: stays.reduce((most, s) => Math.max(most, s[6] * 60_000), span.toMs),
  });
  const found = new Map<number, number>();
  // The stays of a job come one after the other, as it is the outer of the two that are joined.
  for (let from = 0, to = 0; from < stays.length; from = to) {
    const [number, own] = stays[from] as Stay;
    let [first, last] = [from, from];
    for (to = from + 1; to < stays.length && stays[to]?.[1] === own; to += 1) {
      if (arriveOf(stays, to) < arriveOf(stays, first)) first = to;
      if (arriveOf(stays, to) >= arriveOf(stays, last)) last = to;
    }
    let sum = 0;
    for (let i = from; i < to; i += 1) {
      const [, , bayId, arriveMin, leaveMin, cameMin, wentMin] = stays[i] as Stay;
      const open = hours.get(bayId);
      const startMin = i === first ? cameMin : Math.max(arriveMin, cameMin);
      const endMin = i === last ? wentMin : Math.min(leaveMin, wentMin);
      if (open) sum += openBetween(open, startMin, endMin);
    }
    found.set(number, (found.get(number) ?? 0) + sum);
  }
  return found;
}

function arriveOf(stays: readonly Stay[], i: number): number {
  return stays[i]?.[3] ?? 0;
}

function openHoursOf(db: ReadDb, zone: string, { fromMs, toMs }: Span): ReadonlyMap<BayId, Calendar> {
  const days = daysBetween(localDayOf(fromMs, zone), localDayOf(toMs, zone), zone);
  const setup = baysSetup(db, days[0]?.day ?? localDayOf(fromMs, zone));
  return new Map(
    setup.bays
      .filter((bay) => bay.kind !== 'yard')
      .map((bay) => [bay.bayId, bayHours(bay, { days, setup, zone })]),
  );
}
