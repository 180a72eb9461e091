import { type DayRow, daysBetween } from '../bays/rules/hours.ts';
import type { ReadCtx } from '../context.ts';
import type { WhatIfModel } from '../figures/rules/whatIf.ts';
import type { PastJob } from '../figures/rules/whatIfAsks.ts';
import { changedSetup, changedShares, limitsOf } from '../figures/rules/whatIfChange.ts';
import { doable, simShopOf } from '../figures/rules/whatIfLay.ts';
import { pastMeasures } from '../figures/rules/whatIfMeasures.ts';
import type { Side } from '../figures/rules/whatIfOneRun.ts';
import type { SimShop } from '../figures/rules/whatIfShop.ts';
import type { whatIfEntries } from '../shared/catalogue/whatIf.ts';
import type { InputOf } from '../shared/entry.ts';
import { refuse } from '../shared/errors.ts';
import { addLocalDays, instantOf, localDayOf, localDaysBetween } from '../shared/time.ts';
import type { LocalDay, Minor, Ppm } from '../shared/units.ts';
import type { BaysSetupView } from '../shared/views/baysSetup.ts';
import type { Purpose } from '../shared/views/bookings.ts';
import type { WhatIfStart } from '../shared/views/whatIf.ts';
import { BAY_KINDS } from '../shared/vocabulary.ts';
import type { WhatIfChange } from '../shared/whatIfChange.ts';
import { baysSetup } from './baysSetup.ts';
import { hourCosts } from './people.ts';
import { shopOf } from './shop.ts';
import { finishedByPurpose, firstAskedMs, pastJobs } from './whatIfJobs.ts';

/** The weeks that are run again: half a year, or as long as the record is. */
const MOST_WEEKS = 26;
/** Before them, so that the shop has filled and its book with it. */
const FILL_WEEKS = 8;
/** Fewer finished jobs, and one odd car decides the answer. Common practice, no source. */
const NEEDED = 40;

type Weeks = {
  readonly fromDay: LocalDay;
  readonly toDay: LocalDay;
  readonly weeks: number;
  readonly zone: string;
  readonly fromMs: number;
  readonly toMs: number;
};

/** Whole weeks up to yesterday. */
function weeksOf(ctx: ReadCtx): Weeks {
  const { zone } = shopOf(ctx.db);
  const today = localDayOf(ctx.now, zone);
  const first = firstAskedMs(ctx.db);
  const lived = first === null ? 0 : localDaysBetween(localDayOf(first, zone), today);
  const weeks = Math.min(MOST_WEEKS, Math.max(1, Math.floor(lived / 7)));
  const fromDay = addLocalDays(today, -7 * weeks);
  const ends = { fromMs: instantOf(fromDay, 0, zone), toMs: instantOf(today, 0, zone) };
  return { fromDay, toDay: addLocalDays(today, -1), weeks, zone, ...ends };
}

/** What may be asked about, and whether enough was finished. */
export function whatIfStart(ctx: ReadCtx): WhatIfStart {
  const range = weeksOf(ctx);
  const { bays, technicians } = baysSetup(ctx.db, range.toDay);
  const purposes = finishedByPurpose(ctx.db, range);
  const finished = purposes.reduce((sum, p) => sum + p.jobs, 0);
  const there = bays.filter(
    (b) => b.startedDay <= range.toDay && (b.endedDay === null || b.endedDay > range.toDay),
  );
  return {
    fromDay: range.fromDay,
    toDay: range.toDay,
    weeks: range.weeks,
    finished,
    needed: NEEDED,
    purposes: purposes.map((p) => ({
      ...p,
      sharePpm: Math.round((p.jobs / Math.max(1, finished)) * 1_000_000) as Ppm,
    })),
    bays: BAY_KINDS.map((kind) => ({
      kind,
      count: there.filter((b) => b.kind === kind).reduce((sum, b) => sum + b.capacity, 0),
    })),
    people: peopleOf(ctx, technicians),
  };
}

function peopleOf(ctx: ReadCtx, technicians: BaysSetupView['technicians']): WhatIfStart['people'] {
  const now = new Map(
    hourCosts(ctx)
      .filter((cost) => cost.now)
      .map((cost) => [cost.personId, cost.hourMinor]),
  );
  return technicians.map(({ personId, name, shifts }) => {
    const hourMinor = now.get(personId);
    const weekMin = shifts.reduce((sum, s) => sum + s.endMin - s.startMin, 0);
    const weekMinor = hourMinor === undefined ? null : (Math.round((hourMinor * weekMin) / 60) as Minor);
    return { personId, name, weekMinor };
  });
}

