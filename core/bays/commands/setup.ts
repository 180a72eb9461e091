import type { ReadCtx, WriteCtx } from '../../context.ts';
import type { baysEntries } from '../../shared/catalogue/bays.ts';
import type { InputOf } from '../../shared/entry.ts';
import { refuse } from '../../shared/errors.ts';
import type { BayId } from '../../shared/ids.ts';
import { addLocalDays, localDayOf, minuteOf } from '../../shared/time.ts';
import { type EpochMs, type LocalDay, MS_PER_MIN } from '../../shared/units.ts';
import type { BaysSetupView } from '../../shared/views/baysSetup.ts';
import { baysSetup } from '../../views/baysSetup.ts';
import { shopOf } from '../../views/shop.ts';
import {
  type BayRecord,
  carsPlannedIn,
  deleteAbsence,
  deleteClosure,
  findBay,
  firstUseMin,
  insertAbsence,
  insertBay,
  insertClosure,
  keptBays,
  patchBay,
  personExists,
  replaceHours,
  saveTechnician,
} from '../store/setup.ts';

type In<N extends keyof typeof baysEntries> = InputOf<(typeof baysEntries)[N]>;

/** What the shop has set about bays, hours and people. */
export function setupView(ctx: ReadCtx): BaysSetupView {
  return baysSetup(ctx.db, localDayOf(ctx.now, shopOf(ctx.db).zone));
}

/** Adds bays in their order. @throws BAY_NAME_TWICE */
export function setBays(ctx: WriteCtx, input: In<'bays.setBays'>): { readonly bayIds: readonly BayId[] } {
  return { bayIds: input.bays.map((b) => addBay(ctx, b).bayId) };
}

/** Adds one bay; a bay holds one car, only the yard more. @throws BAY_NAME_TWICE */
export function addBay(ctx: WriteCtx, input: In<'bays.addBay'>): { readonly bayId: BayId } {
  const bays = keptBays(ctx.db);
  needFreshName(ctx, input.name, null);
  const id = ctx.newId<BayId>();
  const capacity = input.kind === 'yard' ? input.capacity : 1;
  const startedDay = input.startedDay ?? localDayOf(ctx.now, shopOf(ctx.db).zone);
  insertBay(ctx.db, { ...input, id, capacity, startedDay, seq: bays.length });
  ctx.changed(id, 'bay');
  return { bayId: id };
}

/**
 * Changes a bay; what it is for only while no car is planned in it, its first day only to one before any car in it.
 * @throws NOT_FOUND · STALE · BAY_NAME_TWICE · BAY_KIND_IN_USE · BAY_USED_BEFORE · SPAN_REVERSED
 */
export function changeBay(ctx: WriteCtx, input: In<'bays.changeBay'>): null {
  const bay = needBay(ctx, input.bayId, input.revision);
  if (input.name !== undefined) needFreshName(ctx, input.name, bay.id);
  const kind = input.kind ?? bay.kind;
  const cars = kind === bay.kind ? 0 : carsPlannedIn(ctx.db, bay.id, Math.floor(ctx.now / MS_PER_MIN));
  if (cars > 0) refuse('BAY_KIND_IN_USE', { name: bay.name, cars });
  const startedDay = input.startedDay ?? bay.startedDay;
  if (startedDay > bay.startedDay) needUnusedBefore(ctx, bay, startedDay);
  patchBay(ctx.db, bay.id, {
    name: input.name ?? bay.name,
    kind,
    startedDay,
    setupMin: input.setupMin ?? bay.setupMin,
    capacity: kind === 'yard' ? (input.capacity ?? bay.capacity) : 1,
  });
  ctx.changed(bay.id, 'bay');
  return null;
}

/** Ends a bay; cars planned in it after that day are moved first. @throws BAY_IN_USE · NOT_FOUND · STALE · ENDS_BEFORE_START */
export function endBay(ctx: WriteCtx, input: In<'bays.endBay'>): null {
  const bay = needBay(ctx, input.bayId, input.revision);
  if (input.lastDay < bay.startedDay)
    refuse('ENDS_BEFORE_START', { name: bay.name, started: bay.startedDay });
  const after = minuteOf(addLocalDays(input.lastDay, 1), 0, shopOf(ctx.db).zone);
  const cars = carsPlannedIn(ctx.db, bay.id, after);
  if (cars > 0) refuse('BAY_IN_USE', { name: bay.name, cars });
  patchBay(ctx.db, bay.id, { endedDay: input.lastDay });
  ctx.changed(bay.id, 'endedDay');
  return null;
}

