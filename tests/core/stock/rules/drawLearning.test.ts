import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { normal, seeded } from '#core/shared/random.ts';
import { learnDraw, type PastDraw } from '#core/stock/rules/drawLearning.ts';

const plain = { technician: '', condition: '' };
const times = (n: number, row: PastDraw): PastDraw[] => Array.from({ length: n }, () => row);

describe('what a stage is learned to use', () => {
  it('keeps the plan while nothing is known and moves with evidence', () => {
    expect(learnDraw([], '', '')).toMatchObject({ factor: 1, stage: { n: 0 } });
    // 5 imagined stages of 100 and 5 real ones: (500 + 700) / (500 + 500)
    expect(learnDraw(times(5, { planned: 100, drawn: 140, ...plain }), '', '').factor).toBeCloseTo(1.2, 12);
  });
  it('gives nobody a factor of their own where all stages are theirs: the stage has it already', () => {
    const past = times(20, { planned: 100, drawn: 150, technician: 'a', condition: 'heavy' });
    const learned = learnDraw(past, 'a', 'heavy');
    expect(learned.technician.factor).toBeCloseTo(1, 9);
    expect(learned.condition.factor).toBeCloseTo(1, 9);
    // (500 + 3000) / (500 + 2000)
    expect(learned.factor).toBeCloseTo(1.4, 9);
  });
  it('pulls a technician with one stage most of the way to the mean of the stage', () => {
    const usual = times(30, { planned: 100, drawn: 100, technician: 'a', condition: 'light' });
    const once = [...usual, { planned: 100, drawn: 200, technician: 'b', condition: 'light' }];
    const { technician, factor } = learnDraw(once, 'b', 'light');
    expect(technician.n).toBe(1);
    // twice as much once: a fifth of the way is believed
    expect(factor).toBeGreaterThan(1.1);
    expect(factor).toBeLessThan(1.25);
  });
  it('gives a new technician and a paint never met the mean of the stage', () => {
    const past = times(9, { planned: 100, drawn: 130, technician: 'a', condition: 'light' });
    const learned = learnDraw(past, 'new', 'heavy');
    expect([learned.technician, learned.condition]).toEqual([
      { factor: 1, n: 0 },
      { factor: 1, n: 0 },
    ]);
    expect(learned.factor).toBe(learned.stage.factor);
  });
  it('does not lay on the paint what stages without anybody’s name used more', () => {
    const rows = (n: number, technician: string, condition: string, drawn: number): PastDraw[] =>
      times(n, { planned: 100, drawn, technician, condition });
    const past = [
      ...rows(60, '', 'heavy', 200),
      ...rows(20, '', 'light', 200),
      ...rows(20, 'a', 'heavy', 100),
      ...rows(60, 'a', 'light', 100),
    ];
    const { condition } = learnDraw(past, 'a', 'heavy');
    expect(condition.factor).toBeGreaterThan(0.97);
    expect(condition.factor).toBeLessThan(1.03);
  });
  it('takes a spilt bottle for four times the plan and no more', () => {
    const spilt = learnDraw([{ planned: 100, drawn: 100_000, ...plain }], '', '');
    expect(spilt.factor).toBeCloseTo((500 + 400) / 600, 12);
  });
  it('stays between nothing and four times the plan each, whatever the past', () => {
    const row = fc.record({
      planned: fc.integer({ min: 0, max: 1_000_000 }),
      drawn: fc.integer({ min: 0, max: 10_000_000 }),
      technician: fc.constantFrom('', 'a', 'b'),
      condition: fc.constantFrom('light', 'heavy'),
    });
    fc.assert(
      fc.property(fc.array(row, { maxLength: 40 }), fc.constantFrom('', 'a', 'new'), (past, who) => {
        const { factor, stage } = learnDraw(past, who, 'heavy');
        expect(Number.isFinite(factor) && factor > 0).toBe(true);
        expect(stage.factor).toBeLessThanOrEqual(4);
      }),
    );
  });
});

/** Stages whose true factors are known: the plan is off by 1.2, each technician and paint by their own, chance by a quarter. */
const TRUE = { stage: 1.2, who: { a: 0.8, b: 1, c: 1.3 }, paint: { light: 0.85, heavy: 1.2 } } as const;
type Who = keyof typeof TRUE.who;
type Paint = keyof typeof TRUE.paint;
type Known = PastDraw & { readonly technician: Who; readonly condition: Paint };

function known(seed: number, count: number): readonly Known[] {
  const random = seeded(seed);
  return Array.from({ length: count }, (): Known => {
    const technician = (['a', 'b', 'c'] as const)[Math.floor(random() * 3)] ?? 'a';
    // heavy paint goes to c more often than to others: the two must not be taken for one another
    const condition = random() < (technician === 'c' ? 0.8 : 0.35) ? 'heavy' : 'light';
    const planned = Math.round(40_000 * Math.exp(0.4 * normal(random)));
    const truth = TRUE.stage * TRUE.who[technician] * TRUE.paint[condition];
    const drawn = Math.round(planned * truth * Math.exp(0.25 * normal(random) - 0.25 ** 2 / 2));
    return { planned, drawn, technician, condition };
  });
}

describe('a past of which the truth is known, 20 seeds', () => {
  const seeds = Array.from({ length: 20 }, (_, i) => i + 1);
  const off = (seed: number, n: number, guess: (past: readonly Known[], row: Known) => number): number => {
    const all = known(seed, n + 40);
    const past = all.slice(0, n);
    const held = all.slice(n);
    return held.reduce((sum, r) => sum + Math.abs(Math.log(r.drawn / guess(past, r))), 0) / held.length;
  };
  const all3 = (past: readonly Known[], r: Known): number =>
    r.planned * learnDraw(past, r.technician, r.condition).factor;
  const stageAlone = (past: readonly Known[], r: Known): number => r.planned * learnDraw(past, '', '').factor;
  const mean = (n: number, guess: typeof all3): number =>
    seeds.reduce((sum, seed) => sum + off(seed, n, guess), 0) / seeds.length;

  it('comes closer to held-back stages than the plan and than the mean of the stage, from 10 stages on', () => {
    for (const n of [10, 30, 100]) {
      const learned = mean(n, all3);
      expect(learned).toBeLessThan(mean(n, (_, r) => r.planned));
      expect(learned).toBeLessThan(mean(n, stageAlone));
    }
  });
  it('comes within a tenth of the least that chance leaves, after 240 stages', () => {
    const truth = mean(
      240,
      (_, r) => r.planned * TRUE.stage * TRUE.who[r.technician] * TRUE.paint[r.condition],
    );
    expect(mean(240, all3)).toBeLessThan(1.1 * truth);
  });
  it('finds each true factor to a twentieth, after 240 stages', () => {
    for (const who of ['a', 'b', 'c'] as const)
      for (const paint of ['light', 'heavy'] as const) {
        const found =
          seeds.reduce((sum, seed) => sum + learnDraw(known(seed, 240), who, paint).factor, 0) / seeds.length;
        expect(found / (TRUE.stage * TRUE.who[who] * TRUE.paint[paint])).toBeCloseTo(1, 1);
      }
  });
});
