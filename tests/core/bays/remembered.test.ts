import { expect, test } from 'vitest';
import { subtract } from '#core/bays/rules/calendar.ts';
import type { Board, JobPlan, JobSpec, Technician } from '#core/bays/rules/model.ts';
import type { Memory } from '#core/bays/rules/others.ts';
import { placerOf } from '#core/bays/rules/placer.ts';
import { readierOf } from '#core/bays/rules/readier.ts';
import { simulateReady } from '#core/bays/rules/simulate.ts';
import type { JobId } from '#core/shared/ids.ts';
import { type Random, seeded } from '#core/shared/random.ts';
import { asOf, car, DAYS, randomBoard, withJob } from './randomShop.ts';

const RUNS = 30;
const SHOPS = Math.ceil(Number(process.env['RAKELIGHT_BOARDS'] ?? 120) / 3);
const CHANGES = 6;

test('what is remembered of a board that has changed gives just the chances of one that nothing is known of', () => {
  let compared = 0;
  let gone = 0;
  for (let seed = 1; seed <= SHOPS; seed += 1) {
    const random = seeded(seed);
    const memory: Memory = { others: null };
    let { b } = randomBoard(random);
    for (let n = 0; n < CHANGES; n += 1) {
      const asked = carAsked(b, 200 + n, random);
      const readyOf = readierOf(b, asked, { seed, runs: RUNS }, memory);
      for (const plan of placements(b, asked, random)) {
        expect(readyOf(plan), `shop ${seed}, change ${n}`).toEqual(alone(b, asked, plan, seed));
        compared += 1;
      }
      const stands = memory.others?.stands.length ?? 0;
      b = changed(b, 100 + n, random);
      readierOf(b, asked, { seed, runs: RUNS }, memory);
      if ((memory.others?.stands.length ?? 0) < stands) gone += 1;
    }
  }
  expect(compared).toBeGreaterThan(SHOPS * CHANGES);
  expect(gone).toBeLessThan(SHOPS * CHANGES * 0.5);
});

/** A new car mostly, else one that stands on the board already. */
function carAsked(b: Board, n: number, random: Random): JobSpec {
  const known = [...b.jobs.values()].filter((j) => j.start.kind === 'free');
  const one = known[Math.floor(random() * known.length)];
  return one && random() < 0.2 ? one : car(n, random, 0);
}

function alone(b: Board, target: JobSpec, plan: JobPlan, seed: number): readonly number[] {
  const jobs = new Map(b.jobs).set(target.id, target);
  const placed = { ...b, jobs, plans: new Map(b.plans).set(target.id, plan) };
  return simulateReady(placed, [target.id], seed, RUNS).get(target.id) ?? [];
}

function placements(b: Board, target: JobSpec, random: Random): readonly JobPlan[] {
  const placed = placerOf(b, target);
  const days = [0, 1, 2].map(() => Math.floor(random() * DAYS * 0.9));
  return days.flatMap((d) => placed({ notBeforeMin: d * 1440, comesEarly: random() < 0.4 })?.plan ?? []);
}

/** One thing more that may happen to a shop between two calls. */
function changed(b: Board, n: number, random: Random): Board {
  const ids = [...b.plans.keys()];
  const id = ids[Math.floor(random() * ids.length)];
  const job = id && b.jobs.get(id);
  const what = random();
  if (!job || what < 0.3) return withJob(b, car(n, random, Math.floor(random() * DAYS * 0.8) * 1440));
  if (what < 0.4) return without(b, id);
  if (what < 0.5) return withJob(without(b, id), { ...job, start: later(b, random) });
  if (what < 0.65) return longer(b, job, random);
  if (what < 0.7) return closed(b, random);
  if (what < 0.75) return away(b, random);
  return clockOn(b, random);
}

function without(b: Board, id: JobId): Board {
  const [plans, jobs] = [new Map(b.plans), new Map(b.jobs)];
  plans.delete(id);
  jobs.delete(id);
  return { ...b, plans, jobs };
}

function later(b: Board, random: Random): JobSpec['start'] {
  return { kind: 'free', notBeforeMin: b.nowMin + Math.floor(random() * DAYS * 700) };
}

/** The work of one car is estimated anew. */
function longer(b: Board, job: JobSpec, random: Random): Board {
  const at = Math.floor(random() * job.stages.length);
  const stages = job.stages.map((s, i) => (i === at ? { ...s, mu: s.mu + 0.4 } : s));
  return { ...b, jobs: new Map(b.jobs).set(job.id, { ...job, stages }) };
}

function closed(b: Board, random: Random): Board {
  const at = Math.floor(random() * b.places.length);
  const span = { startMin: b.nowMin + 3000, endMin: b.nowMin + 3600 };
  return { ...b, places: b.places.map((p, i) => (i === at ? { ...p, closed: [...p.closed, span] } : p)) };
}

/** Somebody is not there for some days. */
function away(b: Board, random: Random): Board {
  const at = Math.floor(random() * b.technicians.length);
  const startMin = b.nowMin + Math.floor(random() * 8) * 1440;
  const hours = (t: Technician) => subtract(t.hours, [{ startMin, endMin: startMin + 3000 }]);
  return { ...b, technicians: b.technicians.map((t, i) => (i === at ? { ...t, hours: hours(t) } : t)) };
}

/** Some minutes on, or a day: what was to be begun by then is done, runs, or waits still. */
function clockOn(b: Board, random: Random): Board {
  const nowMin = b.nowMin + (random() < 0.7 ? 1 + Math.floor(random() * 200) : 1440);
  const jobs = new Map([...b.jobs].map(([id, j]) => [id, asOf(b, j, nowMin, random)]));
  return { ...b, nowMin, jobs };
}
