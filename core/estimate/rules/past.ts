import type { StageKind } from '../../shared/vocabulary.ts';

/** A finished stage of the past. Minutes > 0. */
export type PastStage = {
  readonly jobId: string;
  readonly kind: StageKind;
  readonly technician: string;
  /** Paint condition of the job: worst severity found, or the purpose for jobs without paint work. */
  readonly condition: string;
  readonly estimatedMin: number;
  readonly actualMin: number;
  readonly ageDays: number;
};

export const FACTORS = ['kind', 'technician', 'condition'] as const;
export type Factor = (typeof FACTORS)[number];

/**
 * What is assumed before the shop has a history, and how many past groups it weighs as much as.
 * @source common practice, no source: hours scatter by a quarter to a third of themselves
 */
export const PRIOR: Readonly<Record<Factor | PriorKey, number>> = {
  shop: 0.09,
  kind: 0.02,
  technician: 0.015,
  condition: 0.015,
  job: 0.05,
  stage: 0.06,
  weight: 4,
  varianceWeight: 30,
};

type PriorKey = 'shop' | 'job' | 'stage' | 'weight' | 'varianceWeight';

/** Half-life of a past stage's weight, days: shops drift. */
const HALF_LIFE_DAYS = 180;
/** A stopwatch left running is not a lesson: ratios are held within a factor of four. */
const MOST_LOG = Math.log(4);

/** Columns of the past, with every group as a small number: the loops below run over thousands of rows. */
export type Table = {
  readonly y: Float64Array;
  readonly w: Float64Array;
  readonly job: Int32Array;
  readonly jobs: number;
  readonly group: Readonly<Record<Factor, Int32Array>>;
  readonly names: Readonly<Record<Factor, readonly string[]>>;
};

export type Spread = { readonly job: number; readonly stage: number };

export function tabulate(rows: readonly PastStage[]): Table {
  const job = numbers(rows, (r) => r.jobId);
  const kind = numbers(rows, (r) => r.kind);
  const technician = numbers(rows, (r) => r.technician);
  const condition = numbers(rows, (r) => r.condition);
  return {
    y: Float64Array.from(rows, (r) => clamp(Math.log(r.actualMin / r.estimatedMin))),
    w: Float64Array.from(rows, (r) => 0.5 ** (Math.max(0, r.ageDays) / HALF_LIFE_DAYS)),
    job: job.of,
    jobs: job.names.length,
    group: { kind: kind.of, technician: technician.of, condition: condition.of },
    names: { kind: kind.names, technician: technician.names, condition: condition.names },
  };
}

function clamp(log: number): number {
  return Math.max(-MOST_LOG, Math.min(MOST_LOG, log));
}

function numbers(
  rows: readonly PastStage[],
  of: (row: PastStage) => string,
): { readonly of: Int32Array; readonly names: readonly string[] } {
  const known = new Map<string, number>();
  const result = Int32Array.from(rows, (row) => {
    const name = of(row);
    const at = known.get(name) ?? known.size;
    known.set(name, at);
    return at;
  });
  return { of: result, names: [...known.keys()] };
}

type GroupMeans = { readonly mean: number[]; readonly variance: number[]; readonly n: number[] };

/**
 * Weighted mean of each group's residuals and its variance. Rows of one job share the job's effect, so they do not
 * count as independent: variance = (σ²·Σw² + σ_job²·Σ_job(Σw)²) / (Σw)².
 */
export function groupMeans(
  table: Table,
  residual: Float64Array,
  group: Int32Array,
  k: number,
  spread: Spread,
): GroupMeans {
  const sum = new Float64Array(k);
  const weight = new Float64Array(k);
  const squares = new Float64Array(k);
  const n = new Float64Array(k);
  const shared = new Float64Array(k * table.jobs);
  for (let i = 0; i < residual.length; i += 1) {
    const g = group[i] ?? 0;
    const w = table.w[i] ?? 0;
    sum[g] = (sum[g] ?? 0) + w * (residual[i] ?? 0);
    weight[g] = (weight[g] ?? 0) + w;
    squares[g] = (squares[g] ?? 0) + w * w;
    n[g] = (n[g] ?? 0) + 1;
    const cell = g * table.jobs + (table.job[i] ?? 0);
    shared[cell] = (shared[cell] ?? 0) + w;
  }
  const between = new Float64Array(k);
  for (let cell = 0; cell < shared.length; cell += 1) {
    const g = Math.floor(cell / table.jobs);
    between[g] = (between[g] ?? 0) + (shared[cell] ?? 0) ** 2;
  }
  const of = Array.from({ length: k }, (_, g) => g);
  return {
    mean: of.map((g) => (sum[g] ?? 0) / (weight[g] ?? 1)),
    variance: of.map(
      (g) => (spread.stage * (squares[g] ?? 0) + spread.job * (between[g] ?? 0)) / (weight[g] ?? 1) ** 2,
    ),
    n: of.map((g) => n[g] ?? 0),
  };
}

/**
 * Variance within jobs and between jobs by the analysis of variance for unequal group sizes, each with the prior
 * weighing as much as `varianceWeight` degrees of freedom.
 * @source one-way random effects, S. R. Searle, Linear Models (1971) ch. 10, from memory
 */
export function spreads(table: Table, residual: Float64Array): Spread {
  const n = new Float64Array(table.jobs);
  const sum = new Float64Array(table.jobs);
  let square = 0;
  let total = 0;
  for (let i = 0; i < residual.length; i += 1) {
    const j = table.job[i] ?? 0;
    const r = residual[i] ?? 0;
    n[j] = (n[j] ?? 0) + 1;
    sum[j] = (sum[j] ?? 0) + r;
    square += r * r;
    total += r;
  }
  const N = residual.length;
  const J = table.jobs;
  const means = sum.reduce((a, s, j) => a + s ** 2 / (n[j] ?? 1), 0);
  const within = square - means;
  const between = means - total ** 2 / N;
  const p = PRIOR.varianceWeight;
  const stage = (p * PRIOR.stage + within) / (p + N - J);
  const size = J > 1 ? (N - n.reduce((a, x) => a + x * x, 0) / N) / (J - 1) : 1;
  const raw = J > 1 ? Math.max(0, (between / (J - 1) - (N > J ? within / (N - J) : stage)) / size) : 0;
  return { stage, job: (p * PRIOR.job + (J - 1) * raw) / (p + J - 1) };
}
