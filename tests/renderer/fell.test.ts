import { describe, expect, it } from 'vitest';
import type { JobId } from '#core/shared/ids.ts';
import type { EpochMin, Ppm } from '#core/shared/units.ts';
import type { PromiseNow } from '#core/shared/views/bays.ts';
import { fellBetween } from '../../renderer/features/bays/useFell.ts';

const promise = (jobId: string, percent: number, level = 80): PromiseNow => {
  const at = 30_000_000 as EpochMin;
  return {
    ...{ jobId: jobId as JobId, number: 1041, who: 'Marit Vane', atMin: at, atRisk: false },
    ...{ nowPpm: (percent * 10_000) as Ppm, levelPpm: (level * 10_000) as Ppm },
    ...{ p50Min: at, p80Min: at, p95Min: at },
  };
};
const fell = (was: readonly PromiseNow[], is: readonly PromiseNow[]) =>
  fellBetween(was, is).map((f) => [f.now.jobId, f.wasPpm / 10_000, f.now.nowPpm / 10_000]);

describe('promises that a change made less sure', () => {
  it('are those that fell below how sure the shop promises, or by ten points, the least sure first', () => {
    const was = ['a', 'b', 'c', 'd', 'e'].map((id) => promise(id, 91));
    const is = [promise('a', 82), promise('b', 79), promise('c', 81), promise('d', 64), promise('e', 95)];
    expect(fell(was, is)).toEqual([
      ['d', 91, 64],
      ['b', 91, 79],
      ['c', 91, 81],
    ]);
  });

  it('leave out what fell by less than is shown, what was below before, and what is new', () => {
    expect(fell([promise('a', 80.2)], [promise('a', 79.9)])).toEqual([]);
    expect(fell([promise('a', 70)], [promise('a', 65)])).toEqual([]);
    expect(fell([], [promise('a', 10)])).toEqual([]);
  });

  it('are measured by their own chance where the desk chose a bolder one', () => {
    expect(fell([promise('a', 62, 60)], [promise('a', 58, 60)])).toEqual([['a', 62, 58]]);
    expect(fell([promise('a', 79, 60)], [promise('a', 72, 60)])).toEqual([]);
  });
});
