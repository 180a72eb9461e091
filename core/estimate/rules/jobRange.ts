import { meanMinutes, quantilesOf } from './hours.ts';

/** Attended stage as its plan has it: whole minutes, and its lognormal. */
export type StageHours = {
  readonly p20Min: number;
  readonly p50Min: number;
  readonly p80Min: number;
  readonly mu: number;
  readonly sigma: number;
};
export type HoursRange = { readonly p20Min: number; readonly p50Min: number; readonly p80Min: number };

/**
 * P20, P50 and P80 of a whole job, minutes. `sigma` is that of the plan's own total (log minutes), which holds what one
 * car shares in all its stages; it is laid round the mean of the stages that are still planned, so that a stage that was
 * dropped or added moves the range with it. Without a plan (null) the stages' own ranges are added: the widest, as if
 * all went wrong together. No stages: zeros.
 * @source sum of lognormals by their mean: L. F. Fenton, IRE Trans. Commun. Syst. 8 (1960) 57–67
 */
export function jobRange(stages: readonly StageHours[], sigma: number | null): HoursRange {
  const sum = (pick: (s: StageHours) => number): number => stages.reduce((all, s) => all + pick(s), 0);
  const mean = sum(meanMinutes);
  if (sigma === null || sum((s) => s.p50Min) === 0)
    return { p20Min: sum((s) => s.p20Min), p50Min: sum((s) => s.p50Min), p80Min: sum((s) => s.p80Min) };
  const { p20Min, p50Min, p80Min } = quantilesOf({ mu: Math.log(mean) - sigma ** 2 / 2, sigma });
  return { p20Min, p50Min, p80Min };
}
