import { openBetween } from '#core/bays/rules/calendar.ts';
import { meanOf } from '#core/shared/statistics.ts';
import type { Band, WhatIfMeasure } from '#core/shared/views/whatIf.ts';
import type { DrawnCar, PastJob } from './whatIfAsks.ts';
import type { SimRun, SimShop } from './whatIfShop.ts';

export type Measures = Readonly<Record<WhatIfMeasure, number>>;
export type Span = { readonly fromMin: number; readonly toMin: number };
const DAY_MIN = 1440;
const WEEK_MIN = 7 * DAY_MIN;

/** What prices and costs are taken to be: prices times, and minor units a week that the change costs. */
export type Money = { readonly priceTimes: number; readonly costWeekMinor: number };
type Given = Money & { readonly promise: number };

/** Open minutes of the bays, and minutes of people's hours, in a stretch of time. The yard is room, not a bay. */
export function offeredOf(
  shop: SimShop,
  span: Span,
): { readonly bayMin: number; readonly peopleMin: number } {
  const open = openBetween(shop.open, span.fromMin, span.toMin);
  const bayMin = shop.places
    .filter((p) => p.kind !== 'yard')
    .reduce((sum, p) => sum + open - shutMin(shop, p.shut, span), 0);
  const peopleMin = shop.people.reduce((sum, p) => sum + openBetween(p.hours, span.fromMin, span.toMin), 0);
  return { bayMin, peopleMin };
}

function shutMin(shop: SimShop, shut: readonly { startMin: number; endMin: number }[], span: Span): number {
  return shut.reduce((sum, s) => {
    const [from, to] = [Math.max(s.startMin, span.fromMin), Math.min(s.endMin, span.toMin)];
    return sum + openBetween(shop.open, from, to);
  }, 0);
}

/** What one run came to. Jobs count in the week they are collected, waits by the cars that came in `span`. */
export function measure(
  run: SimRun,
  cars: readonly DrawnCar[],
  shop: SimShop,
  span: Span,
  given: Given,
): Measures {
  const weeks = (span.toMin - span.fromMin) / WEEK_MIN;
  const within = (t: number): boolean => span.fromMin <= t && t < span.toMin;
  const jobOf = (car: number): PastJob => (cars[car] as DrawnCar).job;
  const came = run.visits.filter((v) => within(v.arrivedMin));
  const ready = run.visits.filter((v) => within(v.readyMin));
  const gone = run.visits.filter((v) => within(v.leftMin));
  const took = tookOfPromised(run, cars, shop, span);
  const sum = (of: (job: PastJob) => number): number => gone.reduce((s, v) => s + of(jobOf(v.car)), 0);
  const net = sum((j) => j.netMinor * given.priceTimes) / weeks;
  const offered = offeredOf(shop, span);
  return {
    jobs: gone.length / weeks,
    wait: average(came.map((v) => (v.arrivedMin - v.askedMin) / DAY_MIN)),
    stay: average(ready.map((v) => (v.readyMin - v.arrivedMin) / DAY_MIN)),
    kept: share(took.filter((t) => t <= given.promise).length, took.length),
    bays: share(run.workMin + run.cureMin, offered.bayMin),
    people: share(run.peopleMin, offered.peopleMin),
    net,
    margin: net - sum((j) => j.materialMinor) / weeks - given.costWeekMinor,
  };
}

/** Of each promised job that got ready in `span`: the open minutes it took, in times of those it was promised for. */
export function tookOfPromised(
  run: SimRun,
  cars: readonly DrawnCar[],
  shop: SimShop,
  span: Span,
): readonly number[] {
  return run.visits.flatMap(({ car, arrivedMin, readyMin }) => {
    const promisedMin = cars[car]?.job.promisedMin ?? null;
    if (promisedMin === null || readyMin < span.fromMin || readyMin >= span.toMin) return [];
    return [openBetween(shop.open, arrivedMin, readyMin) / Math.max(1, promisedMin)];
  });
}

/**
 * The same of the record itself, by sums over its jobs instead of over time: another way to the same figures.
 * `kept` is null where nothing was promised.
 */
export function pastMeasures(
  jobs: readonly PastJob[],
  shop: SimShop,
  span: Span,
): Readonly<Record<WhatIfMeasure, number | null>> {
  const weeks = (span.toMin - span.fromMin) / WEEK_MIN;
  const sum = (of: (job: PastJob) => number): number => jobs.reduce((total, job) => total + of(job), 0);
  const promised = jobs.filter((j) => j.promisedMin !== null);
  const offered = offeredOf(shop, span);
  const net = sum((j) => j.netMinor) / weeks;
  return {
    jobs: jobs.length / weeks,
    wait: average(jobs.map((j) => j.leadMin / DAY_MIN)),
    stay: average(jobs.map((j) => j.stayMin / DAY_MIN)),
    kept:
      promised.length === 0
        ? null
        : share(promised.filter((j) => j.tookMin <= (j.promisedMin ?? 0)).length, promised.length),
    bays: share(
      sum((j) => j.workMin + j.cureMin),
      offered.bayMin,
    ),
    people: share(
      sum((j) => j.handsMin),
      offered.peopleMin,
    ),
    net,
    margin: net - sum((j) => j.materialMinor) / weeks,
  };
}

/** Quantile of some values, 0 ≤ p ≤ 1, straight between neighbours. @source type 7 of Hyndman & Fan, Am. Stat. 50 (1996), from memory */
export function quantileOf(values: readonly number[], p: number): number {
  const sorted = values.toSorted((a, b) => a - b);
  const h = (sorted.length - 1) * p;
  const [below, above] = [sorted[Math.floor(h)] ?? 0, sorted[Math.ceil(h)] ?? 0];
  return below + (above - below) * (h - Math.floor(h));
}

/** The middle one, and between which nine of ten lie. */
export function bandOf(values: readonly number[]): Band {
  return { low: quantileOf(values, 0.05), mid: quantileOf(values, 0.5), high: quantileOf(values, 0.95) };
}

function average(values: readonly number[]): number {
  return values.length === 0 ? 0 : meanOf(values);
}

function share(part: number, whole: number): number {
  return whole === 0 ? 0 : part / whole;
}
