import type { ReadCtx } from '../../context.ts';
import type { estimateEntries } from '../../shared/catalogue/estimate.ts';
import type { InputOf } from '../../shared/entry.ts';
import { refuse } from '../../shared/errors.ts';
import type { Minor } from '../../shared/units.ts';
import { PPM } from '../../shared/units.ts';
import type {
  Ceiling,
  EstimatePreview,
  EstimateView,
  LearningView,
  StairStepView,
  StairView,
} from '../../shared/views/estimate.ts';
import type { Level } from '../../shared/vocabulary.ts';
import { estimatesOfJob, newestEstimate } from '../../views/estimates.ts';
import { finishedJobs, stageHistory } from '../../views/history.ts';
import { learnedFactors } from '../rules/factors.ts';
import { planJob } from '../rules/plan.ts';
import { type Reach, reachesOf, restOf } from '../rules/rest.ts';
import { bestWithin, stairLevels } from '../rules/stair.ts';
import { calibrationOf } from './calibration.ts';
import { type Gathered, gatherUnseen } from './gather.ts';
import { ceilingOnFooting, gatherAgain, levelsWithin, planFactors, planLimits, priceView } from './make.ts';

type In<N extends keyof typeof estimateEntries> = InputOf<(typeof estimateEntries)[N]>;

/** Hours and price as told on the telephone; nothing is kept. @throws NOTHING_FITS, NO_RATE */
export function preview(ctx: ReadCtx, input: In<'estimate.preview'>): EstimatePreview {
  const size = { body: input.body, lengthMm: null, widthMm: null, heightMm: null, hardness: input.hardness };
  const { wish, condition, interior, protection, ceiling } = input;
  const g = gatherUnseen(ctx, size, 'correction', {
    wish,
    asked: { condition, interior, protection, two: [], ceiling },
  });
  const plan = planJob(g.c, levelsWithin(ctx, g, false) ?? refuse('NOTHING_FITS', {}));
  return {
    wish,
    asked: g.asked,
    panels: plan.panels,
    stages: plan.stages,
    hours: plan.hours,
    price: priceView(g, plan),
    gainPpm: plan.gainPpm,
    limits: planLimits(g, plan),
    factors: planFactors(g, plan),
    stair: stairOf(ctx, g, ceiling?.kind ?? 'money', ceiling, false),
  };
}

/** The stair of exact best choices for a job as it is known now. @throws NO_ESTIMATE */
export function bestOfJob(ctx: ReadCtx, input: In<'estimate.bestWithin'>): StairView {
  const before = newestEstimate(ctx.db, input.jobId) ?? refuse('NO_ESTIMATE', {});
  const g = gatherAgain(ctx, input.jobId, before);
  const ceiling = input.ceiling === null ? null : { kind: input.measure, value: input.ceiling };
  const stair = stairOf(ctx, g, input.measure, ceiling, input.alike);
  const own = input.measure === 'money' ? before.price.totalMinor : before.hours.meanMin;
  const over = ceiling === null ? 0 : own - ceilingOnFooting(ctx, g, ceiling);
  return { ...stair, above: over > 0 ? over : null };
}

function stairOf(
  ctx: ReadCtx,
  g: Gathered,
  measure: Ceiling['kind'],
  ceiling: Ceiling | null,
  alike: boolean,
): StairView {
  const steps: StairStepView[] = [];
  const reaches = reachesOf(g.c);
  for (const levels of stairLevels(g.c, measure, alike))
    steps.push(stepOf(g, levels, reaches, steps.at(-1) ?? null));
  if (ceiling === null) return { steps, best: null, ceiling, choice: null, above: null };
  const room = ceilingOnFooting(ctx, g, ceiling);
  const cost = (s: StairStepView): number => (measure === 'money' ? s.totalMinor : s.meanMin);
  const within = steps.filter((s) => cost(s) <= room).length;
  const levels = bestWithin(g.c, measure, room, alike);
  return {
    steps,
    best: within === 0 ? null : within - 1,
    ceiling,
    choice: levels ? stepOf(g, levels, reaches, null) : null,
    above: null,
  };
}

function stepOf(
  g: Gathered,
  levels: readonly Level[],
  reaches: readonly Reach[],
  before: StairStepView | null,
): StairStepView {
  const plan = planJob(g.c, levels);
  const named = plan.panels.map((p) => ({ panel: p.panel, level: p.level }));
  const was = new Map(before?.levels.map((l) => [l.panel, l.level]));
  return {
    p20Min: plan.hours.p20Min,
    p50Min: plan.hours.p50Min,
    p80Min: plan.hours.p80Min,
    meanMin: plan.hours.meanMin,
    totalMinor: plan.total as Minor,
    gainPpm: plan.gainPpm,
    rest: restOf(g.c.panels, reaches, plan),
    added: before ? named.filter((l) => was.get(l.panel) !== l.level) : [],
    levels: named,
  };
}

/** All versions of a job's estimate, newest first. */
export function versions(ctx: ReadCtx, input: In<'estimate.ofJob'>): readonly EstimateView[] {
  return estimatesOfJob(ctx.db, input.jobId);
}

/** Below so many finished jobs a share within P80 says nothing. */
const ENOUGH_JOBS = 10;
const JOBS_LOOKED_AT = 400;

/** What finished work has taught, with its rows, and how often the promised P80 held. */
export function learning(ctx: ReadCtx, input: In<'estimate.learning'>): LearningView {
  const c = calibrationOf(ctx);
  const rows = input.rows === 0 ? [] : stageHistory(ctx.db, input.rows);
  const jobs = finishedJobs(ctx.db, JOBS_LOOKED_AT);
  const within = jobs.filter((j) => j.actualMin <= j.p80Min).length;
  return {
    stagesSeen: c.stages,
    jobsSeen: c.jobs,
    factors: learnedFactors(c),
    withinP80Ppm: jobs.length < ENOUGH_JOBS ? null : Math.round((within / jobs.length) * PPM),
    rows: rows.map((r) => ({
      jobNumber: r.jobNumber,
      kind: r.kind,
      person: r.person,
      estimatedMin: r.estimatedMin,
      actualMin: Math.round(r.actualMin),
    })),
  };
}
