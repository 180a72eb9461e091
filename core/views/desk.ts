import type { ReadCtx } from '../context.ts';
import type { JobId } from '../shared/ids.ts';
import { addLocalDays, instantOf, localDayOf, localDaysBetween } from '../shared/time.ts';
import type { EpochMs } from '../shared/units.ts';
import type {
  ArrivingCar,
  CarInBay,
  DeskCar,
  DeskView,
  GoingHomeCar,
  RailBar,
} from '../shared/views/desk.ts';
import { deskHours } from './deskHours.ts';
import { nextDay } from './deskNext.ts';
import {
  type DeskRow,
  type DeskStageRow,
  deskBars,
  deskJobs,
  deskKept,
  deskStages,
  deskWaiting,
  isOpenPromise,
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
  const { graceMin } = settings.promises;
  const stages = byJob(deskStages(ctx.db, ctx.now));
  const desk: Desk = { ctx, zone, day, stages, bars: deskBars(ctx.db, day), graceMin };
  const jobs = deskJobs(ctx.db, day);
  const promised = jobs.filter(isOpenPromise);
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
    openPromises: promised.length,
    waiting: deskWaiting(ctx.db, ctx.now),
    hours: deskHours(ctx.db, today, zone, day),
    next: nextDay(ctx.db, today, zone, ctx.now),
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
    cureEndsMs: runs ? (((now.startedMs ?? 0) + (now.p50Min + now.dwellMin) * 60_000) as EpochMs) : null,
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

/** Stages by their job, in order. */
export function byJob(rows: readonly DeskStageRow[]): ReadonlyMap<JobId, DeskStageRow[]> {
  const by = new Map<JobId, DeskStageRow[]>();
  for (const row of rows) by.set(row.jobId, [...(by.get(row.jobId) ?? []), row]);
  return by;
}
