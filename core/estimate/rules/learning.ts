import {
  FACTORS,
  type Factor,
  groupMeans,
  type PastStage,
  PRIOR,
  type Spread,
  spreads,
  type Table,
  tabulate,
} from './past.ts';
import { believed, poolMeans } from './pooling.ts';

/** A learned effect in log minutes with the variance it is still uncertain by. */
export type Effect = { readonly log: number; readonly variance: number; readonly n: number };

export type Calibration = {
  readonly shop: Effect;
  readonly kind: ReadonlyMap<string, Effect>;
  readonly technician: ReadonlyMap<string, Effect>;
  readonly condition: ReadonlyMap<string, Effect>;
  /** Variance of an effect nobody has seen yet, per factor. */
  readonly unseen: Readonly<Record<Factor, number>>;
  /** Variance of what all stages of one job share. */
  readonly jobVariance: number;
  /** Variance of a single stage beyond all effects. */
  readonly stageVariance: number;
  readonly stages: number;
  readonly jobs: number;
};

/** The calibration of a shop without a past: the model as it is, with a wide range. */
export function noHistory(): Calibration {
  return {
    shop: { log: 0, variance: PRIOR.shop, n: 0 },
    kind: new Map(),
    technician: new Map(),
    condition: new Map(),
    unseen: { kind: PRIOR.kind, technician: PRIOR.technician, condition: PRIOR.condition },
    jobVariance: PRIOR.job,
    stageVariance: PRIOR.stage,
    stages: 0,
    jobs: 0,
  };
}

/**
 * Learns from finished stages: log(actual/estimated) = shop + stage kind + technician + paint condition + the job
 * itself + chance. Effects are partially pooled (empirical Bayes); recent work weighs more.
 * Rows of 0 minutes are left out.
 */
export function learn(past: readonly PastStage[]): Calibration {
  const rows = past.filter((p) => p.estimatedMin > 0 && p.actualMin > 0);
  if (rows.length === 0) return noHistory();
  const table = tabulate(rows);
  const effects = {
    kind: zeros(table, 'kind'),
    technician: zeros(table, 'technician'),
    condition: zeros(table, 'condition'),
  };
  let shop: Fitted = { log: 0, variance: PRIOR.shop, n: rows.length };
  let spread = { job: PRIOR.job, stage: PRIOR.stage };
  const tau: Record<Factor, number> = {
    kind: PRIOR.kind,
    technician: PRIOR.technician,
    condition: PRIOR.condition,
  };
  const residual = table.y.slice();
  for (let round = 0; round < 3; round += 1) {
    shop = fitShop(table, residual, shop, spread);
    for (const factor of FACTORS) tau[factor] = fitFactor(table, residual, effects[factor], factor, spread);
    spread = spreads(table, residual);
  }
  return {
    shop,
    kind: named(table, effects.kind, 'kind'),
    technician: named(table, effects.technician, 'technician'),
    condition: named(table, effects.condition, 'condition'),
    unseen: tau,
    jobVariance: spread.job,
    stageVariance: spread.stage,
    stages: rows.length,
    jobs: table.jobs,
  };
}

type Fitted = { log: number; variance: number; n: number };

function zeros(table: Table, factor: Factor): Fitted[] {
  return table.names[factor].map(() => ({ log: 0, variance: 0, n: 0 }));
}

function named(table: Table, effects: readonly Fitted[], factor: Factor): ReadonlyMap<string, Effect> {
  return new Map(table.names[factor].map((name, i) => [name, effects[i] ?? { log: 0, variance: 0, n: 0 }]));
}

/** The level of the whole shop, pulled towards the model itself. */
function fitShop(table: Table, residual: Float64Array, now: Fitted, spread: Spread): Fitted {
  for (let i = 0; i < residual.length; i += 1) residual[i] = (residual[i] ?? 0) + now.log;
  const all = groupMeans(table, residual, new Int32Array(residual.length), 1, spread);
  const v = all.variance[0] ?? 0;
  const log = ((all.mean[0] ?? 0) * PRIOR.shop) / (PRIOR.shop + v);
  for (let i = 0; i < residual.length; i += 1) residual[i] = (residual[i] ?? 0) - log;
  return { log, variance: (PRIOR.shop * v) / (PRIOR.shop + v), n: now.n };
}

/** Refits one factor on what the others leave; returns the variance between its groups. */
function fitFactor(
  table: Table,
  residual: Float64Array,
  effects: Fitted[],
  factor: Factor,
  spread: Spread,
): number {
  const group = table.group[factor];
  for (let i = 0; i < residual.length; i += 1)
    residual[i] = (residual[i] ?? 0) + (effects[group[i] ?? 0]?.log ?? 0);
  const means = groupMeans(table, residual, group, effects.length, spread);
  const pooled = poolMeans(means.mean, means.variance);
  const k = effects.length;
  const tau2 = (PRIOR.weight * PRIOR[factor] + (k - 1) * pooled.tau2) / (PRIOR.weight + k - 1);
  effects.forEach((effect, g) => {
    const v = means.variance[g] ?? 0;
    effect.log = believed(v, tau2, k) * (means.mean[g] ?? 0);
    effect.variance = (tau2 * v) / (tau2 + v);
    effect.n = means.n[g] ?? 0;
  });
  for (let i = 0; i < residual.length; i += 1)
    residual[i] = (residual[i] ?? 0) - (effects[group[i] ?? 0]?.log ?? 0);
  return tau2;
}
