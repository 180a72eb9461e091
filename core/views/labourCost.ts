import { allRows, oneRow, tuples } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { PersonId } from '../shared/ids.ts';
import { minuteOf } from '../shared/time.ts';
import type { EpochMs, LocalDay } from '../shared/units.ts';
import { shopOf } from './shop.ts';

/**
 * What somebody worked on a job, as it is read: number of the job charged, who, milliseconds, between which minutes since
 * the epoch all stretches began, number of the job worked on.
 */
export type Hand = readonly [
  charged: number,
  personId: PersonId,
  workedMs: number,
  firstMin: number,
  lastMin: number,
  jobNumber: number,
];
/** What work cost, to the nearest minor unit, and of how much of it no cost is known. */
export type Labour = { labourMinor: number; unknownMs: number };
export type Worked = Labour & { readonly personId: PersonId; workedMs: number };

const HOUR_MS = 3_600_000;
const COSTS = 'SELECT person_id AS personId, from_day AS fromDay, hour_minor AS hourMinor FROM hour_cost';
const STRETCHES = `SELECT w.start_ms / 60000, w.end_ms - w.start_ms FROM job j JOIN job_stage s ON s.job_id = j.id
    JOIN stage_work w ON w.stage_id = s.id
  WHERE j.number = :jobNumber AND w.person_id = :personId AND w.end_ms IS NOT NULL`;

const NONE: readonly Since[] = [];
type Since = { readonly fromMin: number; readonly hourMinor: number };

/**
 * What work on a job cost the shop by what an hour of each person cost on the day each stretch of it began. Before
 * somebody's first cost, none is known.
 */
export function labourCosts(db: ReadDb): (hand: Hand) => Worked {
  const by = sinceBy(db);
  return ([, personId, workedMs, firstMin, lastMin, jobNumber]) => {
    const costs = by.get(personId) ?? NONE;
    const first = at(costs, firstMin);
    if (first === at(costs, lastMin)) {
      const labourMinor = first ? Math.round((first.hourMinor * workedMs) / HOUR_MS) : 0;
      return { personId, workedMs, labourMinor, unknownMs: first ? 0 : workedMs };
    }
    const stretches = tuples<readonly [number, number]>(db, STRETCHES, { jobNumber, personId });
    return { personId, workedMs, ...costOf(stretches.map(([startMin, ms]) => [at(costs, startMin), ms])) };
  };
}

/** When somebody's earliest work began, which may have been typed in for days before their first; null without any. */
export function firstWorkedMs(db: ReadDb, personId: PersonId): EpochMs | null {
  const FIRST = 'SELECT min(first_ms) AS firstMs FROM job_hand WHERE person_id = :personId AND worked_ms > 0';
  return oneRow<{ firstMs: EpochMs | null }>(db, FIRST, { personId })?.firstMs ?? null;
}

/** Each person's costs by the minute their day began in the shop, the latest first. */
function sinceBy(db: ReadDb): ReadonlyMap<PersonId, readonly Since[]> {
  const rows = allRows<{ personId: PersonId; fromDay: LocalDay; hourMinor: number }>(db, COSTS);
  if (rows.length === 0) return new Map();
  const { zone } = shopOf(db);
  const begun = rows
    .map((r) => ({ ...r, fromMin: minuteOf(r.fromDay, 0, zone) }))
    .toSorted((a, b) => b.fromMin - a.fromMin);
  return Map.groupBy(begun, (r) => r.personId);
}

function at(costs: readonly Since[], minute: number): Since | undefined {
  for (const cost of costs) if (cost.fromMin <= minute) return cost;
  return undefined;
}

/** Of hours on both sides of another cost, rounded once. */
function costOf(worked: readonly (readonly [cost: Since | undefined, ms: number])[]): Labour {
  let [minorMs, unknownMs] = [0, 0];
  for (const [cost, ms] of worked) {
    if (cost) minorMs += cost.hourMinor * ms;
    else unknownMs += ms;
  }
  return { labourMinor: Math.round(minorMs / HOUR_MS), unknownMs };
}
