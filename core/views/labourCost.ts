import { allRows, tuples } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { JobId, PersonId } from '../shared/ids.ts';
import { instantOf } from '../shared/time.ts';
import type { LocalDay } from '../shared/units.ts';
import { shopOf } from './shop.ts';

/** What somebody worked on a job: milliseconds, and between which instants all of its stretches began. */
export type Hand = {
  readonly jobId: JobId;
  readonly personId: PersonId;
  readonly workedMs: number;
  readonly firstMs: number;
  readonly lastMs: number;
};
/** What work cost, to the nearest minor unit, and of how much of it no cost is known. */
export type Labour = { readonly labourMinor: number; readonly unknownMs: number };

const HOUR_MS = 3_600_000;
const COSTS = 'SELECT person_id AS personId, from_day AS fromDay, hour_minor AS hourMinor FROM hour_cost';
const STRETCHES = `SELECT w.start_ms, w.end_ms - w.start_ms FROM stage_work w JOIN job_stage s ON s.id = w.stage_id
  WHERE s.job_id = :jobId AND w.person_id = :personId AND w.end_ms IS NOT NULL`;

type Since = { readonly fromMs: number; readonly hourMinor: number };

/**
 * What work on a job cost the shop by what an hour of each person cost on the day each stretch of it began; null where
 * nobody's hour has a cost. Before somebody's first cost, none is known.
 */
export function labourCosts(db: ReadDb): ((hand: Hand) => Labour) | null {
  const by = sinceBy(db);
  if (by.size === 0) return null;
  return (hand) => {
    const costs = by.get(hand.personId) ?? [];
    const first = at(costs, hand.firstMs);
    if (first === at(costs, hand.lastMs)) return costOf([[first, hand.workedMs]]);
    const stretches = tuples<readonly [number, number]>(db, STRETCHES, {
      jobId: hand.jobId,
      personId: hand.personId,
    });
    return costOf(stretches.map(([startMs, ms]) => [at(costs, startMs), ms]));
  };
}

/** Each person's costs by the instant their day began in the shop, the latest first. */
function sinceBy(db: ReadDb): ReadonlyMap<PersonId, readonly Since[]> {
  const rows = allRows<{ personId: PersonId; fromDay: LocalDay; hourMinor: number }>(db, COSTS);
  if (rows.length === 0) return new Map();
  const { zone } = shopOf(db);
  const begun = rows
    .map((r) => ({ ...r, fromMs: instantOf(r.fromDay, 0, zone) }))
    .toSorted((a, b) => b.fromMs - a.fromMs);
  return Map.groupBy(begun, (r) => r.personId);
}

function at(costs: readonly Since[], ms: number): Since | undefined {
  return costs.find((c) => c.fromMs <= ms);
}

function costOf(worked: readonly (readonly [cost: Since | undefined, ms: number])[]): Labour {
  let [minorMs, unknownMs] = [0, 0];
  for (const [cost, ms] of worked) {
    if (cost) minorMs += cost.hourMinor * ms;
    else unknownMs += ms;
  }
  return { labourMinor: Math.round(minorMs / HOUR_MS), unknownMs };
}
