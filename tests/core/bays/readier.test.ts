import { describe, expect, test } from 'vitest';
import type { Board, JobPlan, JobSpec } from '#core/bays/rules/model.ts';
import { placerOf } from '#core/bays/rules/placer.ts';
import { readierOf } from '#core/bays/rules/readier.ts';
import { simulateReady } from '#core/bays/rules/simulate.ts';
import type { BayId, JobId, PersonId, StageId } from '#core/shared/ids.ts';
import { type Random, seeded } from '#core/shared/random.ts';
import { board, job, person, place, stage } from './boards.ts';
import { DAYS, randomBoard } from './randomShop.ts';

const RUNS = 60;
const BOARDS = Number(process.env['RAKELIGHT_BOARDS'] ?? 120);

describe('placements of one job, played on from where the other cars are the same', () => {
  test('each is ready in every run just when it would be if it were simulated alone', () => {
    let compared = 0;
    for (let seed = 1; seed <= BOARDS; seed += 1) {
      const random = seeded(seed);
      const { b, target } = randomBoard(random);
      const plans = placements(b, target, random);
      const readyOf = readierOf(b, target, { seed, runs: RUNS }, { others: null });
      for (const plan of plans) {
        expect(readyOf(plan), `board ${seed}`).toEqual(alone(b, target, plan, seed));
      }
      compared += plans.length - 1;
    }
    expect(compared).toBeGreaterThan(BOARDS);
  });

  test('a car that an early placement is done before the next work of holds its bay for a later one', () => {
    const b = plannedBoard([
      planned('x', 'b0', ['ann', 0, 60], ['ann', 5000, 5060]),
      planned('z', 'b1', ['ann', 2000, 4000]),
      planned('y', 'b1', ['ben', 4000, 4100]),
    ]);
    const target = spread('t', 1);
    const readyOf = readierOf(b, target, { seed: 7, runs: RUNS }, { others: null });
    for (const at of [100, 4100]) {
      const { plan } = planned('t', 'b2', [at < 1000 ? 'cid' : 'ben', at, at + 100]);
      expect(readyOf(plan)).toEqual(alone(b, target, plan, 7));
    }
  });

  test('somebody who is long at it in a place for two cars is not free for the others meanwhile', () => {
    const b = plannedBoard([planned('z', 'b1', ['ann', 2000, 3000])], ['ann']);
    const target = spread('t', 2);
    const { plan } = planned('t', 'two', ['ann', 100, 1100], ['ann', 6000, 7000]);
    expect(readierOf(b, target, { seed: 7, runs: RUNS }, { others: null })(plan)).toEqual(
      alone(b, target, plan, 7),
    );
  });

  test('a job without work on the board is ready in no run', () => {
    const b = board({ places: [place('bay', 'correction')], technicians: [person('ann')] });
    const j = job('j', [stage('s', 30)]);
    expect(
      readierOf(b, j, { seed: 1, runs: RUNS }, { others: null })({ jobId: j.id, stays: [], pieces: [] }),
    ).toEqual([]);
  });
});

function alone(b: Board, target: JobSpec, plan: JobPlan, seed: number): readonly number[] | undefined {
  const jobs = new Map(b.jobs).set(target.id, target);
  const placed = { ...b, jobs, plans: new Map(b.plans).set(target.id, plan) };
  return simulateReady(placed, [target.id], seed, RUNS).get(target.id);
}

type Work = readonly [who: string, startMin: number, endMin: number];

/** A car that stands in one bay from its first work to its last. */
function planned(id: string, bay: string, ...works: readonly Work[]) {
  const bayId = bay as BayId;
  const pieces = works.map(([who, startMin, endMin], i) => {
    const stageId = `${id}${i}` as StageId;
    return { stageId, bayId, personIds: [who as PersonId], startMin, endMin, dwellEndMin: endMin };
  });
  const stay = { bayId, arriveMin: works[0]?.[1] ?? 0, leaveMin: works.at(-1)?.[2] ?? 0 };
  const plan: JobPlan = { jobId: id as JobId, stays: [stay], pieces };
  return { job: spread(id, works.length), plan };
}

function spread(id: string, stages: number): JobSpec {
  const own = Array.from({ length: stages }, (_, i) => stage(`${id}${i}`, 1000, { sigma: 0.9 }));
  return job(id, own, { number: id.charCodeAt(0) });
}

function plannedBoard(cars: readonly ReturnType<typeof planned>[], people = ['ann', 'ben', 'cid']): Board {
  return board({
    places: [...['b0', 'b1', 'b2'].map((id) => place(id, 'correction')), place('two', 'correction', 2)],
    technicians: people.map((id) => person(id)),
    horizonMin: 20_000,
    jobs: new Map(cars.map((c) => [c.job.id, c.job])),
    plans: new Map(cars.map((c) => [c.job.id, c.plan])),
  });
}

/** The job's places from several days on, in any order. */
function placements(b: Board, target: JobSpec, random: Random): readonly JobPlan[] {
  const placed = placerOf(b, target);
  const days = Array.from({ length: 6 }, () => Math.floor(random() * DAYS * 0.8));
  return days.flatMap((d) => placed({ notBeforeMin: d * 1440 })?.plan ?? []);
}
