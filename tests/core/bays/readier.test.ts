import { describe, expect, test } from 'vitest';
import { calendarOf, type Span } from '#core/bays/rules/calendar.ts';
import type { Board, JobPlan, JobSpec, StageSpec } from '#core/bays/rules/model.ts';
import { occupancyOf } from '#core/bays/rules/occupancy.ts';
import { placeJob } from '#core/bays/rules/offers.ts';
import { placerOf } from '#core/bays/rules/placer.ts';
import { readierOf } from '#core/bays/rules/readier.ts';
import { simulateReady } from '#core/bays/rules/simulate.ts';
import type { BayId, JobId, PersonId, StageId } from '#core/shared/ids.ts';
import { type Random, seeded } from '#core/shared/random.ts';
import { board, job, person, place, stage } from './boards.ts';

const DAYS = 24;
const RUNS = 60;
const BOARDS = Number(process.env['RAKELIGHT_BOARDS'] ?? 120);

describe('placements of one job, played on from where the other cars are the same', () => {
  test('each is ready in every run just when it would be if it were simulated alone', () => {
    let compared = 0;
    for (let seed = 1; seed <= BOARDS; seed += 1) {
      const random = seeded(seed);
      const { b, target } = randomBoard(random);
      const plans = placements(b, target, random);
      const readyOf = readierOf(b, target, seed, RUNS);
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
    const readyOf = readierOf(b, target, 7, RUNS);
    for (const at of [100, 4100]) {
      const { plan } = planned('t', 'b2', [at < 1000 ? 'cid' : 'ben', at, at + 100]);
      expect(readyOf(plan)).toEqual(alone(b, target, plan, 7));
    }
  });

  test('somebody who is long at it in a place for two cars is not free for the others meanwhile', () => {
    const b = plannedBoard([planned('z', 'b1', ['ann', 2000, 3000])], ['ann']);
    const target = spread('t', 2);
    const { plan } = planned('t', 'two', ['ann', 100, 1100], ['ann', 6000, 7000]);
    expect(readierOf(b, target, 7, RUNS)(plan)).toEqual(alone(b, target, plan, 7));
  });

  test('a job without work on the board is ready in no run', () => {
    const b = board({ places: [place('bay', 'correction')], technicians: [person('ann')] });
    const j = job('j', [stage('s', 30)]);
    expect(readierOf(b, j, 1, RUNS)({ jobId: j.id, stays: [], pieces: [] })).toEqual([]);
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

/** A shop some way into its plan: cars that stand there, one that is being worked on, and a job to be placed among them. */
function randomBoard(random: Random): { readonly b: Board; readonly target: JobSpec } {
  const empty = emptyBoard(1 + Math.floor(random() * 4), 1 + Math.floor(random() * 4), random);
  const count = Math.floor(random() * 22);
  const full = Array.from({ length: count }, (_, n) => n).reduce(
    (b, n) => withJob(b, car(n, random, Math.floor(random() * DAYS * 0.6) * 1440)),
    empty,
  );
  const nowMin = random() < 0.3 ? 0 : 1440 * Math.floor(random() * 6) + 480 + Math.floor(random() * 500);
  const target = car(99, random, 0);
  const b = {
    ...full,
    nowMin,
    jobs: new Map([...full.jobs].map(([id, j]) => [id, asOf(full, j, nowMin, random)])),
  };
  const bayId = b.places[Math.floor(random() * b.places.length)]?.id as BayId;
  return random() < 0.7
    ? { b, target }
    : { b, target: { ...target, start: { kind: 'here', bayId, fromMin: nowMin } } };
}

function emptyBoard(bays: number, people: number, random: Random): Board {
  const each = (from: number, to: number): Span[] =>
    Array.from({ length: DAYS + 20 }, (_, d) => ({
      startMin: d * 1440 + from,
      endMin: d * 1440 + to,
    })).filter((_, d) => d % 7 !== 6);
  const kinds = ['correction', 'correction', 'wash', 'protection'] as const;
  const shifts = calendarOf([...each(480, 720), ...each(750, 1020)]);
  return board({
    places: [
      ...Array.from({ length: bays }, (_, i) => place(`b${i}`, kinds[i] ?? 'correction', 1, 5)),
      place('w', 'wash'),
      place('p', 'protection'),
      place('yard', 'yard', 1 + Math.floor(random() * 4)),
    ],
    technicians: Array.from({ length: people }, (_, i) => person(`p${i}`, shifts, 800_000 + i * 150_000)),
    horizonMin: (DAYS + 20) * 1440,
    ...{ open: calendarOf(each(450, 1080)), desk: calendarOf(each(480, 1050)), moveMin: 10 },
    slots: each(480, 1050).flatMap((s) => Array.from({ length: 38 }, (_, k) => s.startMin + k * 15)),
  });
}

function withJob(b: Board, j: JobSpec): Board {
  const wish = { people: null, holdUntilMin: 0, stages: j.stages, comesEarly: j.number % 3 === 0 };
  const found = placeJob(b, occupancyOf(b, new Set([j.id]), b.nowMin), j, wish);
  if (!found) return b;
  return { ...b, jobs: new Map(b.jobs).set(j.id, j), plans: new Map(b.plans).set(j.id, found.plan) };
}

function car(n: number, random: Random, notBeforeMin: number): JobSpec {
  const of = (
    id: string,
    bay: 'wash' | 'correction' | 'protection',
    min: number,
    more: Partial<StageSpec> = {},
  ) =>
    stage(`${id}${n}`, min, {
      bayKinds: [bay],
      skill: bay,
      sigma: 0.35,
      splittable: random() < 0.7,
      ...more,
    });
  const stages = [
    of('w', 'wash', 30 + Math.floor(random() * 60)),
    of('c', 'correction', 60 + Math.floor(random() * 400), {
      crew: random() < 0.15 ? 2 : 1,
      splittable: true,
    }),
    of('r', 'correction', 60 + Math.floor(random() * 120)),
    of('p', 'protection', 45, { dwellMin: random() < 0.5 ? 720 : 60 }),
  ];
  const some = stages.filter(() => random() < 0.8);
  const start = { kind: 'free', notBeforeMin } as const;
  return job(`j${n}`, some.length > 0 ? some : stages, { number: n, jobSigma: 0.15, start });
}

/** A job as it stands at a minute: what is planned before is done, what is planned now is in work. */
function asOf(b: Board, j: JobSpec, nowMin: number, random: Random): JobSpec {
  const pieces = b.plans.get(j.id)?.pieces ?? [];
  const stages = j.stages.map((s): StageSpec => {
    const own = pieces.filter((p) => p.stageId === s.id);
    if (own.every((p) => p.endMin <= nowMin) && random() < 0.9) return { ...s, state: 'done' };
    const runs = own.some((p) => p.startMin <= nowMin && nowMin < p.endMin);
    return runs ? { ...s, state: 'inWork', workedMin: 1 + Math.floor(s.labourMin / 2) } : s;
  });
  const stay = b.plans.get(j.id)?.stays.find((s) => s.arriveMin <= nowMin && nowMin < s.leaveMin);
  return { ...j, stages, start: stay ? { kind: 'here', bayId: stay.bayId, fromMin: nowMin } : j.start };
}
