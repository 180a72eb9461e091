import { lastAtOrBelow } from '../bays/rules/calendar.ts';
import { daysBetween } from '../bays/rules/hours.ts';
import type { ReadCtx } from '../context.ts';
import { type FinishedStage, grouped, honestyOf } from '../figures/rules/honesty.ts';
import { periodsOf } from '../figures/rules/periods.ts';
import { addLocalDays, instantOf, localDaysBetween } from '../shared/time.ts';
import type { LocalDay } from '../shared/units.ts';
import type { HonestyRow, HonestyView, MarginView, PaintCondition } from '../shared/views/figures.ts';
import { type FinishedWork, finishedWork, paintConditions } from './finishedWork.ts';
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
  const { fromMs, toMs } = span(ctx, range);
  const all = finishedWork(ctx.db, fromMs, toMs);
  const conditions = paintConditions(ctx.db, fromMs, toMs);
  const conditionOf = (w: FinishedWork): PaintCondition => conditions.get(w.jobId) ?? 'none';
  return {
    ...range,
    byStage: rows(
      all,
      (w) => w.kind,
      (w) => ({ kind: 'stage', stage: w.kind }),
    ),
    byTechnician: rows(
      all,
      (w) => w.personId,
      (w) => ({ kind: 'text', text: w.person }),
    ),
    byHardness: rows(
      all,
      (w) => w.hardness,
      (w) => ({ kind: 'hardness', hardness: w.hardness }),
    ),
    byCondition: rows(all, conditionOf, (w) => ({ kind: 'condition', condition: conditionOf(w) })),
    all: { key: 'all', label: { kind: 'all' }, ...honestyOf(all) },
    ...overTime(ctx, range, all),
    outliers: outliersOf(ctx.db, all),
  };
}

function overTime(
  ctx: ReadCtx,
  range: Range,
  all: readonly FinishedWork[],
): Pick<HonestyView, 'by' | 'overTime'> {
  const { zone } = shopOf(ctx.db);
  const by = localDaysBetween(range.fromDay, range.toDay) < BY_WEEK_DAYS ? 'week' : 'month';
  const periods = periodsOf(daysBetween(range.fromDay, range.toDay, zone), by);
  const ends = periods.map((p) => p.endMin);
  const of = Map.groupBy(all, (w) => lastAtOrBelow(ends, Math.floor(w.doneMs / 60_000)) + 1);
  return {
    by,
    overTime: periods.map(({ day, toDay }, i) => ({ day, toDay, ...honestyOf(of.get(i) ?? []) })),
  };
}

function rows(
  all: readonly FinishedWork[],
  keyOf: (w: FinishedWork) => string,
  labelOf: (w: FinishedWork) => HonestyRow['label'],
): readonly HonestyRow[] {
  return grouped(all, keyOf).flatMap(([key, items]) => {
    const [first] = items;
    return first
      ? [{ key, label: labelOf(first), ...honestyOf(items satisfies readonly FinishedStage[]) }]
      : [];
  });
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
  const perHourMinor = workedMin === 0 ? 0 : Math.round(((netMinor - materialMinor) * 60) / workedMin);
  return { ...range, jobs, netMinor, materialMinor, workedMin, perHourMinor };
}
