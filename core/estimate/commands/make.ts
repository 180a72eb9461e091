import type { ReadCtx, WriteCtx } from '../../context.ts';
import type { Refusal } from '../../paint/rules/permit.ts';
import type { estimateEntries } from '../../shared/catalogue/estimate.ts';
import type { InputOf } from '../../shared/entry.ts';
import { refuse } from '../../shared/errors.ts';
import type { JobId } from '../../shared/ids.ts';
import { localDayOf } from '../../shared/time.ts';
import { PPM } from '../../shared/units.ts';
import { type Ceiling, type EstimateView, PAIR_STAGES, type PriceView } from '../../shared/views/estimate.ts';
import type { Level } from '../../shared/vocabulary.ts';
import { agreedEstimate, newestEstimate } from '../../views/estimates.ts';
import { inspectionRow } from '../../views/inspection.ts';
import { taxOn } from '../../views/shop.ts';
import { factorsOf } from '../rules/factors.ts';
import { allowedLevel, levelsForWish, mostForWish, refusalOf } from '../rules/levels.ts';
import { limitsOf } from '../rules/limits.ts';
import { type Plan, planJob } from '../rules/plan.ts';
import { type SandingOption, sandingOptions } from '../rules/sandingOptions.ts';
import { bestWithin } from '../rules/stair.ts';
import { insertEstimate, nextVersion } from '../store.ts';
import { type Gathered, gatherInspected, gatherUnseen, needJob, type Wanted } from './gather.ts';

type In<N extends keyof typeof estimateEntries> = InputOf<(typeof estimateEntries)[N]>;
export type Made = { readonly estimateId: string; readonly version: number };

/** A first version from body style, stated condition and wish. @throws NOTHING_FITS, NO_RATE, NOT_FOUND */
export function makeProvisional(ctx: WriteCtx, input: In<'estimate.provisional'>): Made {
  const job = needJob(ctx, input.jobId);
  const { wish, condition, interior, protection, ceiling } = input;
  const g = gatherUnseen(ctx, job, job.purpose, {
    wish,
    asked: {
      condition,
      interior,
      protection,
      two: newestEstimate(ctx.db, input.jobId)?.asked.two ?? [],
      ceiling,
    },
  });
  return save(ctx, input.jobId, g, startLevels(ctx, g, false));
}

/** A version from the panels as inspected; what is not named stays as the version before. @throws NO_INSPECTION, NOTHING_FITS, NO_RATE */
export function makeFromInspection(ctx: WriteCtx, input: In<'estimate.fromInspection'>): Made {
  const before = newestEstimate(ctx.db, input.jobId);
  const wanted: Wanted = {
    wish: input.wish ?? before?.wish ?? 'full',
    asked: {
      condition: before?.asked.condition ?? null,
      interior: input.interior ?? before?.asked.interior ?? false,
      protection: input.protection ?? before?.asked.protection ?? 'sealant',
      two: before?.asked.two ?? [],
      ceiling: input.ceiling,
    },
  };
  const g = gatherInspected(ctx, input.jobId, wanted);
  return save(ctx, input.jobId, g, startLevels(ctx, g, input.alike));
}

const REFUSED = {
  thin: 'FILM_TOO_THIN',
  belowFloor: 'FILM_BELOW_FLOOR',
  filmUnknown: 'SANDING_FILM_UNKNOWN',
  notAgreed: 'SANDING_NOT_AGREED',
  nothingToSand: 'NOTHING_TO_SAND',
} as const satisfies Record<Refusal, string>;

/**
 * A version with the levels named; panels not named keep theirs.
 * @throws NO_ESTIMATE, FILM_TOO_THIN, FILM_BELOW_FLOOR, SANDING_NOT_AGREED, SANDING_FILM_UNKNOWN, NOTHING_TO_SAND, PANEL_NOT_ON_BODY
 */
