import { calendarOf, intersect, type Span } from '#core/bays/rules/calendar.ts';
import type { Board, JobPlan, JobSpec } from '#core/bays/rules/model.ts';
import { occupancyOf } from '#core/bays/rules/occupancy.ts';
import { placeJob } from '#core/bays/rules/offers.ts';
import { replan } from '#core/bays/rules/replan.ts';
import { replanIn } from '#core/bays/rules/rounds.ts';
import { simulateReady } from '#core/bays/rules/simulate.ts';
import type { JobId } from '#core/shared/ids.ts';
import { type Random, seeded } from '#core/shared/random.ts';
import { board, job, person, place, stage } from '#tests/core/bays/boards.ts';
import { type BenchRow, ms, timed } from './measure.ts';
import { offerRows } from './offerAsks.ts';

/** The bay board: offers, their probabilities, and the re-plan, on shops of two sizes filled by a fixed seed. */
export async function rows(): Promise<readonly BenchRow[]> {
  const small = filled(7, 5, 60, 28);
  const large = filled(12, 10, 400, 84);
  return [
    ...(await offerRows('7 bays, 5 people, 60 jobs', small, '< 20 ms')),
    ...(await offerRows('12 bays, 10 people, 400 jobs', large, 'p95 < 10 ms')),
    ...(await simulated(small)),
    ...replanRows(small),
  ];
}

export function placeOne(b: Board, j: JobSpec) {
  const occupancy = occupancyOf(b, new Set([j.id]), b.nowMin);
  return placeJob(b, occupancy, j, { people: null, holdUntilMin: 0, stages: j.stages });
}

async function simulated(b: Board): Promise<readonly BenchRow[]> {
  const ids = [...b.jobs.keys()];
  const every = await timed(10, () => simulateReady(b, ids, 20, 1000));
  const pieces = [...b.plans.values()].reduce((sum, p) => sum + p.pieces.length, 0);
  const each = (every.p50 * 1_000_000) / (1000 * pieces);
  return [
    {
      what: `how sure all ${ids.length} promises are, 1,000 runs`,
      measured: both(every),
      beside: `${each.toFixed(0)} ns a piece and run`,
    },
  ];
}

/** A third of the promises pulled forward, so that there is something to gain. */
function replanRows(full: Board): readonly BenchRow[] {
  const jobs = new Map(
    [...full.jobs].map(([id, j], i): [JobId, JobSpec] => [
      id,
      { ...j, promiseMin: (j.promiseMin ?? 0) - (i % 3 === 0 ? 2880 : 0), confirmed: true },
    ]),
  );
  const b: Board = { ...full, jobs };
  const consent = new Set(jobs.keys());
  const { late, rule } = bestRule(b);
  const clock = (): number => performance.now();
  return [0.2, 2, 20].flatMap((seconds) => {
    const wish = { seed: 1, iterations: 200_000, consent };
    const start = clock();
    const cut = replan(b, wish, () => clock() < start + seconds * 1000);
    const cutMs = clock() - start;
    const began = clock();
    const inTime = (): boolean => clock() < began + seconds * 1000;
    const cooled = replanIn(b, wish, { ms: seconds * 1000, clock }, () => inTime);
    const row = (how: string, found: typeof cut, took: number): BenchRow => ({
      what: `re-plan of ${jobs.size} jobs in ${seconds} s, ${how}, minutes late`,
      measured: `${found.before.lateMin} → ${found.after.lateMin} in ${ms(took)}`,
      beside: `best rule (${rule}) ${late}, none can be better than ${found.bound.lateMin}; ${found.iterations} rounds`,
    });
    return [row('cut off by the clock', cut, cutMs), row('by the rounds that fit', cooled, clock() - began)];
  });
}

