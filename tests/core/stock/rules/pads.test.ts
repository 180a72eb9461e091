import { describe, expect, it } from 'vitest';
import { backIn, mayGo, padShortage, piecesLacking, usesPerLife, wearMinor } from '#core/stock/rules/pads.ts';

describe('pads', () => {
  const none = { clean: 0, dirty: 0, washing: 0 };
  it('go clean, dirty, washing, clean and retire for good', () => {
    expect(mayGo('clean', 'dirty')).toBe(true);
    expect(mayGo('dirty', 'washing')).toBe(true);
    expect(mayGo('retired', 'clean')).toBe(false);
    expect(mayGo('clean', 'washing')).toBe(false);
  });
  it('names the first job that lacks clean ones, and whether a wash helps', () => {
    const needs = [
      { day: 1, jobId: 'dray', pieces: 2 },
      { day: 2, jobId: 'farrow', pieces: 6 },
    ];
    // 3 clean: 2 go to Dray, 1 is left for Farrow. Washed tonight the 7 dirty are back.
    const lack = padShortage({ ...none, clean: 3, dirty: 7 }, needs, 20);
    expect(lack).toEqual({ day: 2, jobId: 'farrow', needs: 6, has: 1, washHelps: true });
    expect(padShortage({ ...none, clean: 3, dirty: 1 }, needs, 20)?.washHelps).toBe(false);
    expect(padShortage({ ...none, clean: 8 }, needs, 20)).toBeNull();
  });
  it('counts what is in the machine as clean tomorrow', () => {
    expect(padShortage({ ...none, washing: 4 }, [{ day: 1, jobId: 'a', pieces: 4 }], 20)).toBeNull();
    expect(padShortage({ ...none, washing: 4 }, [{ day: 0, jobId: 'a', pieces: 4 }], 20)?.has).toBe(0);
  });
  it('waits for a wash as long as it takes: at a laundry dirty ones of today are no help tomorrow', () => {
    const needs = [{ day: 2, jobId: 'farrow', pieces: 6 }];
    const counts = { ...none, clean: 3, dirty: 7 };
    expect(padShortage(counts, needs, 20, { days: 2, back: 1 })?.washHelps).toBe(true);
    expect(padShortage(counts, needs, 20, { days: 3, back: 1 })?.washHelps).toBe(false);
    expect(piecesLacking(counts, needs, 20, { days: 3, back: 1 })).toBe(3);
    // what is in it went in yesterday: two of three days are left, a day too late
    const washing = { ...none, clean: 3, washing: 7 };
    expect([backIn(3, 1), backIn(3, 0), backIn(3, 9), backIn(1, 0)]).toEqual([2, 3, 1, 1]);
    expect(padShortage(washing, needs, 20, { days: 3, back: 2 })).toBeNull();
    expect(padShortage(washing, needs, 20, { days: 3, back: 3 })?.has).toBe(3);
  });
  it('buys what is lacking even when everything is washed each night', () => {
    const needs = [{ day: 3, jobId: 'a', pieces: 9 }];
    expect(piecesLacking({ ...none, clean: 2, dirty: 3 }, needs, 20)).toBe(4);
    expect(piecesLacking({ ...none, clean: 9 }, needs, 20)).toBe(0);
  });
  it('learns their life from retirements', () => {
    expect(usesPerLife(20, 0, 0)).toBe(20);
    // 4 imagined pieces of 20 uses, then 8 retired over 120 uses: (80 + 120) / 12
    expect(usesPerLife(20, 120, 8)).toBeCloseTo(16.6667, 4);
    // a piece of 12.00 that lasts 20 uses loses 0.60 a use
    expect(wearMinor(1200, 20, 3)).toBe(180);
  });
});