export function chooseLevels(ctx: WriteCtx, input: In<'estimate.choose'>): Made {
  const before = newestEstimate(ctx.db, input.jobId) ?? refuse('NO_ESTIMATE', {});
  const g = gatherAgain(ctx, input.jobId, before);
  const { panels, job, rules } = g.c;
  for (const { panel } of input.levels)
    if (!panels.some((p) => p.size.panel === panel))
      refuse('PANEL_NOT_ON_BODY', { panel, body: needJob(ctx, input.jobId).body });
  const levels = panels.map((p) => {
    const named = input.levels.find((l) => l.panel === p.size.panel)?.level;
    const level = named ?? before.panels.find((b) => b.panel === p.size.panel)?.level ?? 'leave';
    const refused = refusalOf(p, level, job, rules);
    if (refused) refuse(REFUSED[refused], { panel: p.size.panel, level });
    return level;
  });
  return save(ctx, input.jobId, { ...g, asked: { ...g.asked, ceiling: null } }, levels);
}

/**
 * A version with the levels of the newest one, as the car is known now. Where a level would now go past the film limit
 * the panel is taken as far as it may be; the limits say so.
 * @throws NO_ESTIMATE
 */
export function makeAgain(ctx: WriteCtx, input: { readonly jobId: JobId }): Made {
  const before = newestEstimate(ctx.db, input.jobId) ?? refuse('NO_ESTIMATE', {});
  return withSameLevels(ctx, before);
}

/**
 * The same after a test spot. It was tried for the work that was agreed, so it corrects that, not an option that nobody
 * chose. @throws NO_ESTIMATE
 */
export function makeAfterSpot(ctx: WriteCtx, input: { readonly jobId: JobId }): Made {
  const agreed = agreedEstimate(ctx.db, input.jobId);
  return agreed ? withSameLevels(ctx, agreed) : makeAgain(ctx, input);
}

/** The same version with the stages named done by two people together, all others by one. @throws NO_ESTIMATE */
export function chooseHands(ctx: WriteCtx, input: In<'estimate.hands'>): Made {
  const before = newestEstimate(ctx.db, input.jobId) ?? refuse('NO_ESTIMATE', {});
  const two = PAIR_STAGES.filter((kind) => input.two.includes(kind));
  return withSameLevels(ctx, { ...before, asked: { ...before.asked, two } });
}

function withSameLevels(ctx: WriteCtx, before: EstimateView): Made {
  const { jobId } = before;
  const g = gatherAgain(ctx, jobId, before);
  const { panels, job, rules } = g.c;
  const levels = panels.map((p) => {
    const was = before.panels.find((b) => b.panel === p.size.panel)?.level ?? 'leave';
    return allowedLevel(p, was, job, rules);
  });
  return save(ctx, jobId, g, levels);
}

/** The newest knowledge of a job for what its version before asked for. */
export function gatherAgain(
  ctx: Parameters<typeof gatherInspected>[0],
  jobId: JobId,
  before: EstimateView,
): Gathered {
  const wanted: Wanted = { wish: before.wish, asked: before.asked };
  if (inspectionRow(ctx.db, jobId)) return gatherInspected(ctx, jobId, wanted);
  const job = needJob(ctx, jobId);
  return gatherUnseen(ctx, job, job.purpose, wanted);
}

function startLevels(ctx: WriteCtx, g: Gathered, alike: boolean): Level[] {
  return levelsWithin(ctx, g, alike) ?? refuse('NOTHING_FITS', {});
}

/** Levels of the wish, or, where they lie above the ceiling asked for, the best choice under it; null when nothing fits. */
export function levelsWithin(ctx: Pick<ReadCtx, 'db' | 'now'>, g: Gathered, alike: boolean): Level[] | null {
  const { ceiling } = g.asked;
  const wished = levelsForWish(g.c.panels, g.wish, g.c.job, g.c.rules);
  if (ceiling === null) return wished;
  const room = ceilingOnFooting(ctx, g, ceiling);
  const { hours, total } = planJob(g.c, wished);
  if ((ceiling.kind === 'hours' ? hours.meanMin : total) <= room) return wished;
  return bestWithin(g.c, ceiling.kind, room, alike, mostForWish(g.wish));
}

