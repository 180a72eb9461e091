import { lastAtOrBelow, NEVER } from './calendar.ts';
import type { Board } from './model.ts';
import { slotFrom } from './offers.ts';

/** The share of runs ready by `t`, in parts per million. `ready` rises. */
export function chanceBy(ready: readonly number[], t: number): number {
  if (ready.length === 0) return 0;
  return Math.round(((lastAtOrBelow(ready, t) + 1) * 1_000_000) / ready.length);
}

/** The minute by which `ppm` of the runs are ready. */
export function quantile(ready: readonly number[], ppm: number): number {
  const at = Math.min(ready.length - 1, Math.max(0, Math.ceil((ready.length * ppm) / 1_000_000) - 1));
  return ready[at] ?? NEVER;
}

/**
 * The whole minute by which `ppm` of the runs are ready, as it is shown: at the latest the end of all that is planned,
 * also of work that never ends because nobody is there to do it.
 */
export function readyBy(board: Board, ready: readonly number[], ppm: number): number {
  return Math.min(board.horizonMin, Math.round(quantile(ready, ppm)));
}

/** The first handover slot by which at least `levelPpm` of the runs are ready; NEVER beyond the horizon. */
export function promiseSlot(board: Board, ready: readonly number[], levelPpm: number): number {
  return slotFrom(board, quantile(ready, levelPpm));
}

/** Share of the sureness a promise was made with. Common practice, no source. */
const STILL_SURE = 0.75;

/**
 * Whether a promise made at `levelPpm` wants looking after: it is less than three quarters as sure. Chances of a full
 * shop sink a little with every car that is booked, and a list with half of them on it would be read by nobody.
 */
export function isAtRisk(nowPpm: number, levelPpm: number): boolean {
  return nowPpm < levelPpm * STILL_SURE;
}
