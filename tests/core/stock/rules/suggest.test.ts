import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Minor } from '#core/shared/units.ts';
import { usualUse } from '#core/stock/rules/demand.ts';
import { project } from '#core/stock/rules/projection.ts';
import { type SuggestAnswer, type SuggestQuestion, suggest } from '#core/stock/rules/suggest.ts';

const DAYS = 60;
type Drawn = {
  readonly onHand: number;
  readonly booked: readonly number[];
  readonly use: readonly number[];
  readonly coming: readonly { readonly day: number; readonly amount: number }[];
  readonly wait: number;
  readonly packSize: number;
  readonly shelfPacks: number | null;
  readonly sealedLifeDays: number | null;
};

/** Every day open, a supplier who takes `wait` days; what comes on day 60 or later is on order all the same. */
function questionOf(of: Drawn, more = 0): SuggestQuestion {
  const usual = usualUse(of.use, 0, new Uint8Array(of.use.length).fill(1));
  const arrivals = new Float64Array(DAYS);
  const coming = [...of.coming, { day: of.wait, amount: more }];
  for (const c of coming) if (c.day < DAYS) arrivals[c.day] = (arrivals[c.day] ?? 0) + c.amount;
  const flows = {
    onHand: of.onHand,
    booked: Float64Array.from({ length: DAYS }, (_, k) => of.booked[k] ?? 0),
    usual: Float64Array.from({ length: DAYS }, (_, k) => usual.mean[k % 7] ?? 0),
    usualVar: Float64Array.from({ length: DAYS }, (_, k) => usual.variance[k % 7] ?? 0),
    arrivals,
  };
  return {
    ...flows,
    onOrder: coming.reduce((sum, c) => sum + c.amount, 0),
    mid: project(flows).mid,
    openUse: of.use,
    openAhead: new Uint8Array(DAYS).fill(1),
    usualUse: usual,
    arrivesToday: of.wait,
    arrivesNext: of.wait + 1,
    sdLeadDays: 0.2 * of.wait,
    level: 0.995,
    packSize: of.packSize,
    priceMinor: 1500 as Minor,
    breaks: [],
    orderCostMinor: 1000,
    holdingShare: 0.2,
    sealedLifeDays: of.sealedLifeDays,
    openedLifeDays: null,
    shelfPacks: of.shelfPacks,
  };
}

const asked = (of: Drawn, more = 0): SuggestAnswer => suggest(questionOf(of, more));
const amount = fc.integer({ min: 0, max: 400_000 });
const drawn: fc.Arbitrary<Drawn> = fc.record({
  onHand: fc.integer({ min: -300_000, max: 1_000_000 }),
  booked: fc.array(fc.oneof(fc.constant(0), amount), { maxLength: 30 }),
  use: fc.array(fc.oneof(fc.constant(0), amount), { maxLength: 120 }),
  coming: fc.array(fc.record({ day: fc.integer({ min: 1, max: 90 }), amount }), { maxLength: 3 }),
  wait: fc.integer({ min: 0, max: 80 }),
  packSize: fc.constantFrom(1, 25_000, 200_000, 1_000_000, 5_000_000),
  shelfPacks: fc.option(fc.integer({ min: 1, max: 40 })),
  sealedLifeDays: fc.option(fc.integer({ min: 1, max: 400 })),
});

const QUIET: Drawn = {
  onHand: 20_000,
  booked: [48_000],
  use: [],
  coming: [],
  wait: 2,
  packSize: 1_000_000,
  shelfPacks: null,
  sealedLifeDays: null,
};

describe('what is on its way', () => {
  it('is not ordered a second time when it comes after the shelf is empty: no order comes sooner', () => {
    const first = asked(QUIET);
    expect(first).toMatchObject({ order: true, quantity: { packs: 1 } });
    expect(asked(QUIET, 1_000_000)).toMatchObject({ order: false, position: 972_000 });
  });
  it('counts as a whole, also when it is due behind the last day looked at', () => {
    expect(asked({ ...QUIET, coming: [{ day: 90, amount: 1_000_000 }] })).toMatchObject({
      order: false,
      onOrder: 1_000_000,
    });
  });
  it('leaves what it does not cover to a further order', () => {
    expect(asked({ ...QUIET, booked: [0, 0, 1_500_000] }, 1_000_000).order).toBe(true);
  });
  it('is enough: what was ordered as proposed is never proposed again at once', () => {
    fc.assert(
      fc.property(drawn, (of) => {
        const first = asked(of);
        fc.pre(first.order);
        expect(first.quantity.packs).toBeGreaterThanOrEqual(1);
        expect(asked(of, first.quantity.packs * of.packSize).order).toBe(false);
      }),
      { numRuns: 400 },
    );
  });
});

it('orders before what jobs are booked for runs short, however low the aim: only what nobody booked may', () => {
  // 21 booked each day against 100 on the shelf and a supplier who takes five days: a later order comes after the sixth day
  const of: Drawn = {
    ...{
      onHand: 100,
      booked: [21, 21, 21, 21, 21, 21, 21],
      use: new Array<number>(120).fill(30),
      coming: [],
    },
    ...{ wait: 5, packSize: 9000, shelfPacks: null, sealedLifeDays: null },
  };
  for (const level of [0.98, 0.995]) {
    const usual = new Float64Array(DAYS);
    const q = { ...questionOf(of), level, usual, usualVar: usual };
    const answer = suggest({ ...q, mid: project({ ...q, usual, usualVar: usual }).mid });
    expect([level, answer.safety < 0, answer.order]).toEqual([level, false, true]);
  }
});

it('orders once nothing is left and nothing is on its way, however low the aim', () => {
  const use = Array.from({ length: 120 }, (_, k) => (k % 3 === 0 ? 300 : 20));
  for (const wait of [1, 3, 10]) {
    const of: Drawn = { ...QUIET, onHand: 0, booked: [], use, wait, packSize: 6000 };
    expect([wait, suggest({ ...questionOf(of), level: 0 }).order]).toEqual([wait, true]);
  }
});
