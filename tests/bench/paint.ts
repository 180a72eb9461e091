import { readFileSync } from 'node:fs';
import jstat from 'jstat';
import { bestChoice } from '#core/estimate/rules/knapsack.ts';
import { learn } from '#core/estimate/rules/learning.ts';
import { planJob } from '#core/estimate/rules/plan.ts';
import { bestWithin } from '#core/estimate/rules/stair.ts';
import { leastSquares } from '#core/shared/leastSquares.ts';
import { seeded } from '#core/shared/random.ts';
import { studentQuantile } from '#core/shared/statistics.ts';
import { backTest, share } from '#tests/core/estimate/backTest.ts';
import { madeJobs } from '#tests/core/estimate/generated.ts';
import { allAt, caseOf, panelCases } from '#tests/core/estimate/helpers.ts';
import { type BenchRow, timed } from './measure.ts';

/** Estimates, the optimum and the learning behind them. */
export async function rows(): Promise<readonly BenchRow[]> {
  const c = caseOf({ panels: panelCases('saloon', 'moderate') });
  const levels = allAt(c, 'twoStage');
  const past = madeJobs(1100, 11)
    .flatMap((j) =>
      j.stages.map((s) => ({
        jobId: j.id,
        kind: s.kind,
        technician: j.technician,
        condition: j.condition,
        estimatedMin: s.estimated,
        actualMin: s.actual,
        ageDays: 730 - j.day,
      })),
    )
    .slice(0, 5000);
  const classes = levelled();
  const plain = await timed(300, () => planJob(c, levels));
  const learned = await timed(60, () => planJob({ ...c, calibration: learn(past) }, levels));
  const best = await timed(100, (i) => bestChoice(classes, 400 + ((i * 7) % 600)));
  const car = await timed(60, (i) => bestWithin(c, 'money', 60_000 + ((i * 900) % 90_000), false));
  return [
    row('estimate of 23 panels', plain, '< 5 ms'),
    row(`estimate with calibration from ${past.length} past stages`, learned, '< 10 ms'),
    row('optimum, 23 panels × 5 levels', best, '< 20 ms'),
    row('best levels of a saloon within a ceiling', car, '< 20 ms'),
    {
      what: "Student's t .975 with 16 degrees of freedom, error to the published 2.119905299",
      measured: Math.abs(studentQuantile(0.975, 16) - 2.119905299).toExponential(1),
      beside: `jstat ${Math.abs(jstat.jStat.studentt.inv(0.975, 16) - 2.119905299).toExponential(1)}`,
      asked: '5e-10',
    },
    ...fits(),
    backTested(),
  ];
}

type Nist = Readonly<Record<string, { readonly coefficients: number[]; readonly rows: number[][] }>>;
const ASKED = {
  Norris: '1e-12',
  NoInt1: '1e-12',
  NoInt2: '1e-12',
  Pontius: '1e-9',
  Longley: '1e-9',
} as const;

/** NIST StRD regression sets: the worst coefficient of our fit and of the library's, against the certified ones. */
function fits(): readonly BenchRow[] {
  const file = new URL('../reference/data/nist-regression.json', import.meta.url);
  const sets = JSON.parse(readFileSync(file, 'utf8')) as Nist;
  return Object.entries(ASKED).map(([name, asked]) => {
    const { rows = [], coefficients = [] } = sets[name] ?? {};
    const x = rows.map(([, ...right]) => {
      if (name.startsWith('NoInt')) return right;
      return name === 'Pontius' ? [1, ...right, (right[0] ?? 0) ** 2] : [1, ...right];
    });
    const y = rows.map(([left = 0]) => left);
    const worst = (found: readonly number[]): string =>
      Math.max(...coefficients.map((c, i) => Math.abs((found[i] ?? 0) / c - 1))).toExponential(1);
    const ours = worst(leastSquares(x, y)?.coefficients ?? []);
    return { what: `NIST ${name}, worst coefficient`, measured: ours, beside: theirs(x, y, worst), asked };
  });
}

/** jstat has no fit of a single column: what a rate through the origin needs. */
function theirs(x: number[][], y: number[], worst: (found: readonly number[]) => string): string {
  try {
    return `jstat ${worst(jstat.jStat.models.ols(y, x).coef)}`;
  } catch {
    return 'jstat: no fit through the origin';
  }
}

function backTested(): BenchRow {
  const held = backTest(2000, 20261125);
  const said = (rows: typeof held): string => `${(100 * share(rows)).toFixed(1)} %`;
  const by = ['light', 'moderate', 'heavy'].map(
    (condition) => `${condition} ${said(held.filter((h) => h.condition === condition))}`,
  );
  return {
    what: 'made-up jobs within their P80, of 2,000',
    measured: `${said(held)}; ${by.join(', ')}`,
    asked: '80 % ± 3',
  };
}

function row(what: string, t: { readonly p50: number; readonly p95: number }, asked: string): BenchRow {
  return { what, measured: `${t.p50.toFixed(2)} ms, p95 ${t.p95.toFixed(2)} ms`, asked };
}

/** Random levels whose costs are no round numbers: the hardest case for lists of undominated choices. */
function levelled(): { cost: number; gain: number }[][] {
  const random = seeded(5);
  return Array.from({ length: 23 }, () => {
    let cost = 0;
    let gain = 0;
    return Array.from({ length: 5 }, (_, i) => {
      if (i > 0) {
        cost += 5 + random() * 25;
        gain += Math.round(random() * 40_000);
      }
      return { cost, gain };
    });
  });
}