/** Sets the week's hours as a whole. @throws HOURS_OVERLAP · SPAN_REVERSED */
export function setOpeningHours(ctx: WriteCtx, input: In<'bays.setOpeningHours'>): null {
  for (const kind of ['shop', 'desk'] as const) {
    const rows = input.hours.filter((h) => h.kind === kind);
    needApart(rows.map((h) => ({ weekday: h.weekday, startMin: h.openMin, endMin: h.closeMin })));
  }
  replaceHours(ctx.db, input.hours);
  ctx.changed('hours', 'hours');
  return null;
}

/** Sets what a person can do and when. @throws NOT_FOUND · HOURS_OVERLAP · SPAN_REVERSED */
export function setTechnician(ctx: WriteCtx, input: In<'bays.setTechnician'>): null {
  if (!personExists(ctx.db, input.personId)) refuse('NOT_FOUND', { what: 'person', id: input.personId });
  needApart(input.shifts);
  const { personId, skills } = input;
  saveTechnician(ctx.db, { personId, skills, speedPpm: input.speedPpm as never }, input.shifts);
  ctx.changed(personId, 'skills', 'speed', 'shifts');
  return null;
}

/** @throws SPAN_REVERSED · NOT_FOUND when there is no such bay */
export function addClosure(ctx: WriteCtx, input: In<'bays.addClosure'>): { readonly id: string } {
  if (input.toDay < input.fromDay) refuse('SPAN_REVERSED', { field: 'toDay' });
  if (input.bayId && !findBay(ctx.db, input.bayId)) refuse('NOT_FOUND', { what: 'bay', id: input.bayId });
  const id = ctx.newId<string>();
  insertClosure(ctx.db, { id, ...input });
  ctx.changed(id, 'closure');
  return { id };
}

/** @throws NOT_FOUND */
export function dropClosure(ctx: WriteCtx, input: In<'bays.dropClosure'>): null {
  if (!deleteClosure(ctx.db, input.id)) refuse('NOT_FOUND', { what: 'closure', id: input.id });
  ctx.changed(input.id, 'closure');
  return null;
}

/** @throws SPAN_REVERSED · NOT_FOUND when there is no such person */
export function addAbsence(ctx: WriteCtx, input: In<'bays.addAbsence'>): { readonly id: string } {
  if (input.endMin <= input.startMin) refuse('SPAN_REVERSED', { field: 'endMin' });
  if (!personExists(ctx.db, input.personId)) refuse('NOT_FOUND', { what: 'person', id: input.personId });
  const id = ctx.newId<string>();
  insertAbsence(ctx.db, { id, ...input });
  ctx.changed(id, 'absence');
  return { id };
}

/** @throws NOT_FOUND */
export function dropAbsence(ctx: WriteCtx, input: In<'bays.dropAbsence'>): null {
  const personId = deleteAbsence(ctx.db, input.id) ?? refuse('NOT_FOUND', { what: 'absence', id: input.id });
  ctx.changed(input.id, 'absence');
  ctx.changed(personId);
  return null;
}

function needBay(ctx: WriteCtx, id: BayId, revision: number) {
  const bay = findBay(ctx.db, id) ?? refuse('NOT_FOUND', { what: 'bay', id });
  if (bay.revision !== revision) refuse('STALE', { what: 'bay' });
  return bay;
}

function needUnusedBefore(ctx: WriteCtx, bay: BayRecord, startedDay: LocalDay): void {
  if (bay.endedDay !== null && bay.endedDay < startedDay) refuse('SPAN_REVERSED', { field: 'startedDay' });
  const { zone } = shopOf(ctx.db);
  const first = firstUseMin(ctx.db, bay.id);
  if (first !== null && first < minuteOf(startedDay, 0, zone))
    refuse('BAY_USED_BEFORE', { name: bay.name, usedOnMs: (first * MS_PER_MIN) as EpochMs });
}

function needFreshName(ctx: WriteCtx, name: string, own: BayId | null): void {
  const same = keptBays(ctx.db).some(
    (b) => b.id !== own && b.endedDay === null && b.name.toLowerCase() === name.toLowerCase(),
  );
  if (same) refuse('BAY_NAME_TWICE', { name });
}

function needApart(rows: readonly { weekday: number; startMin: number; endMin: number }[]): void {
  const sorted = rows.toSorted((a, b) => a.weekday - b.weekday || a.startMin - b.startMin);
  sorted.forEach((row, i) => {
    if (row.endMin <= row.startMin) refuse('SPAN_REVERSED', { field: 'hours' });
    const next = sorted[i + 1];
    if (next && next.weekday === row.weekday && next.startMin < row.endMin)
      refuse('HOURS_OVERLAP', { weekday: row.weekday });
  });
}