/**
 * Everything the runs need, read in one snapshot.
 * @throws HOURS_NOT_SET, NO_HANDS, TOO_FEW_FINISHED, NO_SUCH_WORK, NOT_FOUND
 */
export function gatherWhatIf(
  ctx: ReadCtx,
  ask: InputOf<(typeof whatIfEntries)['figures.whatIf']>,
): WhatIfModel {
  const range = weeksOf(ctx);
  const setup = filled(baysSetup(ctx.db, range.fromDay), range.fromDay);
  if (setup.hours.length === 0) refuse('HOURS_NOT_SET', {});
  if (!setup.technicians.some((t) => t.shifts.length > 0)) refuse('NO_HANDS', {});
  const days = daysBetween(fillFrom(range.fromDay), range.toDay, range.zone);
  const asItIs = simShopOf(setup, days, range.zone);
  const jobs = pastJobs(ctx.db, range, asItIs.open, range.zone);
  if (jobs.length < NEEDED) refuse('TOO_FEW_FINISHED', { finished: jobs.length, needed: NEEDED });
  checkChange(ask.change, setup, jobs);
  const span = { fromMin: range.fromMs / 60_000, toMin: range.toMs / 60_000 };
  const record = { jobs, weeks: range.weeks };
  return {
    ...{ fromDay: range.fromDay, toDay: range.toDay, days, span },
    before: sideOf(asItIs, record, {}),
    after: sideOf(changedShop(setup, ask.change, days, range.zone), record, ask.change),
    past: pastMeasures(jobs, asItIs, span),
    limits: limitsOf(ask.change),
    ...{ change: ask.change, seed: ask.seed, rounds: ask.rounds ?? roundsFor(jobs.length) },
  };
}

/** A hundred runs, or so many that they hold as many jobs as a hundred of a middling shop; forty at least. */
function roundsFor(jobs: number): number {
  return Math.max(40, Math.min(100, Math.round(60_000 / jobs)));
}

function fillFrom(fromDay: LocalDay): LocalDay {
  return addLocalDays(fromDay, -7 * FILL_WEEKS);
}

/** Who and what was there on the first day of the weeks is there while the shop fills too, else cars would pile up before it. */
function filled(setup: BaysSetupView, fromDay: LocalDay): BaysSetupView {
  const early = <T extends { readonly startedDay: LocalDay }>(of: T): T =>
    of.startedDay <= fromDay ? { ...of, startedDay: fillFrom(of.startedDay) } : of;
  return { ...setup, bays: setup.bays.map(early), technicians: setup.technicians.map(early) };
}

function changedShop(
  setup: BaysSetupView,
  change: WhatIfChange,
  days: readonly DayRow[],
  zone: string,
): SimShop {
  return simShopOf(changedSetup(setup, change), days, zone, setup);
}

function checkChange(change: WhatIfChange, setup: BaysSetupView, jobs: readonly PastJob[]): void {
  const like = change.technician?.like;
  if (like !== undefined && !setup.technicians.some((t) => t.personId === like))
    refuse('NOT_FOUND', { what: 'person', id: like });
  const wanted = change.mix?.purpose;
  if (wanted !== undefined && !jobs.some((j) => j.purpose === wanted)) refuse('NO_SUCH_WORK', {});
}

function sideOf(
  shop: SimShop,
  record: { readonly jobs: readonly PastJob[]; readonly weeks: number },
  change: WhatIfChange,
): Side {
  const counts = Map.groupBy(record.jobs, (j) => j.purpose);
  const shares = new Map<Purpose, number>(
    [...counts].map(([purpose, jobs]) => [purpose, jobs.length / record.jobs.length]),
  );
  return {
    shop,
    asks: {
      jobs: record.jobs.map((j) => ({ ...j, stages: doable(j.stages, shop) })),
      weeks: record.weeks,
      times: 1 + (change.asksPpm ?? 0) / 1_000_000,
      shares: changedShares(shares, change.mix ?? null),
    },
    money: {
      priceTimes: 1 + (change.pricePpm ?? 0) / 1_000_000,
      costWeekMinor: (change.costWeekMinor ?? 0) as Minor,
    },
  };
}
