import type { DayRow } from '#core/bays/rules/hours.ts';
import { type Random, seeded } from '#core/shared/random.ts';
import type { Purpose } from '#core/shared/views/bookings.ts';
import type { StageKind } from '#core/shared/vocabulary.ts';
import type { SimCar, SimStage } from './whatIfShop.ts';

/** A stage as it went, by what it was. */
export type PastStage = SimStage & { readonly kind: StageKind };

/** A job that was finished and collected, as the record has it. Instants are turned into lengths, in minutes. */
export type PastJob = {
  readonly purpose: Purpose;
  /** ISO weekday and minute of the day on which it was asked for. */
  readonly weekday: number;
  readonly minuteOfDay: number;
  /** From being asked for to coming. */
  readonly leadMin: number;
  /** From coming to being ready. */
  readonly stayMin: number;
  readonly fetchMin: number;
  readonly stages: readonly PastStage[];
  /** As it was recorded: minutes of the bay with somebody at the car, of all people at it, and open minutes of cure. */
  readonly workMin: number;
  readonly handsMin: number;
  readonly cureMin: number;
  /** Open minutes it was promised for, and took; null = no promise. */
  readonly promisedMin: number | null;
  readonly tookMin: number;
  readonly netMinor: number;
  readonly materialMinor: number;
};

/**
 * How the shop runs its book. `lead` and `pause`: what share of the recorded waits for a date, and of the pauses in the
 * shop, stays whatever the shop has: 1 = all of it, 0 = the full shop alone was the reason. `promise`: promises are so many
 * times as long as drawn, since the desk makes them with the board in view and the draw does not.
 */
export type Habits = { readonly lead: number; readonly pause: number; readonly promise: number };

/** Who asks: jobs to draw from, by kind of job and as likely as `share` says, `perWeek` in all. */
export type Asks = {
  readonly jobs: readonly PastJob[];
  readonly weeks: number;
  /** 1 = as many as came. */
  readonly times: number;
  /** Share of each kind of job, adding up to 1. */
  readonly shares: ReadonlyMap<Purpose, number>;
};

/** A car of one run with the job it was drawn from. */
export type DrawnCar = SimCar & { readonly job: PastJob };

/** Days of one run differ by this many seeds, runs by this many: each day draws for itself. */
const SEED_STRIDE = 10_007;

/**
 * The cars of one run: on each day as many as a Poisson draw by that weekday's rate says, each a job from the record
 * drawn with replacement, with all its stages, so that a hard car is hard in all of them. The same seed draws the same
 * cars whatever the shop has, and a day with one more keeps the others: before and after differ by the change alone.
 * In the order in which they would come.
 */
export function drawCars(
  asks: Asks,
  days: readonly DayRow[],
  habits: Habits,
  seed: number,
): readonly DrawnCar[] {
  const groups = groupsOf(asks);
  const perDay = ratesOf(asks);
  const cars = days.flatMap((day, i) => {
    const random = seeded((seed * SEED_STRIDE + i) >>> 0);
    const asked = poisson(random(), (perDay[day.weekday] ?? 0) * asks.times);
    return Array.from({ length: asked }, () => carOf(jobOf(groups, random), day, habits));
  });
  return cars.sort((a, b) => a.fromMin - b.fromMin);
}

/** The kinds of jobs one after the other on a scale from 0 to 1. */
function groupsOf({ jobs, shares }: Asks) {
  let upTo = 0;
  return [...shares].map(([purpose, share]) => {
    upTo += share;
    return { upTo, jobs: jobs.filter((j) => j.purpose === purpose) };
  });
}

/** Asks a day by ISO weekday. */
function ratesOf({ jobs, weeks }: Asks): readonly number[] {
  const rates = Array.from({ length: 8 }, () => 0);
  for (const job of jobs) rates[job.weekday] = (rates[job.weekday] ?? 0) + 1 / weeks;
  return rates;
}

/** Two draws each, whichever job it becomes, so that another mix leaves what follows as it was. */
function jobOf(
  groups: readonly { readonly upTo: number; readonly jobs: readonly PastJob[] }[],
  random: Random,
): PastJob {
  const [which, one] = [random(), random()];
  const group = groups.find((g) => which < g.upTo) ?? groups.at(-1);
  const jobs = group?.jobs ?? [];
  return jobs[Math.floor(one * jobs.length)] as PastJob;
}

function carOf(job: PastJob, day: DayRow, habits: Habits): DrawnCar {
  const askedMin = Math.min(day.startMin + job.minuteOfDay, day.endMin - 1);
  const stages = job.stages.map((s) => ({ ...s, pauseMin: s.pauseMin * habits.pause }));
  return { job, askedMin, fromMin: askedMin + job.leadMin * habits.lead, stages, fetchMin: job.fetchMin };
}

/**
 * A Poisson draw from one uniform number `u` in [0, 1) by adding up probabilities: a higher `mean` never gives less.
 * @source inversion by sequential search, L. Devroye, Non-Uniform Random Variate Generation (1986), X.3.3, from memory
 */
export function poisson(u: number, mean: number): number {
  let n = 0;
  let p = Math.exp(-mean);
  for (let sum = p; u >= sum && p > 0; sum += p) {
    n += 1;
    p *= mean / n;
  }
  return n;
}
