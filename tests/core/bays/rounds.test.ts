import { expect, test } from 'vitest';
import type { Board } from '#core/bays/rules/model.ts';
import { type ReplanReport, replan } from '#core/bays/rules/replan.ts';
import { replanIn } from '#core/bays/rules/rounds.ts';
import type { JobId } from '#core/shared/ids.ts';
import { filled } from '#tests/bench/bays.ts';

/** So many jobs with promises that none of them keeps; more than eight cannot be searched through. */
function crowdedBoard(cars: number): Board {
  const b = filled(4, 3, cars, 10);
  const jobs = [...b.jobs.values()].map((j) => ({
    ...j,
    promiseMin: (j.promiseMin ?? 0) - 1440,
    confirmed: true,
  }));
  return { ...b, jobs: new Map(jobs.map((j) => [j.id, j])) };
}
const b = crowdedBoard(20);
const wish = (iterations: number, of = b) => ({
  seed: 1,
  iterations,
  consent: new Set<JobId>(of.jobs.keys()),
});

/** A clock that is so many milliseconds further on whenever it is read. */
function clockOf(step: number): () => number {
  let now = 0;
  return () => {
    now += step;
    return now;
  };
}

/** A re-plan in a second by that clock, and for how many rounds each of its searches was made. */
function lookedBy(step: number, iterations: number, on = b, report: ReplanReport = () => true) {
  const searches: number[] = [];
  const found = replanIn(on, wish(iterations, on), { ms: 1000, clock: clockOf(step) }, (rounds) => {
    searches.push(rounds);
    return report;
  });
  return { searches, found };
}

test('as many rounds are made as fit into the time that the trial leaves, and give the same plan again', () => {
  // Read once in twenty rounds: a millisecond a round. The trial is over at its fifth report, 120 ms after the first
  // reading, and 20 ms more go for getting ready again: 860 ms are left of a second.
  const { searches, found } = lookedBy(20, 5000);
  expect([searches, found.iterations]).toEqual([[5000, 860], 860]);
  expect(found.after).toEqual(replan(b, wish(860)).after);
});

test('a board so slow that the trial hears but two reports is measured between them', () => {
  // Twenty rounds in 60 ms. Over at 120 ms after the first reading; 180 ms are spent, 60 go for getting ready: 760 are left.
  expect(lookedBy(60, 5000)).toMatchObject({ searches: [5000, 253], found: { iterations: 253 } });
  // Getting ready took longer than the trial may last, and one report tells nothing of the rounds: a second is waited for.
  expect(lookedBy(150, 5000)).toMatchObject({ searches: [5000, 53], found: { iterations: 53 } });
});

test('a trial that comes to its end, or makes as many rounds as fit, is the re-plan', () => {
  expect(b.jobs.size).toBeGreaterThan(8);
  const whole = lookedBy(0.001, 200);
  expect(whole.searches).toEqual([200]);
  expect(whole.found).toEqual(replan(b, wish(200)));
  expect(lookedBy(300, 5000)).toMatchObject({ searches: [5000], found: { iterations: 20 } });
});

test('so is one that proves its plan, and one that somebody stops', () => {
  const few = crowdedBoard(4);
  expect(lookedBy(0.001, 5000, few)).toMatchObject({ searches: [5000], found: { proved: true } });
  const stopped = lookedBy(0.001, 5000, b, (done) => done < 40);
  expect(stopped).toMatchObject({ searches: [5000], found: { iterations: 40 } });
});

test('never more rounds are made than are wished', () => {
  expect(lookedBy(20, 300)).toMatchObject({ searches: [300, 300], found: { iterations: 300 } });
});
