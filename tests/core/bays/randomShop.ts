import { calendarOf, type Span } from '#core/bays/rules/calendar.ts';
import type { Board, JobSpec, StageSpec } from '#core/bays/rules/model.ts';
import { occupancyOf } from '#core/bays/rules/occupancy.ts';
import { placeJob } from '#core/bays/rules/offers.ts';
import type { BayId } from '#core/shared/ids.ts';
import type { Random } from '#core/shared/random.ts';
import { board, job, person, place, stage } from './boards.ts';

/** Days over which the cars of a random shop come. */
export const DAYS = 24;

/** A shop some way into its plan: cars that stand there, one that is being worked on, and a job to be placed among them. */
export function randomBoard(random: Random): { readonly b: Board; readonly target: JobSpec } {
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

export function withJob(b: Board, j: JobSpec): Board {
  const wish = { people: null, holdUntilMin: 0, stages: j.stages, comesEarly: j.number % 3 === 0 };
  const found = placeJob(b, occupancyOf(b, new Set([j.id]), b.nowMin), j, wish);
  if (!found) return b;
  return { ...b, jobs: new Map(b.jobs).set(j.id, j), plans: new Map(b.plans).set(j.id, found.plan) };
}

export function car(n: number, random: Random, notBeforeMin: number): JobSpec {
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
export function asOf(b: Board, j: JobSpec, nowMin: number, random: Random): JobSpec {
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
