import { type Draws, drawnOnce, minutesOf } from '../bays/rules/draws.ts';
import { chanceBy, promiseSlot } from '../bays/rules/promise.ts';
import { RUNS, simulateReady } from '../bays/rules/simulate.ts';
import { type OtherHours, withHours } from '../bays/rules/withHours.ts';
import type { ReadDb } from '../db/types.ts';
import type { JobId } from '../shared/ids.ts';
import { localDayOf } from '../shared/time.ts';
import type { EpochMin, Ppm } from '../shared/units.ts';
import type { PickUpWith } from '../shared/views/billing.ts';
import { baysSetup } from './baysSetup.ts';
import { liveBoard } from './liveBoard.ts';
import { shopOf } from './shop.ts';

const SEED = 20;
const NO_PLACE: PickUpWith = { agreedPpm: null, pickUpMin: null, surePpm: null };
const UNDER_WAY: readonly string[] = ['booked', 'here', 'inWork'];

/**
 * When a booked car would be ready with other hours than those it was booked for, one answer for each of `hours`: how
 * sure the agreed pick-up still is, and the first handover that is as sure as the shop's promises are. Null where the
 * car has no place on the board; without figures where the other hours hold work that has none.
 */
export function pickUpsWith(
  db: ReadDb,
  nowMs: number,
  jobId: JobId,
  hours: readonly OtherHours[],
): readonly (PickUpWith | null)[] {
  const nobody = hours.map(() => null);
  if (baysSetup(db, localDayOf(nowMs, shopOf(db).zone)).hours.length === 0) return nobody;
  const { board, rows, shop } = liveBoard(db, { nowMs, jobId });
  const row = rows.get(jobId);
  const job = board.jobs.get(jobId);
  const agreed = row?.pickUpMin ?? null;
  if (!row || !job || agreed === null || !board.plans.has(jobId) || !UNDER_WAY.includes(row.state))
    return nobody;
  // The other cars go as they go whatever is agreed for this one: they are drawn once.
  const others = drawnOnce(SEED, RUNS);
  const draw: Draws = (line) => (line.jobId === jobId ? minutesOf(line, SEED, RUNS) : others(line));
  return hours.map((other) => {
    const changed = withHours(job, other);
    if (!changed) return NO_PLACE;
    const as = { ...board, jobs: new Map(board.jobs).set(jobId, changed) };
    const runs = simulateReady(as, [jobId], SEED, RUNS, draw).get(jobId) ?? [];
    if (runs.length === 0) return null;
    const sure = promiseSlot(as, runs, shop.settings.promises.levelPpm);
    const pickUpMin = sure > board.horizonMin ? null : (Math.max(agreed, sure) as EpochMin);
    const surePpm = pickUpMin === null ? null : (chanceBy(runs, pickUpMin) as Ppm);
    return { agreedPpm: chanceBy(runs, agreed) as Ppm, pickUpMin, surePpm };
  });
}
