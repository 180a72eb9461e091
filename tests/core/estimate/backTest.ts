import { type Duration, stageDuration, totalOf } from '#core/estimate/rules/hours.ts';
import { learn, noHistory } from '#core/estimate/rules/learning.ts';
import type { PastStage } from '#core/estimate/rules/past.ts';
import { lognormalQuantile } from '#core/shared/statistics.ts';
import { type MadeJob, madeJobs } from './generated.ts';

/** The made-up past as the shop's own finished stages. */
export function rowsOf(jobs: readonly MadeJob[], today: number): PastStage[] {
  return jobs.flatMap((j) =>
    j.stages.map((s) => ({
      jobId: j.id,
      kind: s.kind,
      technician: j.technician,
      condition: j.condition,
      estimatedMin: s.estimated,
      actualMin: s.actual,
      ageDays: today - j.day,
    })),
  );
}

/** Whether one made-up job stayed within the P80 it was promised, and within that of stages that share nothing. */
export type Held = { readonly condition: string; readonly together: boolean; readonly apart: boolean };

/** Jobs that only teach: a shop promises nothing from nothing. */
const TAUGHT = 100;
const LEARN_EVERY = 25;
const LEARN_FROM = 900;

/**
 * Promises `count` jobs one after the other, each from what the jobs before it taught, and holds them against what
 * they took.
 */
export function backTest(count: number, seed: number): readonly Held[] {
  const jobs = madeJobs(count + TAUGHT, seed);
  let c = noHistory();
  return jobs.flatMap((job, n): readonly Held[] => {
    if (n % LEARN_EVERY === 0) c = learn(rowsOf(jobs.slice(Math.max(0, n - LEARN_FROM), n), job.day));
    if (n < TAUGHT) return [];
    const unseen = { jobLog: 0, jobVariance: c.jobVariance, tried: new Map() };
    const knowledge = { technician: null, condition: job.condition, ...unseen };
    const durations = job.stages.map((s) => stageDuration(s.estimated, s.kind, knowledge, c));
    const actual = job.stages.reduce((sum, s) => sum + s.actual, 0);
    return [
      {
        condition: job.condition,
        together: actual <= p80(durations),
        apart: actual <= p80(durations.map((d) => ({ ...d, shared: 0 }))),
      },
    ];
  });
}

function p80(durations: readonly Duration[]): number {
  const total = totalOf(durations);
  return lognormalQuantile(0.8, total.mu, total.sigma);
}

/** Share of jobs that stayed within their P80. */
export function share(rows: readonly Held[]): number {
  return rows.filter((r) => r.together).length / rows.length;
}
