import type { ReadCtx } from '../context.ts';
import { totalOf } from '../estimate/rules/hours.ts';
import type { JobId } from '../shared/ids.ts';
import { normalCdf } from '../shared/statistics.ts';
import { addLocalDays, instantOf, localDayOf, localDaysBetween } from '../shared/time.ts';
import type { EpochMin, EpochMs, Ppm } from '../shared/units.ts';
import type {
  ArrivingCar,
  CarInBay,
  DeskCar,
  DeskView,
  GoingHomeCar,
  PromiseAtRisk,
  RailBar,
  RiskReason,
} from '../shared/views/bookings.ts';
import {
  type DeskRow,
  type DeskStageRow,
  deskBars,
  deskHours,
  deskJobs,
  deskKept,
  deskStages,
  deskWaiting,
  openSpans,
} from './deskRows.ts';
import { isLate } from './jobFacts.ts';
import { shopOf } from './shop.ts';

type Desk = {
  readonly ctx: ReadCtx;
  readonly zone: string;
  readonly day: { readonly fromMs: EpochMs; readonly toMs: EpochMs; readonly nowMs: EpochMs };
  readonly stages: ReadonlyMap<JobId, readonly DeskStageRow[]>;
  readonly bars: ReadonlyMap<JobId, readonly RailBar[]>;
  readonly graceMin: number;
  readonly levelPpm: number;
};

/** Today at the desk, in one snapshot. @throws SHOP_NOT_SET_UP */
export function deskView(ctx: ReadCtx): DeskView {
  const { zone, settings } = shopOf(ctx.db);
  const today = localDayOf(ctx.now, zone);
  const day = {
    fromMs: instantOf(today, 0, zone),
    toMs: instantOf(addLocalDays(today, 1), 0, zone),
    nowMs: ctx.now,
  };
  const { graceMin, levelPpm } = settings.promises;
  const stages = byJob(deskStages(ctx.db, ctx.now));
  const desk: Desk = { ctx, zone, day, stages, bars: deskBars(ctx.db, day), graceMin, levelPpm };
  const jobs = deskJobs(ctx.db, day);
  const promised = jobs.filter((j) => j.pickUpMin !== null && ['booked', 'here', 'inWork'].includes(j.state));
  const open = openSpans(ctx.db, today, zone);
  return {
    nowMs: ctx.now,
    day: today,
    openMin: open[0]?.startMin ?? null,
    closeMin: open.at(-1)?.endMin ?? null,
    arriving: jobs.filter((j) => arrivesToday(j, day)).map((j) => arriving(desk, j)),
    inBays: jobs.filter((j) => j.state === 'here' || j.state === 'inWork').map((j) => inBay(desk, j)),
    goingHome: jobs
      .filter((j) => goesHome(j, day))
      .sort(byPickUp)
      .map((j) => goingHome(desk, j)),
    atRisk: promised.flatMap((j) => atRisk(desk, j)).sort((a, b) => a.pickUpMin - b.pickUpMin),
    openPromises: promised.length,
    waiting: deskWaiting(ctx.db, ctx.now),
    hours: deskHours(ctx.db, today, zone, day),
    kept: deskKept(ctx.db, ctx.now),
  };
}

function arrivesToday(j: DeskRow, day: Desk['day']): boolean {
  if (j.state === 'booked') return j.dropOffMin !== null && j.dropOffMin * 60_000 < day.toMs;
  return j.arrivedMs !== null && j.arrivedMs >= day.fromMs && j.state !== 'collected';
}

function goesHome(j: DeskRow, day: Desk['day']): boolean {
  if (j.state === 'ready' || j.state === 'collected') return true;
  return j.state !== 'booked' && j.pickUpMin !== null && j.pickUpMin * 60_000 < day.toMs;
}

function byPickUp(a: DeskRow, b: DeskRow): number {
  return (a.pickUpMin ?? 0) - (b.pickUpMin ?? 0);
}

function carOf(desk: Desk, j: DeskRow): DeskCar {
  const { arrivedMs: _a, readyMs: _r, likelyMin: _l, bay: _b, owedMinor: _o, ...car } = j;
  return { ...car, bars: desk.bars.get(j.jobId) ?? [] };
}

function arriving(desk: Desk, j: DeskRow): ArrivingCar {
  const behind = j.dropOffMin === null ? 0 : Math.floor(desk.day.nowMs / 60_000) - j.dropOffMin;
  const lateMin = j.state === 'booked' && behind > desk.graceMin ? behind : 0;
  const first = (desk.stages.get(j.jobId) ?? []).find((s) => s.state !== 'done');
  return { ...carOf(desk, j), arrivedMs: j.arrivedMs, lateMin, firstStage: first?.kind ?? null };
}

function inBay(desk: Desk, j: DeskRow): CarInBay {
  const stages = (desk.stages.get(j.jobId) ?? []).filter((s) => s.kind !== 'handover');
  const now =
    stages.find((s) => s.state === 'inWork') ??
    stages.find((s) => s.state === 'paused') ??
    stages.find((s) => s.state === 'planned');
  const panels = now ? (JSON.parse(now.panels) as CarInBay['panelsDone']) : [];
  const runs = now !== undefined && now.crew === 0 && now.startedMs !== null;
  return {
    ...carOf(desk, j),
    bay: j.bay,
    stage: now?.kind ?? null,
    stageState: now?.state ?? null,
    who: now ? (JSON.parse(now.who) as string[]) : [],
    panelsDone: now ? JSON.parse(now.panelsDone) : [],
    panelsInWork: now?.state === 'inWork' && now.crew > 0 ? panels : [],
    panelCount: panels.length,
    cureEndsMs: runs ? (((now.startedMs ?? 0) + now.dwellMin * 60_000) as EpochMs) : null,
    likelyMin: j.likelyMin,
    late: isLate(j, desk.day.nowMs),
  };
}

