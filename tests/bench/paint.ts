import jstat from 'jstat';
import { bestChoice } from '#core/estimate/rules/knapsack.ts';
import { learn } from '#core/estimate/rules/learning.ts';
import { planJob } from '#core/estimate/rules/plan.ts';
import { bestWithin } from '#core/estimate/rules/stair.ts';
import { seeded } from '#core/shared/random.ts';
import { studentQuantile } from '#core/shared/statistics.ts';
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
  ];
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
