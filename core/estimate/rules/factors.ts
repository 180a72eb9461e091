import { normalQuantile } from '../../shared/statistics.ts';
import type { FactorView } from '../../shared/views/estimate.ts';
import type { StageKind } from '../../shared/vocabulary.ts';
import type { JobKnowledge } from './hours.ts';
import type { Calibration, Effect } from './learning.ts';

const Z90 = normalQuantile(0.9);

/** The evidence behind a plan's hours: every factor it used, from how much, with its 80 % interval. */
export function factorsOf(
  kinds: readonly StageKind[],
  c: Calibration,
  job: JobKnowledge,
  spots: number,
): FactorView[] {
  const used: FactorView[] = [view('shop', '', c.shop)];
  for (const kind of kinds) used.push(view('stage', kind, c.kind.get(kind) ?? unseen(c.unseen.kind)));
  used.push(view('condition', job.condition, c.condition.get(job.condition) ?? unseen(c.unseen.condition)));
  for (const [kind, tried] of job.tried) used.push(view('testSpot', kind, { ...tried, n: tried.spots }));
  const others = { log: job.jobLog, variance: job.jobVariance };
  used.push(view(spots > 0 ? 'testSpot' : 'job', '', { ...others, n: spots > 0 ? spots : c.jobs }));
  return used;
}

/** Every factor that finished work has taught, for the page that shows the learning. */
export function learnedFactors(c: Calibration): FactorView[] {
  const all = [view('shop', '', c.shop)];
  for (const [kind, effect] of c.kind) all.push(view('stage', kind, effect));
  for (const [person, effect] of c.technician) all.push(view('technician', person, effect));
  for (const [condition, effect] of c.condition) all.push(view('condition', condition, effect));
  all.push(view('job', '', { log: 0, variance: c.jobVariance, n: c.jobs }));
  return all;
}

function unseen(variance: number): Effect {
  return { log: 0, variance, n: 0 };
}

function view(what: FactorView['what'], of: string, effect: Effect): FactorView {
  const half = Z90 * Math.sqrt(effect.variance);
  return {
    what,
    of,
    factor: Math.exp(effect.log),
    n: effect.n,
    low: Math.exp(effect.log - half),
    high: Math.exp(effect.log + half),
  };
}
