import type { Minor } from '#core/shared/units.ts';
import type { MoneySums } from '#core/shared/views/figuresMoney.ts';

/** What one job, or somebody's share of one, brought. Minor units and whole minutes. */
export type Brought = {
  readonly netMinor: number;
  readonly materialMinor: number;
  readonly workedMin: number;
  readonly bayMin: number;
  /** What its hours cost, as far as is known; of `unknownMs` of them it is not. */
  readonly labourMinor: number;
  readonly unknownMs: number;
};

/** What jobs brought so far. */
export type Tally = { -readonly [K in keyof Brought]: number } & { jobs: number };

export function noTally(): Tally {
  return {
    ...{ jobs: 0, netMinor: 0, materialMinor: 0, labourMinor: 0 },
    ...{ workedMin: 0, unknownMs: 0, bayMin: 0 },
  };
}

/** Adds one job, or somebody's share of one. */
export function addBrought(to: Tally, of: Brought): void {
  to.jobs += 1;
  to.netMinor += of.netMinor;
  to.materialMinor += of.materialMinor;
  to.labourMinor += of.labourMinor;
  to.workedMin += of.workedMin;
  to.unknownMs += of.unknownMs;
  to.bayMin += of.bayMin;
}

/** What was added up, with the margin and what it is per hour. No jobs: all 0 and nothing per hour. */
export function moneySums(of: Tally): MoneySums {
  const margin = of.netMinor - of.materialMinor - of.labourMinor;
  const perHour = (minutes: number): Minor | null =>
    minutes === 0 ? null : (Math.round((margin * 60) / minutes) as Minor);
  return {
    ...{ jobs: of.jobs, workedMin: of.workedMin, bayMin: of.bayMin },
    netMinor: of.netMinor as Minor,
    materialMinor: of.materialMinor as Minor,
    labourMinor: of.labourMinor as Minor,
    unknownMin: Math.floor(of.unknownMs / 60_000),
    marginMinor: margin as Minor,
    perHourMinor: perHour(of.workedMin),
    perBayHourMinor: perHour(of.bayMin),
  };
}

/**
 * A job by the time each person worked on it, and by what each one's own hours cost. The shares sum to the job in every
 * figure: what rounding leaves over goes from one person to the next. Nobody worked: no shares.
 */
export function sharesOf<P extends string>(
  job: Brought,
  worked: readonly (Pick<Brought, 'labourMinor' | 'unknownMs'> & {
    readonly personId: P;
    readonly workedMs: number;
  })[],
): readonly (Brought & { readonly personId: P })[] {
  const all = worked.reduce((sum, w) => sum + w.workedMs, 0);
  if (all === 0) return [];
  const part = (whole: number, before: number, upTo: number): number =>
    Math.round((whole * upTo) / all) - Math.round((whole * before) / all);
  let before = 0;
  return worked.map(({ personId, workedMs, labourMinor, unknownMs }) => {
    const [from, to] = [before, before + workedMs];
    before = to;
    return {
      personId,
      netMinor: part(job.netMinor, from, to),
      materialMinor: part(job.materialMinor, from, to),
      workedMin: part(job.workedMin, from, to),
      bayMin: part(job.bayMin, from, to),
      labourMinor,
      unknownMs,
    };
  });
}
