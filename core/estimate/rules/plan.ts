import type { MaterialAmount, StagePlan } from '../../shared/stagePlan.ts';
import type { FilmTenthUm, Minor } from '../../shared/units.ts';
import type { HoursView, PanelPlanView, PriceRule } from '../../shared/views/estimate.ts';
import {
  type Level,
  MATERIALS,
  type Material,
  PANELS,
  STAGE_KINDS,
  type StageKind,
} from '../../shared/vocabulary.ts';
import { type Finished, finishedMachine, isToDo, withFinished } from './finished.ts';
import { gainOf } from './gain.ts';
import { crewOf, handsFactor } from './hands.ts';
import {
  type Duration,
  type JobKnowledge,
  meanMinutes,
  quantilesOf,
  stageDuration,
  totalOf,
} from './hours.ts';
import type { Calibration } from './learning.ts';
import type { WorkRules } from './panelWork.ts';
import { chargedMinutes, type LabourLine, labourMinor, materialsMinor } from './price.ts';
import type { SandingWork } from './sanding.ts';
import { placesFor, STAGE_SHAPE } from './stageShape.ts';
import {
  type PanelCase,
  type PanelShare,
  panelShare,
  type RawStage,
  stageFrame,
  type WholeJob,
} from './stages.ts';

/** Everything an estimate rests on, gathered before anything is decided. */
export type EstimateCase = {
  readonly panels: readonly PanelCase[];
  readonly job: WholeJob;
  readonly rules: WorkRules;
  readonly calibration: Calibration;
  readonly knowledge: JobKnowledge;
  /** Stages of this job that are finished: they stand with what they took. */
  readonly finished: Finished;
  readonly rates: Readonly<Record<StageKind, Minor>>;
  /** Minor units per base unit, as charged; 0 where the shop has no price. */
  readonly materialPrice: Readonly<Partial<Record<Material, number>>>;
  readonly priceRule: PriceRule;
};

export type Levels = readonly Level[];

export type Plan = {
  readonly stages: readonly StagePlan[];
  readonly hours: HoursView;
  readonly labour: Minor;
  readonly materials: Minor;
  readonly total: Minor;
  readonly chargedMin: number;
  readonly panels: readonly PanelPlanView[];
  readonly shares: readonly PanelShare[];
  readonly gainPpm: number;
};

/**
 * The whole estimate for one choice of level per panel (in the order of `c.panels`): stages in the order of work,
 * hours with their range, price and gain.
 */
export function planJob(c: EstimateCase, levels: Levels): Plan {
  const shares = c.panels.map((p, i) => panelShare(p, levels[i] ?? 'leave', c.job, c.rules));
  const begun = finishedMachine(c.finished);
  const machine = begun.length > 0 || shares.some((s) => s.parts.length > 0);
  const parts = [...stageFrame(c.panels, c.job, machine), ...shares.flatMap((s) => s.parts), ...begun];
  const raw = mergeStages(parts);
  const timed = raw.map((stage) => ({ stage, duration: durationOf(c, stage, parts) }));
  const lines: LabourLine[] = timed.flatMap(({ stage, duration }) =>
    duration
      ? [{ meanMin: meanMinutes(duration), medianMin: Math.exp(duration.mu), rateMinor: c.rates[stage.kind] }]
      : [],
  );
  const labour = labourMinor(lines, c.priceRule);
  const materials = materialsMinor(used(raw), (m) => c.materialPrice[m as Material] ?? 0);
  const gains = panelGains(c, shares);
  const durations = timed.flatMap(({ duration }) => (duration ? [duration] : []));
  return {
    stages: timed.map(({ stage, duration }) => stagePlanOf(stage, duration, c)),
    hours: hoursOf(durations, c.knowledge.jobVariance),
    labour,
    materials,
    total: (labour + materials) as Minor,
    chargedMin: Math.round(lines.reduce((sum, l) => sum + chargedMinutes(l, c.priceRule), 0)),
    panels: c.panels.map((p, i) =>
      panelPlan(p, levels[i] ?? 'leave', shares[i], gains.each[i] ?? 0, gains.most),
    ),
    shares,
    gainPpm: ppm(
      gains.each.reduce((a, b) => a + b, 0),
      gains.most,
    ),
  };
}

/** What is to be done of a stage by the model and what was learned, and what was done of it as it took. */
function durationOf(c: EstimateCase, stage: RawStage, parts: readonly RawStage[]): Duration | null {
  const minutes = parts
    .filter((part) => part.kind === stage.kind && isToDo(part, c.finished))
    .reduce((sum, part) => sum + part.minutes * handsFactor(part.kind, c.job), 0);
  const rest = minutes > 0 ? stageDuration(minutes, stage.kind, c.knowledge, c.calibration) : null;
  return withFinished(rest, c.finished.get(stage.kind)?.minutes ?? 0);
}

