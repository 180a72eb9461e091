import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { asItWent, type Done, drawnStays } from '#core/bays/rules/asItWent.ts';
import type { Piece } from '#core/bays/rules/model.ts';
import type { BayId, JobId, PersonId, StageId } from '#core/shared/ids.ts';
import type { StageState } from '#core/shared/vocabulary.ts';
import { job, stage } from './boards.ts';

const by = (startMin: number, endMin: number, personIds: readonly PersonId[] = []): Done => ({
  ...{ startMin, endMin, personIds },
});
const piece = (id: string, startMin: number, endMin: number): Piece => ({
  ...{ stageId: id as StageId, bayId: 'b' as BayId, personIds: [] },
  ...{ startMin, endMin, dwellEndMin: endMin },
});
const car = (states: Readonly<Record<string, StageState>>) =>
  job(
    'j',
    Object.entries(states).map(([id, state]) => stage(id, 60, { state })),
    { start: { kind: 'here', bayId: 'b' as BayId, fromMin: 0 } },
  );
const drawn = (pieces: readonly Piece[]) => pieces.map((p) => [p.stageId, p.startMin, p.endMin]);

describe('a car’s work as it is drawn', () => {
  it('lies where it was done; what nobody has begun lies from now on, and pushes the rest', () => {
    // The cut was planned 9:00–11:00 and took until 13:00; refining was to begin at 11:00, checking at 12:00.
    const plan = [piece('cut', 540, 660), piece('refine', 660, 720), piece('check', 720, 740)];
    const done = new Map<StageId, Done>([['cut' as StageId, by(545, 780)]]);
    const states = { cut: 'done', refine: 'planned', check: 'planned' } as const;
    expect(drawn(asItWent(car(states), plan, done, 790))).toEqual([
      ['cut', 545, 780],
      ['refine', 790, 850],
      ['check', 850, 870],
    ]);
  });

  it('is drawn once though it was planned in two pieces and done within the first', () => {
    const plan = [piece('cut', 540, 660), piece('cut', 1980, 2040)];
    const done = new Map<StageId, Done>([['cut' as StageId, by(540, 650)]]);
    expect(drawn(asItWent(car({ cut: 'done' }), plan, done, 790))).toEqual([['cut', 540, 650]]);
  });

  it('is not drawn as drying where it was done before its planned end', () => {
    const done = new Map<StageId, Done>([['mask' as StageId, by(537, 570)]]);
    const [mask] = asItWent(car({ mask: 'done' }), [piece('mask', 562, 598)], done, 570);
    expect(mask).toMatchObject({ startMin: 537, endMin: 570, dwellEndMin: 570 });
    const sealed = { ...car({}), stages: [stage('seal', 30, { state: 'done', dwellMin: 60 })] };
    const seal = { ...piece('seal', 540, 570), dwellEndMin: 630 };
    const went = new Map<StageId, Done>([['seal' as StageId, by(535, 560)]]);
    expect(asItWent(sealed, [seal], went, 565)).toMatchObject([{ endMin: 560, dwellEndMin: 620 }]);
  });

  it('lies from where it was begun while it is in hand, before or after its planned start', () => {
    for (const began of [570, 612]) {
      for (const state of ['inWork', 'paused'] as const) {
        const went = new Map<StageId, Done>([['cut' as StageId, by(began, 650)]]);
        const plan = [piece('cut', 598, 700), piece('cut', 1980, 2040)];
        expect(drawn(asItWent(car({ cut: state }), plan, went, 650))).toEqual([
          ['cut', began, 700],
          ['cut', 1980, 2040],
        ]);
      }
    }
  });

  it('leaves the plan of a car that has not come, and of what is still to come, as it is', () => {
    const plan = [piece('cut', 540, 660), piece('refine', 900, 960)];
    const expected = {
      ...car({ cut: 'planned', refine: 'planned' }),
      start: { kind: 'agreed', dropOffMin: 500 },
    } as const;
    expect(asItWent(expected, plan, new Map(), 700)).toEqual(plan);
    expect(asItWent(car({ cut: 'planned', refine: 'planned' }), plan, new Map(), 500)).toEqual(plan);
  });

  it('never draws waiting work before now, nor two pieces over each other', () => {
    const lengths = fc.array(fc.integer({ min: 1, max: 300 }), { minLength: 1, maxLength: 6 });
    fc.assert(
      fc.property(lengths, fc.integer({ min: 0, max: 1500 }), (all, now) => {
        const from = (i: number): number => all.slice(0, i).reduce((sum, n) => sum + n, 480);
        const plan = all.map((n, i) => piece(`s${i}`, from(i), from(i) + n));
        const states = Object.fromEntries(all.map((_, i) => [`s${i}`, 'planned' as const]));
        const out = asItWent(car(states), plan, new Map(), now);
        expect(out.map((p) => p.endMin - p.startMin)).toEqual(all);
        out.forEach((p, i) => {
          expect(p.startMin).toBeGreaterThanOrEqual(Math.max(now, out[i - 1]?.endMin ?? 0));
        });
      }),
    );
  });

  describe('of a stage that was over before it was to begin', () => {
    const ines = 'ines' as PersonId;
    const plan = {
      jobId: 'j' as JobId,
      stays: [
        { bayId: 'yard' as BayId, arriveMin: 480, leaveMin: 840 },
        { bayId: 'b' as BayId, arriveMin: 840, leaveMin: 1000 },
      ],
      pieces: [piece('wash', 850, 900), piece('cut', 900, 960)],
    };
    const done = new Map<StageId, Done>([['wash' as StageId, by(500, 530, [ines])]]);
    const states = { wash: 'done', cut: 'planned' } as const;

    it('lies where the car stood, in the hands that did it, before and after its planned hour', () => {
      for (const [now, kept] of [
        [600, plan],
        // Work done early holds nobody and is not in the plan any more.
        [600, { ...plan, pieces: plan.pieces.slice(1) }],
        [880, plan],
      ] as const) {
        const [yard, bay] = drawnStays(car(states), kept, done, now);
        expect(yard?.pieces).toEqual([
          { ...piece('wash', 500, 530), bayId: 'yard', personIds: [ines], dwellEndMin: 530 },
        ]);
        expect(bay?.pieces.map((p) => p.stageId)).toEqual(['cut']);
      }
    });

    it('draws a bay that it was driven into before its hour from when work on it began there', () => {
      // The cut was planned from 900 on, in a bay from 840 on, and begun at 820.
      const states = { wash: 'done', cut: 'done' } as const;
      const kept = { ...plan, pieces: [piece('cut', 900, 960)] };
      const done = new Map<StageId, Done>([['cut' as StageId, by(820, 930, [ines])]]);
      const [yard, bay] = drawnStays(car(states), kept, done, 950);
      expect([yard?.stay.arriveMin, yard?.stay.leaveMin]).toEqual([480, 820]);
      expect([bay?.stay.arriveMin, bay?.stay.leaveMin]).toEqual([820, 1000]);
      expect(drawn(bay?.pieces ?? [])).toEqual([['cut', 820, 930]]);
    });

    it('draws a bay that it stayed in for longer until its work there was done', () => {
      const kept = {
        ...plan,
        stays: [...plan.stays, { bayId: 'c' as BayId, arriveMin: 1000, leaveMin: 1300 }],
      };
      const done = new Map<StageId, Done>([['cut' as StageId, by(900, 1050, [ines])]]);
      const [, bay] = drawnStays(car({ wash: 'done', cut: 'done' }), kept, done, 1100);
      expect([bay?.stay.arriveMin, bay?.stay.leaveMin]).toEqual([840, 1050]);
    });

    it('draws a car that came before its hour from when work on it began', () => {
      const early = new Map<StageId, Done>([['wash' as StageId, by(450, 470, [ines])]]);
      const [yard] = drawnStays(car(states), plan, early, 600);
      expect(yard?.stay.arriveMin).toBe(450);
    });
  });
});
