import type { Board } from './model.ts';
import { type ReplanReport, type ReplanResult, type ReplanWish, replan } from './replan.ts';

/** Of the time that is given, this much goes into finding out how many rounds fit into the rest. */
const TRIAL = 0.1;

/** How long a look may take, and a clock that tells milliseconds. */
export type LookTime = { readonly ms: number; readonly clock: () => number };
type Heard = { readonly done: number; readonly atMs: number };

/**
 * A re-plan of as many rounds as fit into so many milliseconds, at most as many as are wished. A search cools by its rounds:
 * one that is cut off by the clock would never have cooled, so a trial finds out first how many fit. Where the trial came to
 * its end, proved its plan, was stopped, or made as many rounds as fit, it is the re-plan. `reportOf` gives what hears of a
 * search of so many rounds.
 */
export function replanIn(
  board: Board,
  wish: ReplanWish,
  { ms, clock }: LookTime,
  reportOf: (rounds: number) => ReplanReport,
): ReplanResult {
  const beganMs = clock();
  const report = reportOf(wish.iterations);
  const heard: Heard[] = [];
  let isCut = false;
  const trial = replan(board, wish, (done, best, bound) => {
    const atMs = clock();
    heard.push({ done, atMs });
    if (!report(done, best, bound)) return false;
    // One report says nothing of how long a round takes.
    isCut ||= heard.length > 1 && atMs >= beganMs + ms * TRIAL;
    return !isCut;
  });
  if (!isCut || trial.proved) return trial;
  const setUpMs = (heard[0]?.atMs ?? beganMs) - beganMs;
  const fit = roundsIn(ms - (clock() - beganMs) - setUpMs, heard);
  const rounds = Math.min(wish.iterations, fit);
  return rounds > trial.iterations ? replan(board, { ...wish, iterations: rounds }, reportOf(rounds)) : trial;
}

/** As many rounds as fit, by the second half of what was heard: the first is slower, the program has only just begun. */
function roundsIn(ms: number, heard: readonly Heard[]): number {
  const [first, middle, last] = [heard[0], heard[(heard.length - 1) >> 1], heard.at(-1)];
  if (!first || !middle || !last) return 0;
  // A proof makes no rounds.
  const from = middle.done < last.done ? middle : first;
  const eachMs = Math.max(1e-3, (last.atMs - from.atMs) / Math.max(1, last.done - from.done));
  return Math.floor(ms / eachMs);
}
