import { describe, expect, test } from 'vitest';
import type { Board, JobPlan, JobSpec, Piece } from '#core/bays/rules/model.ts';
import { chanceBy, promiseSlot, quantile } from '#core/bays/rules/promise.ts';
import { simulateReady } from '#core/bays/rules/simulate.ts';
import type { BayId, JobId, PersonId } from '#core/shared/ids.ts';
import { board, job, open, person, place, stage } from './boards.ts';

type At = { readonly bay: string; readonly who: string; readonly from: number; readonly to: number };

/** A board of jobs of one stage each, placed by hand. */
function placed(b: Board, rows: readonly (readonly [JobSpec, readonly At[]])[]): Board {
  const plans = rows.map(([j, at]): [JobId, JobPlan] => {
    const pieces = at.map(
      (a, i): Piece => ({
        stageId: j.stages[i]?.id ?? j.stages[0]?.id ?? ('' as never),
        bayId: a.bay as BayId,
        personIds: [a.who as PersonId],
        startMin: a.from,
        endMin: a.to,
        dwellEndMin: a.to,
      }),
    );
    const stays = at.map((a) => ({ bayId: a.bay as BayId, arriveMin: a.from, leaveMin: a.to }));
    return [j.id, { jobId: j.id, stays, pieces }];
  });
  return { ...b, jobs: new Map(rows.map(([j]) => [j.id, j])), plans: new Map(plans) };
}
const ready = (b: Board, id: string, runs = 1) =>
  simulateReady(b, [id as JobId], 7, runs).get(id as JobId) ?? [];
const places = [place('bay', 'correction'), place('other', 'correction')];

