import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { honestyOf } from '#core/figures/rules/honesty.ts';
import { hoursByCell, type PlaceRecord, utilizationOf } from '#core/figures/rules/utilization.ts';

const day: PlaceRecord = {
  open: [{ startMin: 480, endMin: 1080 }],
  attended: [{ startMin: 500, endMin: 620 }],
  cure: [{ startMin: 600, endMin: 700 }],
  occupied: [{ startMin: 490, endMin: 900 }],
  blocked: [{ startMin: 800, endMin: 900 }],
};

describe('the hours of a bay', () => {
  it('are attended, cure, waiting, blocked and idle, in that order of claim', () => {
    // 480–490 idle 10 · 490–500 waiting 10 · 500–620 attended 120 · 620–700 cure 80 · 700–800 waiting 100 · 800–900 blocked 100 · 900–1080 idle 180
    expect(utilizationOf(day, 0, 1440)).toEqual({
      availableMin: 600,
      attendedMin: 120,
      cureMin: 80,
      waitingMin: 110,
      blockedMin: 100,
      idleMin: 190,
    });
  });

  it('leave out what was done while closed', () => {
    expect(utilizationOf({ ...day, attended: [{ startMin: 1080, endMin: 1200 }] }, 0, 1440).attendedMin).toBe(
      0,
    );
  });

  it('are cut at the edges of cells, each minute in one of them', () => {
    const all = [{ startMin: 0, endMin: 100 }];
    const record = {
      open: all,
      attended: [{ startMin: 30, endMin: 60 }],
      cure: [],
      occupied: all,
      blocked: [],
    };
    // 0–50: 20 attended, 30 waiting · 50–80: 10 and 20 · 80–100: 20 waiting
    const told = hoursByCell(record, [0, 50, 80, 100]).map((p) => [
      p.availableMin,
      p.attendedMin,
      p.waitingMin,
    ]);
    expect(told).toEqual([
      [50, 20, 30],
      [30, 10, 20],
      [20, 0, 20],
    ]);
  });

  it('sum to the available minutes to the minute, over random records', () => {
    const stretch = fc
      .tuple(fc.integer({ min: 0, max: 1500 }), fc.integer({ min: 1, max: 400 }))
      .map(([startMin, length]) => ({ startMin, endMin: startMin + length }));
    const list = fc.array(stretch, { maxLength: 6 });
    fc.assert(
      fc.property(
        list,
        list,
        list,
        list,
        list,
        fc.constantFrom(1380, 1440, 1500),
        (open, attended, cure, occupied, blocked, length) => {
          const p = utilizationOf({ open, attended, cure, occupied, blocked }, 0, length);
          const minutes = Array.from({ length }, (_, m) => m).filter((m) =>
            open.some((o) => o.startMin <= m && m < o.endMin),
          ).length;
          expect(p.attendedMin + p.cureMin + p.waitingMin + p.blockedMin + p.idleMin).toBe(p.availableMin);
          expect(p.availableMin).toBe(minutes);
        },
      ),
      { numRuns: 200 },
    );
  });
});

describe('the honesty of estimates', () => {
  it('is actual over estimated, as the sums beside it are, and how many stayed within P80', () => {
    // 150 for 120; one of two within its P80
    const sums = honestyOf([
      { p50Min: 60, p80Min: 80, actualMin: 120 },
      { p50Min: 60, p80Min: 80, actualMin: 30 },
    ]);
    expect(sums).toEqual({
      stages: 2,
      estimatedMin: 120,
      actualMin: 150,
      driftPpm: 1_250_000,
      within: 1,
      // (0.8 · 40 + 0.2 · 50) / 2
      lossMin: 21,
    });
  });

  it('leaves out stages without a record', () => {
    expect(honestyOf([{ p50Min: 60, p80Min: 80, actualMin: 0 }]).stages).toBe(0);
  });
});
