import type { StageKind } from '../../shared/vocabulary.ts';
import type { Calibration } from './learning.ts';

/** What a test spot on this very car showed: one section, or several, with the step that was tried. */
export type TestSpot = { readonly kind: StageKind; readonly actualS: number; readonly modelS: number };

/** What is known of one stage kind of this job, log minutes: the job's own part and that of this kind together. */
export type Tried = {
  readonly log: number;
  readonly variance: number;
  /** Covariance with every other stage of the job. */
  readonly shared: number;
  /** Part of the variance between stages that the spots have told of; the rest is the day's chance and stays. */
  readonly told: number;
  readonly spots: number;
};

export type AfterSpots = {
  /** What all stages of the job share. */
  readonly jobLog: number;
  readonly jobVariance: number;
  readonly tried: ReadonlyMap<StageKind, Tried>;
};

/**
 * Scatter (log) of a single test spot against the whole stage: a spot is done with care and without interruptions.
 * @source common practice, no source
 */
export const SPOT_SIGMA = 0.12;

/**
 * Share of what one stage differs by beyond all effects that is this car's (its paint under this pad), so that a spot
 * can show it; the rest is the day's chance. One stage of a kind a job cannot tell the two apart.
 * @source common practice, no source
 */
const OF_THE_CAR = 0.5;

/**
 * What is known of a job after its test spots. A spot sees what the whole job shares plus what is particular to the
 * stage that was tried: nearly all of it is believed for that stage, while other stages follow only as far as cars that
 * are slow in one stage are slow in the others. No spots: the prior. `modelS` already holds the shop's calibration for
 * the stage kind.
 * @source best linear prediction under normal effects: C. R. Henderson, Biometrics 31 (1975) 423–447 (from memory)
 */
export function jobAfterSpots(
  spots: readonly TestSpot[],
  c: Pick<Calibration, 'jobVariance' | 'stageVariance'>,
): AfterSpots {
  const own = OF_THE_CAR * c.stageVariance;
  const seen = meansByKind(spots);
  let [precision, sum] = [1 / c.jobVariance, 0];
  for (const { mean, variance } of seen.values()) {
    precision += 1 / (own + variance);
    sum += mean / (own + variance);
  }
  const [jobLog, jobVariance] = [sum / precision, 1 / precision];
  const tried = new Map<StageKind, Tried>();
  for (const [kind, { mean, variance, spots: n }] of seen) {
    // Of what is left beside the job's own part, so much is the stage's.
    const kept = own / (own + variance);
    tried.set(kind, {
      log: (1 - kept) * jobLog + kept * mean,
      variance: (1 - kept) ** 2 * jobVariance + (1 - kept) * own,
      shared: (1 - kept) * jobVariance,
      told: own,
      spots: n,
    });
  }
  return { jobLog, jobVariance, tried };
}

type Seen = { readonly mean: number; readonly variance: number; readonly spots: number };

/** Mean log ratio of the spots of each stage kind, and the variance of that mean. */
function meansByKind(spots: readonly TestSpot[]): ReadonlyMap<StageKind, Seen> {
  const logs = new Map<StageKind, number[]>();
  for (const { kind, actualS, modelS } of spots)
    if (actualS > 0 && modelS > 0) logs.set(kind, [...(logs.get(kind) ?? []), Math.log(actualS / modelS)]);
  return new Map(
    [...logs].map(([kind, all]) => {
      const mean = all.reduce((a, b) => a + b, 0) / all.length;
      return [kind, { mean, variance: SPOT_SIGMA ** 2 / all.length, spots: all.length }];
    }),
  );
}
