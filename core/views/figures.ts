import type { ReadCtx } from '../context.ts';
import { type FinishedStage, grouped, honestyOf } from '../figures/rules/honesty.ts';
import { addLocalDays, instantOf } from '../shared/time.ts';
import type { LocalDay } from '../shared/units.ts';
import type { HonestyRow, HonestyView, MarginView } from '../shared/views/figures.ts';
import { type FinishedWork, finishedWork } from './finishedWork.ts';
import { marginRows } from './margin.ts';
import { shopOf } from './shop.ts';

type Range = { readonly fromDay: LocalDay; readonly toDay: LocalDay };
const OUTLIERS = 8;

/** Epoch ms of the first and one past the last instant of a range of shop days. */
function span(ctx: ReadCtx, range: Range): { readonly fromMs: number; readonly toMs: number } {
  const { zone } = shopOf(ctx.db);
  return {
    fromMs: instantOf(range.fromDay, 0, zone),
    toMs: instantOf(addLocalDays(range.toDay, 1), 0, zone),
  };
}

/** Estimated against actual, by stage, technician and paint, with the stages furthest off. */
export function honestyView(ctx: ReadCtx, range: Range): HonestyView {
  const { fromMs, toMs } = span(ctx, range);
  const all = finishedWork(ctx.db, fromMs, toMs);
  const far = (w: FinishedWork): number => Math.abs(Math.log(w.actualMin / w.p50Min));
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
    all: { key: 'all', label: { kind: 'all' }, ...honestyOf(all) },
    outliers: all
      .filter((w) => w.p50Min > 0 && w.actualMin > 0)
      .toSorted((a, b) => far(b) - far(a))
      .slice(0, OUTLIERS)
      .map((w) => ({ ...w, stage: w.kind, actualMin: Math.round(w.actualMin) })),
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
