import type { Board } from './model.ts';
import { type ReplanReport, type ReplanWish, replan } from './replan.ts';

/** Of the time that is given, this much goes into finding out how many rounds fit into the rest. */
const TRIAL = 0.1;

/**
 * How many rounds of a re-plan fit into so many milliseconds, at most as many as are wished. A search cools by its rounds:
 * one that is cut off by the clock would never have cooled. `clock` tells milliseconds; `report` hears of the trial, and
 * ends it as it would end the search.
 */
export function roundsIn(
  board: Board,
  wish: ReplanWish,
  ms: number,
  clock: () => number,
  report: ReplanReport = () => true,
): number {
  const began = clock();
  const heard: { readonly done: number; readonly atMs: number }[] = [];
  const trial = replan(board, wish, (done, best, bound) => {
    heard.push({ done, atMs: clock() });
    return report(0, best, bound) && clock() < began + ms * TRIAL;
  });
  // The first half is slower than what follows: the program has only just begun.
  const [warm, last] = [heard[heard.length >> 1], heard.at(-1)];
  if (!warm || !last || last.done === warm.done || trial.iterations >= wish.iterations)
    return wish.iterations;
  const each = Math.max(1e-3, (last.atMs - warm.atMs) / (last.done - warm.done));
  const setUpMs = (heard[0]?.atMs ?? began) - began;
  const leftMs = ms - (clock() - began) - setUpMs;
  return Math.max(1, Math.min(wish.iterations, Math.floor(leftMs / each)));
}
