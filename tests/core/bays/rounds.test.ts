import { expect, test } from 'vitest';
import type { Board } from '#core/bays/rules/model.ts';
import { replan } from '#core/bays/rules/replan.ts';
import { roundsIn } from '#core/bays/rules/rounds.ts';
import type { JobId } from '#core/shared/ids.ts';
import { filled } from '#tests/bench/bays.ts';

/** Twenty jobs, more than can be searched through, with promises that none of them keeps. */
function crowdedBoard(): Board {
  const b = filled(4, 3, 20, 10);
  const jobs = [...b.jobs.values()].map((j) => ({
    ...j,
    promiseMin: (j.promiseMin ?? 0) - 1440,
    confirmed: true,
  }));
  return { ...b, jobs: new Map(jobs.map((j) => [j.id, j])) };
}
const b = crowdedBoard();
const wish = (iterations: number) => ({ seed: 1, iterations, consent: new Set<JobId>(b.jobs.keys()) });

/** A clock that is so many milliseconds further on whenever it is read. */
function clockOf(step: number): () => number {
  let now = 0;
  return () => {
    now += step;
    return now;
  };
}

test('as many rounds are made as fit into the time that the trial leaves', () => {
  // Read twice in twenty rounds: 2 ms a round. The trial is over at its third report, 140 ms after the first reading, and
  // 20 ms more go for getting ready again: 840 ms are left of a second.
  expect(roundsIn(b, wish(5000), 1000, clockOf(20))).toBe(420);
});

test('never more than are wished, and with time for all of them just as many', () => {
  expect(b.jobs.size).toBeGreaterThan(8);
  expect(roundsIn(b, wish(200), 1000, clockOf(0.001))).toBe(200);
  expect(roundsIn(b, wish(300), 1000, clockOf(20))).toBe(300);
});

test('the rounds that were found give the same plan whenever they are made', () => {
  const { after, iterations } = replan(b, wish(60));
  expect(replan(b, wish(iterations)).after).toEqual(after);
});