function goingHome(desk: Desk, j: DeskRow): GoingHomeCar {
  const due = j.pickUpMin === null ? null : localDayOf(j.pickUpMin * 60_000, desk.zone);
  const today = localDayOf(desk.day.nowMs, desk.zone);
  const days = due === null || j.state !== 'ready' ? 0 : Math.max(0, localDaysBetween(due, today));
  const late = isLate(j, desk.day.nowMs);
  return { ...carOf(desk, j), readyMs: j.readyMs, owedMinor: j.owedMinor, late, uncollectedDays: days };
}

/** A promise is at risk when it is late already or its chance has sunk below the shop's own level. */
function atRisk(desk: Desk, j: DeskRow): PromiseAtRisk[] {
  const pickUpMin = j.pickUpMin;
  if (pickUpMin === null) return [];
  const left = leftWork(desk, j);
  const nowPpm = left === null ? null : chance(desk, left, pickUpMin);
  const reason = reasonFor(desk, j, pickUpMin, nowPpm);
  if (reason === null) return [];
  const { jobId, number, customer, phone, makeModel, promisedPpm, likelyMin } = j;
  const who = { jobId, number, customer, phone, makeModel };
  const curve = left && { mu: left.mu, sigma: left.sigma, fromMin: left.fromMin };
  return [{ ...who, pickUpMin, promisedPpm, nowPpm, likelyMin, left: curve, reason }];
}

function reasonFor(desk: Desk, j: DeskRow, pickUpMin: number, nowPpm: number | null): RiskReason | null {
  const nowMin = Math.floor(desk.day.nowMs / 60_000);
  if (pickUpMin <= nowMin) return { kind: 'passed' };
  const lateMin = j.state === 'booked' && j.dropOffMin !== null ? nowMin - j.dropOffMin : 0;
  if (lateMin > desk.graceMin) return { kind: 'notArrived', lateMin };
  const overMin = (j.likelyMin ?? 0) - pickUpMin;
  const low = nowPpm !== null && nowPpm < desk.levelPpm;
  if (overMin <= 0 && !low) return null;
  const over = (desk.stages.get(j.jobId) ?? []).find((s) => s.crew > 0 && s.attendedMs > s.p80Min * 60_000);
  if (over)
    return { kind: 'overrun', stage: over.kind, overMin: Math.floor(over.attendedMs / 60_000) - over.p50Min };
  if (overMin > 0) return { kind: 'planEndsLate', overMin };
  return j.likelyMin === null ? { kind: 'notPlaced' } : { kind: 'planEndsLate', overMin: 0 };
}

type Left = {
  readonly mu: number;
  readonly sigma: number;
  readonly fromMin: EpochMin;
  readonly dwellMin: number;
};

/** Work still to do as one lognormal of minutes, from now or the drop-off; a stage in hand less what was worked. */
function leftWork(desk: Desk, j: DeskRow): Left | null {
  const open = (desk.stages.get(j.jobId) ?? []).filter((s) => s.state !== 'done' && s.kind !== 'handover');
  const parts = open.flatMap((s) => {
    if (s.crew === 0 || s.p50Min === 0) return [];
    const rest = Math.max(s.p50Min * 0.1, s.p50Min - s.attendedMs / 60_000);
    return [{ mu: s.mu + Math.log(rest / s.p50Min), sigma: s.sigma, shared: 0 }];
  });
  if (parts.length === 0) return null;
  const total = totalOf(parts);
  const nowMin = Math.floor(desk.day.nowMs / 60_000);
  const fromMin = (j.state === 'booked' ? Math.max(nowMin, j.dropOffMin ?? nowMin) : nowMin) as EpochMin;
  return { mu: total.mu, sigma: total.sigma, fromMin, dwellMin: open.reduce((t, s) => t + s.dwellMin, 0) };
}

/**
 * Chance that the work left fits into the shop's open minutes before the promise, one person on it and nothing in
 * its way: an upper bound, so a promise shown as at risk really is.
 */
function chance(desk: Desk, left: Left, pickUpMin: number): Ppm {
  if (left.dwellMin > pickUpMin - left.fromMin) return 0 as Ppm;
  const minutes = openMinutes(desk, left.fromMin, pickUpMin);
  if (minutes <= 0) return 0 as Ppm;
  if (left.sigma === 0) return (minutes >= Math.exp(left.mu) ? 1_000_000 : 0) as Ppm;
  return Math.round(1_000_000 * normalCdf((Math.log(minutes) - left.mu) / left.sigma)) as Ppm;
}

function openMinutes(desk: Desk, fromMin: number, toMin: number): number {
  let sum = 0;
  let day = localDayOf(fromMin * 60_000, desk.zone);
  for (let n = 0; n < 60 && instantOf(day, 0, desk.zone) < toMin * 60_000; n += 1) {
    for (const span of openSpans(desk.ctx.db, day, desk.zone))
      sum += Math.max(0, Math.min(span.endMin, toMin) - Math.max(span.startMin, fromMin));
    day = addLocalDays(day, 1);
  }
  return sum;
}

function byJob(rows: readonly DeskStageRow[]): ReadonlyMap<JobId, DeskStageRow[]> {
  const by = new Map<JobId, DeskStageRow[]>();
  for (const row of rows) by.set(row.jobId, [...(by.get(row.jobId) ?? []), row]);
  return by;
}
