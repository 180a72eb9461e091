import { expect, test } from 'vitest';
import { add } from '#core/bays/rules/calendar.ts';
import { offersFor } from '#core/bays/rules/choices.ts';
import type { Board, JobPlan, JobSpec, StageSpec } from '#core/bays/rules/model.ts';
import type { JobId } from '#core/shared/ids.ts';
import { normal, type Random, seeded } from '#core/shared/random.ts';
import { board, job, open, person, place, stage } from './boards.ts';

const WEEKS = Number(process.env['RAKELIGHT_WEEKS'] ?? 400);
const DAYS = 21;
const JOB_SIGMA = 0.15;

/** A shop of three bays and two people, 8 to 12 and 13 to 17 each day; cars are handed over at any minute. */
function emptyShop(): Board {
  const day = (d: number): [number, number][] => [
    [d * 1440 + 480, d * 1440 + 720],
    [d * 1440 + 780, d * 1440 + 1020],
  ];
  const hours = open(...Array.from({ length: DAYS }, (_, d) => day(d)).flat());
  return board({
    places: [
      place('w', 'wash'),
      place('c', 'correction'),
      place('p', 'protection'),
      place('yard', 'yard', 6),
    ],
    technicians: [person('a', hours), person('b', hours)],
    horizonMin: DAYS * 1440,
  });
}

function car(n: number, random: Random): JobSpec {
  const of = (
    id: string,
    bay: 'wash' | 'correction' | 'protection',
    min: number,
    sigma: number,
    dwellMin = 0,
  ) => stage(`${id}${n}`, min, { bayKinds: [bay], skill: bay, sigma, dwellMin });
  const stages = [
    of('w', 'wash', 40 + Math.floor(random() * 30), 0.2),
    of('c', 'correction', 120 + Math.floor(random() * 240), 0.35),
    of('p', 'protection', 50, 0.2, random() < 0.4 ? 300 : 0),
  ];
  return job(`j${n}`, stages, { number: n, jobSigma: JOB_SIGMA });
}

/**
 * What really happens: durations are drawn anew, everybody takes up the planned pieces in their planned order. Its own
 * code, minute by minute where it matters; it shares the calendar and nothing else with the simulation it judges.
 */
function happens(b: Board, random: Random): ReadonlyMap<JobId, number> {
  const pieces = [...b.plans.values()].flatMap((p) =>
    p.pieces.map((piece) => ({ ...piece, jobId: p.jobId })),
  );
  pieces.sort((x, y) => x.startMin - y.startMin);
  const free = new Map<string, number>();
  const hard = new Map<JobId, number>();
  const done = new Map<JobId, number>();
  for (const p of pieces) {
    const spec = b.jobs.get(p.jobId)?.stages.find((s) => s.id === p.stageId) as StageSpec;
    if (!hard.has(p.jobId)) hard.set(p.jobId, normal(random) * JOB_SIGMA);
    const own = normal(random) * Math.sqrt(spec.sigma ** 2 - JOB_SIGMA ** 2);
    const minutes = Math.round(Math.exp(spec.mu + (hard.get(p.jobId) ?? 0) + own));
    const who = b.technicians.find((t) => p.personIds.includes(t.id));
    if (!who) continue;
    const start = Math.max(p.startMin, done.get(p.jobId) ?? 0, free.get(p.bayId) ?? 0, free.get(who.id) ?? 0);
    const end = add(who.hours, start, Math.max(1, minutes));
    free.set(who.id, end);
    free.set(p.bayId, end + spec.dwellMin);
    done.set(p.jobId, end + spec.dwellMin);
  }
  return done;
}

test(`of the promises made over ${WEEKS} weeks, 80 % ± 3 are kept`, { timeout: 300_000 }, () => {
  const random = seeded(41);
  let [kept, made] = [0, 0];
  for (let week = 0; week < WEEKS; week += 1) {
    let b = emptyShop();
    const promises = new Map<JobId, number>();
    for (let n = 0; n < 6; n += 1) {
      const j = car(n, random);
      const wish = { notBeforeMin: n * 700, technicianId: null, day: null, count: 1, levelPpm: 800_000 };
      const [choice] = offersFor(b, j, wish);
      if (!choice) continue;
      promises.set(j.id, choice.pickUpMin);
      const plan: JobPlan = choice.placement.plan;
      b = { ...b, jobs: new Map(b.jobs).set(j.id, j), plans: new Map(b.plans).set(j.id, plan) };
    }
    const ready = happens(b, random);
    for (const [id, at] of promises) {
      made += 1;
      if ((ready.get(id) ?? Number.POSITIVE_INFINITY) <= at) kept += 1;
    }
  }
  expect(made).toBeGreaterThan(WEEKS * 5);
  const share = (100 * kept) / made;
  expect(share).toBeGreaterThan(77);
  expect(share).toBeLessThan(83);
});
