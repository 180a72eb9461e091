import { daysBetween } from '../bays/rules/hours.ts';
import type { ReadCtx } from '../context.ts';
import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import { addSums, type HonestySums, noSums, toldOf } from '../figures/rules/honesty.ts';
import { periodsOf } from '../figures/rules/periods.ts';
import { addLocalDays, instantOf, localDaysBetween } from '../shared/time.ts';
import type { LocalDay } from '../shared/units.ts';
import type { HonestyRow, HonestyView, MarginView, PaintCondition } from '../shared/views/figures.ts';
import type { PaintHardness, StageKind } from '../shared/vocabulary.ts';
import { type Far, furthest, keptFurthest, mostOf } from './furthest.ts';
import {
  addKept,
  type HonestyGroups,
  noGroups,
  recordedHonesty,
  SORTED_BY,
  type SortedBy,
  sumsOf,
} from './honestyGroups.ts';
import { type Cut, cutsOf, dayRuns } from './keptDays.ts';
import { marginRows } from './margin.ts';
import { outliersOf } from './outliers.ts';
import { shopOf } from './shop.ts';

type Range = { readonly fromDay: LocalDay; readonly toDay: LocalDay };

/** Epoch ms of the first and one past the last instant of a range of shop days. */
function span(ctx: ReadCtx, range: Range): { readonly fromMs: number; readonly toMs: number } {
  const { zone } = shopOf(ctx.db);
  return {
    fromMs: instantOf(range.fromDay, 0, zone),
    toMs: instantOf(addLocalDays(range.toDay, 1), 0, zone),
  };
}

/** Up to so many days are told by week, more by month. */
const BY_WEEK_DAYS = 100;

/** Estimated against actual, by stage, technician and paint, over time, and the stages furthest off with their story. */
export function honestyView(ctx: ReadCtx, range: Range): HonestyView {
  const days = daysBetween(range.fromDay, range.toDay, shopOf(ctx.db).zone);
  const by = localDaysBetween(range.fromDay, range.toDay) < BY_WEEK_DAYS ? 'week' : 'month';
  const periods = periodsOf(days, by);
  const groups = periods.map(noGroups);
  const far = dayRuns(ctx.db, days, Math.floor(ctx.now / 60_000)).flatMap((run) =>
    addRun(ctx.db, cutsOf(run.days, periods), groups, run.kept),
  );
  const names = new Map(
    allRows<{ id: string; name: string }>(ctx.db, 'SELECT id, name FROM person').map((p) => [p.id, p.name]),
  );
  return {
    ...range,
    byStage: rows(groups, 'stage', (stage: StageKind) => ({ kind: 'stage', stage })),
    byTechnician: rows(groups, 'technician', (id) => ({ kind: 'text', text: names.get(id) ?? '' })),
    byHardness: rows(groups, 'hardness', (hardness: PaintHardness) => ({ kind: 'hardness', hardness })),
    byCondition: rows(groups, 'condition', (condition: PaintCondition) => ({ kind: 'condition', condition })),
    all: { key: 'all', label: { kind: 'all' }, ...toldOf(allOf(groups)) },
    by,
    overTime: periods.map(({ day, toDay }, i) => ({ day, toDay, ...toldOf(allOf(groups.slice(i, i + 1))) })),
    outliers: outliersOf(ctx.db, mostOf(far)),
  };
}

/** Days that are kept are read, all others worked out. The stages of the run furthest from their estimate. */
function addRun(
  db: ReadDb,
  cuts: readonly Cut[],
  groups: readonly HonestyGroups[],
  kept: boolean,
): readonly Far[] {
  if (kept) {
    addKept(db, cuts, groups);
    return keptFurthest(db, cuts);
  }
  const recorded = recordedHonesty(db, cuts);
  for (const [k, of] of recorded.groups.entries())
    for (const by of SORTED_BY)
      for (const [key, sums] of of[by])
        addSums(sumsOf(groups[cuts[k]?.i ?? -1] ?? noGroups(), by, key), sums);
  return recorded.finished.flatMap(furthest);
}

/** Every stage is of one kind: the kinds together are all of them. */
function allOf(groups: readonly HonestyGroups[]): HonestySums {
  const all = noSums();
  for (const of of groups) for (const sums of of.stage.values()) addSums(all, sums);
  return all;
}

/** Of all periods together, the largest group first. */
function rows<K extends string>(
  groups: readonly HonestyGroups[],
  by: SortedBy,
  labelOf: (key: K) => HonestyRow['label'],
): readonly HonestyRow[] {
  const whole = noGroups();
  for (const of of groups) for (const [key, sums] of of[by]) addSums(sumsOf(whole, by, key), sums);
  return [...whole[by]]
    .sort((a, b) => b[1].finished - a[1].finished || a[0].localeCompare(b[0]))
    .map(([key, sums]) => ({ key, label: labelOf(key as K), ...toldOf(sums) }));
}

/** What the jobs collected in a range brought. No hours: nothing per hour. */
export function marginView(ctx: ReadCtx, range: Range): MarginView {
  const { fromMs, toMs } = span(ctx, range);
  const jobs = marginRows(ctx.db, fromMs, toMs);
  const sum = (of: (row: (typeof jobs)[number]) => number): number =>
    jobs.reduce((total, row) => total + of(row), 0);
  const netMinor = sum((r) => r.netMinor);
  const materialMinor = sum((r) => r.materialMinor);
  const workedMin = sum((r) => r.workedMin);
  const labourMinor = sum((r) => r.labourMinor);
  const unknownMin = Math.floor(sum((r) => r.unknownMs) / 60_000);
  const margin = netMinor - materialMinor - labourMinor;
  const perHourMinor = workedMin === 0 ? 0 : Math.round((margin * 60) / workedMin);
  return { ...range, jobs, netMinor, materialMinor, workedMin, labourMinor, unknownMin, perHourMinor };
}
