import { describe, expect, it } from 'vitest';
import type { ReplanView } from '#core/shared/views/plan.ts';
import { betterLook } from '../../renderer/features/bays/betterLook.ts';

const look = (lateMin: number, more: Partial<ReplanView> = {}): ReplanView => {
  const after = {
    broken: 0,
    behind: 0,
    asked: 0,
    lateMin,
    weighedMin: lateMin,
    lateJobs: 1,
    touched: 1,
    sumReadyMin: 1,
  };
  return { planRevision: 7, proved: 'no', after, ...more } as ReplanView;
};

describe('a longer look for a better plan', () => {
  it('is shown where it found a better one', () => {
    const found = look(100);
    expect(betterLook(look(200), found)).toEqual({ view: found, nothingBetter: false });
    expect(betterLook(null, found)).toEqual({ view: found, nothingBetter: false });
  });

  it('leaves what was in hand where it ended worse, or no better', () => {
    for (const late of [200, 250]) {
      const before = look(200);
      expect(betterLook(before, look(late))).toEqual({ view: before, nothingBetter: true });
    }
  });

  it('is shown in any case where the bays were planned otherwise meanwhile, or where it proves the same', () => {
    const changed = look(250, { planRevision: 8 });
    expect(betterLook(look(200), changed).view).toBe(changed);
    const proof = look(200, { proved: 'plan' });
    expect(betterLook(look(200), proof)).toEqual({ view: proof, nothingBetter: false });
  });
});
