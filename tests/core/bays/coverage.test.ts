import { expect, test } from 'vitest';
import { add, isOpen } from '#core/bays/rules/calendar.ts';
import { offersFor } from '#core/bays/rules/choices.ts';
import type { Board, JobPlan, JobSpec, StageSpec } from '#core/bays/rules/model.ts';
import type { JobId } from '#core/shared/ids.ts';
import { normal, type Random, seeded } from '#core/shared/random.ts';
import { board, job, open, person, place, stage } from './boards.ts';

const WEEKS = Number(process.env['RAKELIGHT_WEEKS'] ?? 200);
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
 * What really happens, minute by minute: durations are drawn anew; whoever is idle begins the earliest planned piece
 * whose car and bay are free, and stands in for somebody who is held for more than half an hour. Its own code; it
 * shares nothing but the calendar's reading of hours with the simulation it judges.
 */
function happens(b: Board, random: Random): ReadonlyMap<JobId, number> {
  const todo = drawnPieces(b, random);
  const free = new Map<string, number>();
  const done = new Map<JobId, number>();
  const until = (id: string): number => free.get(id) ?? 0;
  const at = (id: string, t: number): boolean =>
    b.technicians.some((p) => p.id === id && isOpen(p.hours, t)) && until(id) <= t;
  for (let t = 0; todo.length > 0 && t < DAYS * 1440; t += 1) {
    if (!b.technicians.some((p) => isOpen(p.hours, t))) continue;
    for (const p of [...todo]) {
      if (p.startMin > t) break;
      const first = todo.find((q) => q.jobId === p.jobId) === p;
      if (!first || (done.get(p.jobId) ?? 0) > t || until(p.bayId) > t) continue;
      const own = p.personIds[0] ?? '';
      const others = b.technicians.map((x) => x.id).filter((id) => id !== own && at(id, t));
      const who = at(own, t) ? own : until(own) > t + 30 ? others[0] : undefined;
      const hours = b.technicians.find((x) => x.id === who)?.hours;
      if (!who || !hours) continue;
      const end = add(hours, t, p.minutes);
      free.set(who, end);
      free.set(p.bayId, end + p.dwell);
      done.set(p.jobId, end + p.dwell);
      todo.splice(todo.indexOf(p), 1);
    }
  }
  return done;
}

/** The planned pieces in planned order, with the minutes that each will really take. */
function drawnPieces(b: Board, random: Random) {
  const hard = new Map<JobId, number>();
  return [...b.plans.values()]
    .flatMap((plan) => plan.pieces.map((piece) => ({ ...piece, jobId: plan.jobId })))
    .sort((x, y) => x.startMin - y.startMin)
    .map((p) => {
      const spec = b.jobs.get(p.jobId)?.stages.find((s) => s.id === p.stageId) as StageSpec;
      if (!hard.has(p.jobId)) hard.set(p.jobId, normal(random) * JOB_SIGMA);
      const own = normal(random) * Math.sqrt(spec.sigma ** 2 - JOB_SIGMA ** 2);
      const minutes = Math.max(1, Math.round(Math.exp(spec.mu + (hard.get(p.jobId) ?? 0) + own)));
      return { ...p, minutes, dwell: spec.dwellMin };
    });
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