describe('the time a car is ready, simulated', () => {
  test('without scatter it is the planned end, with the closed hours in between', () => {
    // 60 min from 30, hours 0–50 and 100–200: 20 before closing, 40 after: 140 by hand.
    const b = board({ places, technicians: [person('a', open([0, 50], [100, 200]))] });
    const j = job('j', [stage('s', 60)]);
    expect(ready(placed(b, [[j, [{ bay: 'bay', who: 'a', from: 30, to: 140 }]]]), 'j')).toEqual([140]);
  });

  test('work that may not be interrupted waits for the next opening that holds it', () => {
    const b = board({ places, technicians: [person('a', open([0, 50], [100, 200]))] });
    const j = job('j', [stage('s', 60, { splittable: false })]);
    expect(ready(placed(b, [[j, [{ bay: 'bay', who: 'a', from: 0, to: 60 }]]]), 'j')).toEqual([160]);
  });

  test('a car ahead that takes longer delays the one that needs its bay, which still has to be driven in', () => {
    // Planned 60 but taking 90; the next is driven in at 90, moved for 10, and takes its 30: 130.
    const b = board({
      places: [place('bay', 'correction')],
      technicians: [person('a'), person('c')],
      moveMin: 10,
    });
    const slow = job('slow', [stage('s1', 60, { mu: Math.log(90) })]);
    const next = job('next', [stage('s2', 30)]);
    const full = placed(b, [
      [slow, [{ bay: 'bay', who: 'a', from: 0, to: 60 }]],
      [next, [{ bay: 'bay', who: 'c', from: 70, to: 100 }]],
    ]);
    expect([ready(full, 'slow'), ready(full, 'next')]).toEqual([[90], [130]]);
  });

  test('a person held longer comes later to the next car, in whatever bay; a job on its own is not touched', () => {
    const b = board({ places, technicians: [person('a'), person('c')] });
    const slow = job('slow', [stage('s1', 60, { mu: Math.log(90) })]);
    const next = job('next', [stage('s2', 30)]);
    const full = placed(b, [
      [slow, [{ bay: 'bay', who: 'a', from: 0, to: 60 }]],
      [next, [{ bay: 'other', who: 'a', from: 60, to: 90 }]],
    ]);
    expect(ready(full, 'next')).toEqual([120]);
    const apart = placed(b, [
      [slow, [{ bay: 'bay', who: 'a', from: 0, to: 60 }]],
      [next, [{ bay: 'other', who: 'c', from: 60, to: 90 }]],
    ]);
    expect(ready(apart, 'next')).toEqual([90]);
  });

  test('another bay of the kind will do while its own is not free; the wash bay will not', () => {
    const slow = job('slow', [stage('s1', 60, { mu: Math.log(200) })]);
    const next = job('next', [stage('s2', 30)]);
    const where = (kind: 'correction' | 'wash') =>
      placed(
        board({
          places: [place('bay', 'correction'), place('other', kind)],
          technicians: [person('a'), person('c')],
          moveMin: 10,
        }),
        [
          [slow, [{ bay: 'bay', who: 'a', from: 0, to: 60 }]],
          [next, [{ bay: 'bay', who: 'c', from: 70, to: 100 }]],
        ],
      );
    expect([ready(where('correction'), 'next'), ready(where('wash'), 'next')]).toEqual([[100], [240]]);
  });

  test('a car that stands for days until its next work keeps its bay meanwhile, however much later that is', () => {
    // The next one's own bay is free at 400; the other only after the work at 5000, long after all else is planned to be over.
    const b = board({ places, technicians: [person('a'), person('b'), person('c')], horizonMin: 9000 });
    const stays = job('stays', [stage('s1', 100), stage('s2', 100)]);
    const slow = job('slow', [stage('s3', 200, { mu: Math.log(400) })]);
    const full = placed(b, [
      [stays, [0, 5000].map((from) => ({ bay: 'other', who: 'a', from, to: from + 100 }))],
      [slow, [{ bay: 'bay', who: 'b', from: 0, to: 200 }]],
      [job('next', [stage('s4', 100)]), [{ bay: 'bay', who: 'c', from: 200, to: 300 }]],
    ]);
    const stay = { bayId: 'other' as BayId, arriveMin: 0, leaveMin: 5100 };
    const plans = new Map(full.plans);
    plans.set(stays.id, { ...(plans.get(stays.id) as JobPlan), stays: [stay] });
    expect(ready({ ...full, plans }, 'next')).toEqual([500]);
  });

  test('somebody else who can do it takes over from who would keep a car waiting for more than half an hour', () => {
    const skills = [['wash'], ['correction']] as const;
    const [taken, waited] = skills.map((skill) => {
      const b = board({ places, technicians: [person('a'), person('c', undefined, 1_000_000, skill)] });
      const slow = job('slow', [stage('s1', 60, { mu: Math.log(200) })]);
      return ready(
        placed(b, [
          [slow, [{ bay: 'bay', who: 'a', from: 0, to: 60 }]],
          [job('next', [stage('s2', 30)]), [{ bay: 'other', who: 'a', from: 60, to: 90 }]],
        ]),
        'next',
      );
    });
    expect([taken, waited]).toEqual([[230], [90]]);
  });

  test('who waits for a car does the next one meanwhile', () => {
    // c takes 300 instead of 60, so a can begin the second stage at 300 only. The next car, 30 from 90, comes first.
    // At 100 a has just begun the next car and comes back at 120.
    const b = board({ places, technicians: [person('a'), person('c')] });
    const next = job('next', [stage('s3', 30)]);
    const full = (takes: number) =>
      placed(b, [
        [
          job('slow', [stage('s1', 60, { mu: Math.log(takes) }), stage('s2', 30)]),
          [
            { bay: 'bay', who: 'c', from: 0, to: 60 },
            { bay: 'bay', who: 'a', from: 60, to: 90 },
          ],
        ],
        [next, [{ bay: 'other', who: 'a', from: 90, to: 120 }]],
      ]);
    expect([ready(full(300), 'slow'), ready(full(300), 'next')]).toEqual([[330], [120]]);
    expect([ready(full(100), 'slow'), ready(full(100), 'next')]).toEqual([[150], [120]]);
  });

  test('work that runs waits for nobody, though another car stands where it does', () => {
    const b = board({
      places: [place('bay', 'correction')],
      technicians: [person('a'), person('c')],
      nowMin: 50,
    });
    const here = { kind: 'here', bayId: 'bay' as BayId, fromMin: 50 } as const;
    const running = (id: string) =>
      job(id, [stage(`${id}s`, 60, { state: 'inWork', workedMin: 50 })], { start: here });
    const full = placed(b, [
      [running('one'), [{ bay: 'bay', who: 'a', from: 0, to: 60 }]],
      [running('two'), [{ bay: 'bay', who: 'c', from: 0, to: 60 }]],
    ]);
    expect([ready(full, 'one'), ready(full, 'two')]).toEqual([[60], [60]]);
  });

  test('nobody starts before the plan says so, however quick the car ahead', () => {
    const b = board({ places, technicians: [person('a')] });
    const quick = job('quick', [stage('s1', 60, { mu: Math.log(20) })]);
    const next = job('next', [stage('s2', 30)]);
    const full = placed(b, [
      [quick, [{ bay: 'bay', who: 'a', from: 0, to: 60 }]],
      [next, [{ bay: 'bay', who: 'a', from: 60, to: 90 }]],
    ]);
    expect([ready(full, 'quick'), ready(full, 'next')]).toEqual([[20], [90]]);
  });

  test('work that outlasts the hours of who does it is never over, nor is what waits for the same person', () => {
    const b = board({ places, technicians: [person('a', open([0, 100]))] });
    const slow = job('slow', [stage('s1', 60, { mu: Math.log(300) })]);
    const full = placed(b, [
      [slow, [{ bay: 'bay', who: 'a', from: 0, to: 60 }]],
      [job('next', [stage('s2', 30)]), [{ bay: 'other', who: 'a', from: 60, to: 90 }]],
    ]);
    expect([ready(full, 'slow'), ready(full, 'next')]).toEqual([
      [Number.POSITIVE_INFINITY],
      [Number.POSITIVE_INFINITY],
    ]);
  });

  test('a car has the same luck, whatever else is on the board', () => {
    const b = board({ places, technicians: [person('a'), person('c')] });
    const rows = ['j', 'k'].map((id, i): readonly [JobSpec, readonly At[]] => [
      job(id, [stage(`${id}s`, 100, { sigma: 0.3 }), stage(`${id}t`, 100, { sigma: 0.3 })], {
        number: i + 1,
      }),
      [0, 100].map((from) => ({ bay: i ? 'bay' : 'other', who: i ? 'a' : 'c', from, to: from + 100 })),
    ]);
    const [both, alone] = [placed(b, rows), placed(b, rows.slice(1))];
    expect(ready(both, 'k', 50)).toEqual(ready(alone, 'k', 50));
    expect(ready(both, 'k', 50)).not.toEqual(ready(both, 'j', 50));
  });

  test('its quantiles are those of the lognormal it is drawn from', () => {
    // exp(ln 100 + z·0.3): P50 100, P80 128.7, P95 163.8 (z = 0.8416, 1.6449)
    const b = board({ places, technicians: [person('a')] });
    const j = job('j', [stage('s', 100, { sigma: 0.3 })]);
    const runs = ready(placed(b, [[j, [{ bay: 'bay', who: 'a', from: 0, to: 100 }]]]), 'j', 40_000);
    expect(quantile(runs, 500_000)).toBeCloseTo(100, -0.5);
    expect(Math.abs(quantile(runs, 800_000) - 128.7)).toBeLessThan(1.5);
    expect(Math.abs(quantile(runs, 950_000) - 163.8)).toBeLessThan(3);
  });

  test('a spread that all stages share adds up; one of each stage alone evens out', () => {
    // Fully shared: 2 · 100 · exp(0.8416 · 0.3) = 257.5. Apart, a long one seldom meets a long one.
    const b = board({ places, technicians: [person('a')] });
    const stages = [stage('s1', 100, { sigma: 0.3 }), stage('s2', 100, { sigma: 0.3 })];
    const at = [0, 100].map((from) => ({ bay: 'bay', who: 'a', from, to: from + 100 }));
    const p80 = (jobSigma: number) =>
      quantile(ready(placed(b, [[job('j', stages, { jobSigma }), at]]), 'j', 40_000), 800_000);
    expect(Math.abs(p80(0.3) - 257.5)).toBeLessThan(2.5);
    expect(p80(0)).toBeLessThan(p80(0.3) - 5);
  });

  test('of a stage that runs, only what is left is drawn, given how long it has taken', () => {
    // Lognormal ln 60, 0.5, known to be over 80: its median is 102.7, so 22.7 are left
    // (P(T > 80) = 0.2825; the upper 0.1413 begins at z = 1.0745, 60 · exp(0.537) = 102.7).
    const b = board({ places, technicians: [person('a')] });
    const j = job('j', [stage('s', 60, { state: 'inWork', workedMin: 80, sigma: 0.5 })]);
    const runs = ready(placed(b, [[j, [{ bay: 'bay', who: 'a', from: 0, to: 15 }]]]), 'j', 20_000);
    expect(Math.abs(quantile(runs, 500_000) - 22.7)).toBeLessThan(1.5);
  });

  test('the same seed gives the same runs, and another seed others', () => {
    // Two pieces: those of one alone are the quantiles themselves, whatever the seed.
    const b = board({ places, technicians: [person('a')] });
    const j = job('j', [stage('s', 100, { sigma: 0.3 }), stage('t', 100, { sigma: 0.3 })]);
    const at = [0, 100].map((from) => ({ bay: 'bay', who: 'a', from, to: from + 100 }));
    const full = placed(b, [[j, at]]);
    expect(ready(full, 'j', 50)).toEqual(ready(full, 'j', 50));
    expect(simulateReady(full, [j.id], 8, 50).get(j.id)).not.toEqual(ready(full, 'j', 50));
  });
});

describe('the promise', () => {
  const runs = [10, 20, 30, 40, 50, 60, 70, 80, 90, 100];

  test('is the first handover slot at which enough of the runs are ready', () => {
    const b = board({ places, technicians: [], slots: [15, 45, 75, 105] });
    expect(promiseSlot(b, runs, 800_000)).toBe(105);
    expect(promiseSlot(b, runs, 700_000)).toBe(75);
  });

  test('its chance counts the runs that are ready by then, the minute itself included', () => {
    expect([9, 10, 75, 100, 200].map((t) => chanceBy(runs, t))).toEqual([
      0, 100_000, 700_000, 1_000_000, 1_000_000,
    ]);
    expect(chanceBy([], 5)).toBe(0);
  });
});
