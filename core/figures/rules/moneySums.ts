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

/** Adds up what jobs brought. No jobs: all 0 and nothing per hour. */
export function moneySums(all: readonly Brought[]): MoneySums {
  const sum = (of: (b: Brought) => number): number => all.reduce((total, b) => total + of(b), 0);
  const [net, material, labour] = [
    sum((b) => b.netMinor),
    sum((b) => b.materialMinor),
    sum((b) => b.labourMinor),
  ];
  const margin = net - material - labour;
  const [workedMin, bayMin] = [sum((b) => b.workedMin), sum((b) => b.bayMin)];
  const perHour = (minutes: number): Minor | null =>
    minutes === 0 ? null : (Math.round((margin * 60) / minutes) as Minor);
  return {
    ...{ jobs: all.length, workedMin, bayMin },
    netMinor: net as Minor,
    materialMinor: material as Minor,
    labourMinor: labour as Minor,
    unknownMin: Math.floor(sum((b) => b.unknownMs) / 60_000),
    marginMinor: margin as Minor,
    perHourMinor: perHour(workedMin),
    perBayHourMinor: perHour(bayMin),
  };
}

/**
 * A job by the minutes each person worked on it, and by what each one's own hours cost. The shares sum to the job in every
 * figure: what rounding leaves over goes from one person to the next. Nobody worked: no shares.
 */
export function sharesOf<P extends string>(
  job: Brought,
  worked: readonly (Pick<Brought, 'labourMinor' | 'unknownMs'> & {
    readonly personId: P;
    readonly minutes: number;
  })[],
): readonly (Brought & { readonly personId: P })[] {
  const all = worked.reduce((sum, w) => sum + w.minutes, 0);
  if (all === 0) return [];
  const part = (whole: number, before: number, upTo: number): number =>
    Math.round((whole * upTo) / all) - Math.round((whole * before) / all);
  let before = 0;
  return worked.map(({ personId, minutes, labourMinor, unknownMs }) => {
    const [from, to] = [before, before + minutes];
    before = to;
    return {
      personId,
      netMinor: part(job.netMinor, from, to),
      materialMinor: part(job.materialMinor, from, to),
      workedMin: part(job.workedMin, from, to),
      bayMin: part(job.bayMin, from, to),
      ...{ labourMinor, unknownMs },
    };
  });
}
