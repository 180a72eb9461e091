import { expect, test } from 'vitest';
import { type Board, finishOf, type JobPlan, type Piece, type Stay } from '#core/bays/rules/model.ts';
import { occupancyOf } from '#core/bays/rules/occupancy.ts';
import { placeJob } from '#core/bays/rules/offers.ts';
import { faultsOfBoard } from '#core/bays/rules/validate.ts';
import type { BayId, JobId, PersonId, StageId } from '#core/shared/ids.ts';
import type { BayKind, Skill } from '#core/shared/vocabulary.ts';
import { shopOf } from '#tests/bench/jobShop/graph.ts';
import { readInstance } from '#tests/bench/jobShop/read.ts';
import { search } from '#tests/bench/jobShop/search.ts';
import { PLAIN } from '#tests/reference/data/jobShops.ts';
import { board, job, person, place, plansOf, stage } from './boards.ts';

type Step = { readonly machine: number; readonly time: number };

/** A job-shop file as a board: each machine a bay and somebody, always open, room for all in the yard, no time to move. */
function asBoard(jobs: readonly (readonly Step[])[], machines: number): Board {
  const names = Array.from({ length: machines }, (_, m) => `m${m}`);
  const specs = jobs.map((steps, n) =>
    job(
      `j${n}`,
      steps.map(({ machine, time }, i) =>
        stage(`${n}/${i}`, time, { bayKinds: [`m${machine}` as BayKind], skill: `m${machine}` as Skill }),
      ),
      { number: n + 1 },
    ),
  );
  return board({
    places: [...names.map((m) => place(m, m as BayKind)), place('yard', 'yard', jobs.length)],
    technicians: names.map((m) => person(m, undefined, undefined, [m as Skill])),
    jobs: new Map(specs.map((j) => [j.id, j])),
    horizonMin: 2000,
  });
}

/** A car that waits in the yard between its steps. */
function asPlan(n: number, steps: readonly Step[], starts: readonly number[]): JobPlan {
  const pieces = steps.map(({ machine, time }, i): Piece => {
    const startMin = starts[i] ?? 0;
    const endMin = startMin + time;
    const ids = { stageId: `${n}/${i}` as StageId, bayId: `m${machine}` as BayId };
    return { ...ids, personIds: [`m${machine}` as PersonId], startMin, endMin, dwellEndMin: endMin };
  });
  const stays = pieces.flatMap(({ bayId, startMin, endMin }, i): Stay[] => {
    const before = pieces[i - 1]?.endMin ?? startMin;
    const waits = { bayId: 'yard' as BayId, arriveMin: before, leaveMin: startMin };
    return [...(before < startMin ? [waits] : []), { bayId, arriveMin: startMin, leaveMin: endMin }];
  });
  return { jobId: `j${n}` as JobId, stays, pieces };
}

// FT06: 55, Fisher & Thompson 1963, in Muth & Thompson, Industrial Scheduling.
test('where a waiting car blocks nothing the plain value of FT06 holds on the board: no exact placement of one car beats it', () => {
  const [ft06] = PLAIN;
  const instance = readInstance(ft06?.text ?? '');
  const { starts, makespan } = search(shopOf(instance), 1, 60_000, 55, () => false);
  const jobs = instance.jobs.map((steps) => steps.map((choices) => choices[0] as Step));
  let at = 0;
  const plans = jobs.map((steps, n) => {
    at += steps.length;
    return asPlan(n, steps, [...starts.slice(at - steps.length, at)]);
  });
  const b = { ...asBoard(jobs, instance.machines), plans: plansOf(plans) };
  expect([makespan, Math.max(...plans.map(finishOf)), faultsOfBoard(b)]).toEqual([55, 55, []]);
  // With any one of them put back wherever it is soonest, all together are never through before 55.
  for (const j of b.jobs.values()) {
    const occupancy = occupancyOf(b, new Set([j.id]), 0);
    const found = placeJob(b, occupancy, j, { people: null, holdUntilMin: 0, stages: j.stages });
    const ends = plans.map((p) => (p.jobId === j.id ? (found?.readyMin ?? 0) : finishOf(p)));
    expect(found?.readyMin).toBeLessThanOrEqual(finishOf(plans[j.number - 1] as JobPlan));
    expect(Math.max(...ends)).toBe(55);
  }
});