/** A ceiling in money is said with tax; where the shop's prices have none it is taken out first. */
export function ceilingOnFooting(ctx: Pick<ReadCtx, 'db' | 'now'>, g: Gathered, ceiling: Ceiling): number {
  if (ceiling.kind === 'hours' || g.shop.settings.billing.pricesIncludeTax) return ceiling.value;
  const tax = taxOn(ctx.db, 'standard', localDayOf(ctx.now, g.shop.zone)).ratePpm;
  return Math.floor((ceiling.value * PPM) / (PPM + tax));
}

export function priceView(g: Gathered, plan: Plan): PriceView {
  return {
    labourMinor: plan.labour,
    materialsMinor: plan.materials,
    totalMinor: plan.total,
    rateMinor: g.c.rates.refine,
    rates: g.c.rates,
    chargedMin: plan.chargedMin,
    rule: g.c.priceRule,
    basis: g.shop.settings.billing.quoteBasis,
    taxIncluded: g.shop.settings.billing.pricesIncludeTax,
  };
}

/** What stays, may soften or is not known with these levels. */
export function planLimits(g: Gathered, plan: Plan): ReturnType<typeof limitsOf> {
  const levels = plan.panels.map((p) => p.level);
  const unseen = g.basis === 'provisional';
  const limits = limitsOf(g.c.panels, levels, plan.shares, unseen);
  return unseen ? limits : [...limits, ...sandingOptions(g.c, plan).flatMap((o) => optionLimit(g, o))];
}

export function planFactors(g: Gathered, plan: Plan): ReturnType<typeof factorsOf> {
  const kinds = plan.stages.filter((s) => s.crew > 0).map((s) => s.kind);
  return factorsOf(kinds, g.c.calibration, g.c.knowledge, g.spots);
}

/** An option on the quote that the film allows and nobody has taken. */
function optionLimit(g: Gathered, o: SandingOption): ReturnType<typeof limitsOf> {
  if (o.taken || o.refusal !== null) return [];
  const taxIncluded = g.shop.settings.billing.pricesIncludeTax ? 1 : 0;
  const { lowTenthUm, allTenthUm, addedMin, addedMinor } = o;
  const data = { lowTenthUm, highTenthUm: allTenthUm, addedMin, addedMinor, taxIncluded };
  return [{ key: 'sandingOption', panel: o.panel, defect: o.defects[0] ?? null, data }];
}

/** The newest version, where this one would say nothing else. */
function sameVersion(ctx: WriteCtx, jobId: JobId, g: Gathered, plan: Plan): EstimateView | null {
  const newest = newestEstimate(ctx.db, jobId);
  if (!newest) return null;
  const { basis, inspectionId, wish, asked, panels, stages, limits, price } = newest;
  const kept = [basis, inspectionId, wish, asked, panels, stages, limits, price];
  const head = [g.basis, g.inspectionId, g.wish, g.asked];
  const now = [...head, plan.panels, plan.stages, planLimits(g, plan), priceView(g, plan)];
  return JSON.stringify(kept) === JSON.stringify(now) ? newest : null;
}

function save(ctx: WriteCtx, jobId: JobId, g: Gathered, levels: readonly Level[]): Made {
  const plan = planJob(g.c, levels);
  const same = sameVersion(ctx, jobId, g, plan);
  if (same) return { estimateId: same.id, version: same.version };
  const estimateId = ctx.newId<string>();
  const version = nextVersion(ctx.db, jobId);
  insertEstimate(ctx.db, {
    id: estimateId,
    jobId,
    version,
    basis: g.basis,
    inspectionId: g.inspectionId,
    wish: g.wish,
    asked: JSON.stringify(g.asked),
    panels: JSON.stringify(plan.panels),
    stages: JSON.stringify(plan.stages),
    factors: JSON.stringify(planFactors(g, plan)),
    limits: JSON.stringify(planLimits(g, plan)),
    price: JSON.stringify(priceView(g, plan)),
    ...plan.hours,
    totalMinor: plan.total,
    gainPpm: plan.gainPpm as never,
    madeMs: ctx.now,
    personId: ctx.actor?.personId ?? null,
  });
  ctx.changed(jobId, 'estimate');
  ctx.changed(estimateId, 'version');
  return { estimateId, version };
}