/** Dispatch rules that need no search: every job placed at its earliest, in the order of one key. */
function bestRule(b: Board): { readonly late: number; readonly rule: string } {
  const work = (j: JobSpec): number => j.stages.reduce((sum, s) => sum + s.labourMin + s.dwellMin, 0);
  const rules: Readonly<Record<string, (j: JobSpec) => number>> = {
    'earliest promise': (j) => j.promiseMin ?? 0,
    'least slack': (j) => (j.promiseMin ?? 0) - work(j),
    'shortest work': work,
  };
  const tried = Object.entries(rules).map(([rule, key]) => {
    const empty = { ...b, plans: new Map() };
    const occupancy = occupancyOf(empty, new Set(), b.nowMin);
    let late = 0;
    for (const j of [...b.jobs.values()].sort((x, y) => key(x) - key(y))) {
      const found = placeJob(b, occupancy, j, { people: null, holdUntilMin: 0, stages: j.stages });
      if (!found) continue;
      occupancy.put(found.plan);
      late += Math.max(0, found.readyMin - (j.promiseMin ?? 0));
    }
    return { rule, late };
  });
  return tried.reduce((a, c) => (c.late < a.late ? c : a));
}

export function both(t: { readonly p50: number; readonly p95: number }): string {
  return `${ms(t.p50)}, p95 ${ms(t.p95)}`;
}

/** A shop open 7:30 to 18:00 on six days of the week, filled with cars that come a steady way apart. */
export function filled(bays: number, people: number, jobs: number, days: number): Board {
  const each = (from: number, to: number): Span[] =>
    Array.from({ length: days + 28 }, (_, d) => ({
      startMin: d * 1440 + from,
      endMin: d * 1440 + to,
    })).filter((_, d) => d % 7 !== 6);
  const open = calendarOf(each(450, 1080));
  const desk = calendarOf(each(480, 1050));
  const slots = desk.starts.flatMap((s, i) =>
    Array.from({ length: Math.floor(((desk.ends[i] ?? s) - s) / 15) }, (_, k) => s + k * 15),
  );
  const shifts = intersect(open, calendarOf([...each(480, 720), ...each(750, 1020)]));
  const kinds = ['correction', 'wash', 'correction', 'protection'] as const;
  let b = board({
    places: [
      ...Array.from({ length: bays }, (_, i) => place(`b${i}`, kinds[i % 4] ?? 'correction', 1, 5)),
      place('yard', 'yard', Math.ceil(bays / 2)),
    ],
    technicians: Array.from({ length: people }, (_, i) =>
      person(`p${i}`, shifts, 900_000 + (i % 3) * 100_000),
    ),
    horizonMin: (days + 28) * 1440,
    ...{ open, desk, slots, moveMin: 10 },
  });
  const random = seeded(4);
  for (let n = 0; n < jobs; n += 1) {
    const from = Math.floor((n / jobs) * (days - 2)) * 1440;
    const j = car(n, random, from);
    const found = placeOne(b, j);
    if (!found) continue;
    const plans = new Map<JobId, JobPlan>(b.plans).set(j.id, found.plan);
    b = { ...b, plans, jobs: new Map(b.jobs).set(j.id, { ...j, promiseMin: found.pickUpMin }) };
  }
  return b;
}

export function car(n: number, random: Random, notBeforeMin = 0): JobSpec {
  const of = (id: string, bay: 'wash' | 'correction' | 'protection', min: number, dwellMin = 0) =>
    stage(`${id}${n}`, min, { bayKinds: [bay], skill: bay, sigma: 0.3, dwellMin });
  const stages = [
    of('w', 'wash', 45 + Math.floor(random() * 45)),
    of('c', 'correction', 120 + Math.floor(random() * 240)),
    of('r', 'correction', 60 + Math.floor(random() * 120)),
    of('p', 'protection', 45, random() < 0.5 ? 720 : 60),
  ];
  return job(`j${n}`, stages, { number: n, jobSigma: 0.15, start: { kind: 'free', notBeforeMin } });
}