/** Minutes and amounts of the same stage kind added up, in the order of work. */
export function mergeStages(parts: readonly RawStage[]): RawStage[] {
  return STAGE_KINDS.flatMap((kind) => {
    const same = parts.filter((p) => p.kind === kind);
    if (same.length === 0) return [];
    const panels = PANELS.filter((panel) => same.some((p) => p.panels.includes(panel)));
    const sum = new Map<Material, number>();
    for (const part of same) for (const [m, n] of part.amounts) sum.set(m, (sum.get(m) ?? 0) + n);
    const minutes = same.reduce((a, p) => a + p.minutes, 0);
    return [{ kind, panels, minutes, dwellMin: Math.max(...same.map((p) => p.dwellMin)), amounts: sum }];
  });
}

function* used(stages: readonly RawStage[]): Generator<readonly [Material, number]> {
  for (const stage of stages) yield* stage.amounts;
}

function stagePlanOf(stage: RawStage, duration: Duration | null, c: EstimateCase): StagePlan {
  const shape = STAGE_SHAPE[stage.kind];
  const none = { p20Min: 0, p50Min: 0, p80Min: 0, p95Min: 0 };
  return {
    kind: stage.kind,
    panels: [...stage.panels],
    estimatedMin: Math.round(stage.minutes * handsFactor(stage.kind, c.job)),
    ...(duration ? quantilesOf(duration) : none),
    mu: duration?.mu ?? 0,
    sigma: duration?.sigma ?? 0,
    dwellMin: stage.dwellMin,
    bayKinds: [...placesFor(stage.kind, c.job.bayKinds)],
    skill: shape.skill,
    crew: duration ? crewOf(stage.kind, c.job) : 0,
    splittable: shape.splittable,
    materials: wholeAmounts(stage),
    note: '',
  };
}

/** Whole base units; pieces and clay are rounded up, nobody takes half a pad from the shelf. */
function wholeAmounts(stage: RawStage): MaterialAmount[] {
  return MATERIALS.flatMap((material) => {
    const amount = stage.amounts.get(material) ?? 0;
    return amount > 0 ? [{ material, amount: Math.ceil(amount - 1e-9) }] : [];
  });
}

function hoursOf(durations: readonly Duration[], jobVariance: number): HoursView {
  const total = totalOf(durations);
  const q = total.mean > 0 ? quantilesOf(total) : { p20Min: 0, p50Min: 0, p80Min: 0, p95Min: 0 };
  return {
    ...q,
    meanMin: Math.round(total.mean),
    mu: total.mu,
    sigma: total.sigma,
    jobSigma: Math.sqrt(jobVariance),
  };
}

type Gains = { readonly each: readonly number[]; readonly most: number };

/** Gain of each panel as planned, and what all panels could gain if everything removable came out. */
function panelGains(c: EstimateCase, shares: readonly PanelShare[]): Gains {
  const at = (i: number, removal: number): number => {
    const p = c.panels[i];
    return p ? gainOf(p.size.areaCm2, p.size.weight, p.findings, removal) : 0;
  };
  return {
    each: shares.map((s, i) => at(i, s.removal)),
    most: c.panels.reduce((sum, _, i) => sum + at(i, Number.POSITIVE_INFINITY), 0),
  };
}

function ppm(part: number, whole: number): number {
  return whole > 0 ? Math.round((part / whole) * 1_000_000) : 0;
}

function panelPlan(
  p: PanelCase,
  level: Level,
  share: PanelShare | undefined,
  gain: number,
  most: number,
): PanelPlanView {
  return {
    panel: p.size.panel,
    level,
    areaCm2: p.size.areaCm2,
    workMin: Math.round(workMinutes(share) * 10) / 10,
    sanding: share?.sanding ? sandingPlan(share.sanding) : null,
    removalTenthUm: Math.round(share?.removal ?? 0) as PanelPlanView['removalTenthUm'],
    gainPpm: ppm(gain, most),
  };
}

function workMinutes(share: PanelShare | undefined): number {
  return share ? share.steps.reduce((sum, s) => sum + s.minutes, share.sanding?.minutes ?? 0) : 0;
}

function sandingPlan(s: SandingWork): PanelPlanView['sanding'] {
  return {
    lowTenthUm: s.low as FilmTenthUm,
    highTenthUm: s.high as FilmTenthUm,
    workMin: Math.round(s.minutes * 10) / 10,
  };
}
