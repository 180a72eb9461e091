import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { calendarOf, isOpen, openBetween } from '#core/bays/rules/calendar.ts';
import { drawCars, poisson } from '#core/figures/rules/whatIfAsks.ts';
import { changedSetup, changedShares } from '#core/figures/rules/whatIfChange.ts';
import { simShopOf } from '#core/figures/rules/whatIfLay.ts';
import { bandOf } from '#core/figures/rules/whatIfMeasures.ts';
import { runShop } from '#core/figures/rules/whatIfRun.ts';
import type { SimCar, SimShop } from '#core/figures/rules/whatIfShop.ts';
import type { BayId } from '#core/shared/ids.ts';
import { seeded } from '#core/shared/random.ts';
import type { LocalDay } from '#core/shared/units.ts';
import type { BaysSetupView } from '#core/shared/views/baysSetup.ts';
import { type WhatIfChange, whatIfChange } from '#core/shared/whatIfChange.ts';
import { asksOf, DAYS, pastJob, setupOf } from './whatIfRecord.ts';
import { carOf, personOf, placesOf, shopOf, stageOf } from './whatIfShops.ts';

const DAY = 1440;
/** Ten days from 8:00 to 12:00 and 13:00 to 17:00. */
const HOURS = calendarOf(
  Array.from({ length: 10 }, (_, d) => [
    { startMin: d * DAY + 480, endMin: d * DAY + 720 },
    { startMin: d * DAY + 780, endMin: d * DAY + 1020 },
  ]).flat(),
);
const OWN = { lead: 1, pause: 1, promise: 1 };
const SPAN = { fromMin: 0, toMin: 10 * DAY };

const stages = fc.array(
  fc.record({
    crew: fc.integer({ min: 0, max: 2 }),
    labourMin: fc.integer({ min: 0, max: 400 }),
    dwellMin: fc.integer({ min: 0, max: 300 }),
    pauseMin: fc.integer({ min: 0, max: 90 }),
    splittable: fc.boolean(),
    kinds: fc.constantFrom(['correction'] as const, ['wash', 'correction'] as const, ['wash'] as const),
  }),
  { minLength: 1, maxLength: 4 },
);
const cars = fc
  .array(fc.tuple(fc.integer({ min: 0, max: 4 * DAY }), stages, fc.integer({ min: 0, max: 600 })), {
    maxLength: 12,
  })
  .map((all) =>
    all
      .map(([at, some, fetch]) =>
        carOf(
          some.map((s) => stageOf({ ...s, kinds: [...s.kinds] })),
          at,
          fetch,
        ),
      )
      .sort((a, b) => a.fromMin - b.fromMin),
  );
const shops = fc
  .record({ people: fc.integer({ min: 2, max: 4 }), bays: fc.integer({ min: 1, max: 3 }) })
  .map((s) => ({
    ...shopOf({
      people: Array.from({ length: s.people }, () => personOf(HOURS)),
      bays: s.bays,
      hours: HOURS,
      more: [...placesOf('wash', 1), ...placesOf('yard', 1)],
    }),
    mostWaiting: 2,
  }));

describe('a run of the shop', () => {
  it('keeps order, room and hours, whatever comes', () => {
    fc.assert(
      fc.property(shops, cars, (shop, list) => {
        const run = runShop(shop, list, SPAN);
        for (const v of run.visits) {
          expect(
            [v.askedMin, v.arrivedMin, v.begunMin, v.readyMin, v.leftMin].toSorted((a, b) => a - b),
          ).toEqual([v.askedMin, v.arrivedMin, v.begunMin, v.readyMin, v.leftMin]);
          expect(isOpen(shop.desk, v.arrivedMin)).toBe(true);
          const here = run.visits.filter((o) => o.arrivedMin <= v.arrivedMin && v.arrivedMin < o.leftMin);
          expect(here.length).toBeLessThanOrEqual(shop.places.length);
        }
        const offered = openBetween(HOURS, SPAN.fromMin, SPAN.toMin) * shop.people.length;
        expect(run.peopleMin).toBeLessThanOrEqual(offered + 1e-6);
        expect(runShop(shop, list, SPAN)).toEqual(run);
      }),
      { numRuns: 60 },
    );
  });

  it('works every minute of every car once it has left, no more and no less', () => {
    fc.assert(
      fc.property(shops, cars, (shop, list) => {
        const run = runShop(shop, list, SPAN);
        if (run.visits.length < list.length || run.visits.some((v) => v.leftMin === Number.POSITIVE_INFINITY))
          return;
        const asked = list.flatMap((c) => c.stages).reduce((sum, s) => sum + s.labourMin * s.crew, 0);
        expect(run.peopleMin).toBeCloseTo(asked, 6);
      }),
      { numRuns: 60 },
    );
  });

  it('follows a day worked out by hand: lunch, a coat that cures overnight, and the only bay', () => {
    const first = carOf([stageOf({ labourMin: 300 }), stageOf({ crew: 0, dwellMin: 900 })], 480);
    const second = carOf([stageOf({ labourMin: 60 })], 490, 30);
    const shop: SimShop = shopOf({
      people: [personOf(HOURS)],
      bays: 1,
      hours: HOURS,
      more: placesOf('yard', 1),
    });
    const [a, b] = runShop(shop, [first, second], SPAN).visits;
    // 8:00–12:00 and 13:00–14:00; cured 15 hours later, at 5:00; fetched when the desk opens.
    expect(a).toMatchObject({ arrivedMin: 480, begunMin: 480, readyMin: 1740, leftMin: DAY + 480 });
    // Stands in the yard until the bay is free: nobody is there at 5:00, so it begins at 8:00.
    expect(b).toMatchObject({
      arrivedMin: 490,
      begunMin: DAY + 480,
      readyMin: DAY + 540,
      leftMin: DAY + 570,
    });
  });

  it('begins what is not to be cut in two only where it fits before the break', () => {
    const car = (minutes: number): SimCar => carOf([stageOf({ labourMin: minutes, splittable: false })], 700);
    const begun = (minutes: number): number | undefined =>
      runShop(shopOf({ people: [personOf(HOURS)], bays: 1, hours: HOURS }), [car(minutes)], SPAN).visits[0]
        ?.begunMin;
    expect(begun(20)).toBe(700);
    expect(begun(21)).toBe(780);
    // Longer than any half day: it is cut after all.
    expect(begun(241)).toBe(700);
  });
});

describe('who asks', () => {
  it('is Poisson by one number: the same number never gives fewer for a higher mean', () => {
    const random = seeded(3);
    const draws = Array.from({ length: 4000 }, () => poisson(random(), 1.7));
    expect(draws.reduce((s, n) => s + n, 0) / draws.length).toBeCloseTo(1.7, 1);
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 0.999999, noNaN: true }),
        fc.double({ min: 0, max: 5, noNaN: true }),
        (u, m) => {
          expect(poisson(u, m + 0.5)).toBeGreaterThanOrEqual(poisson(u, m));
        },
      ),
      { numRuns: 100 },
    );
  });

  it('is as many as came, over many runs', () => {
    const asks = asksOf(40);
    const drawn = Array.from({ length: 60 }, (_, seed) => drawCars(asks, DAYS, OWN, seed + 1).length);
    const cameInTwelveWeeks = (40 / asks.weeks) * 12;
    // Poisson: the mean of 60 runs of 120 strays by 1.4, so six are more than four times that.
    expect(Math.abs(drawn.reduce((s, n) => s + n, 0) / drawn.length - cameInTwelveWeeks)).toBeLessThan(6);
  });

  it('keeps its cars where more ask', () => {
    const few = drawCars(asksOf(40), DAYS, OWN, 7);
    const more = drawCars({ ...asksOf(40), times: 1.5 }, DAYS, OWN, 7);
    expect(more.length).toBeGreaterThan(few.length);
    const known = new Set(more.map((c) => `${c.askedMin}/${c.job.stayMin}`));
    expect(few.filter((c) => !known.has(`${c.askedMin}/${c.job.stayMin}`))).toEqual([]);
  });

  it('comes in the mix that was asked for, and the others keep their weight among each other', () => {
    const shares = new Map([
      ['correction', 0.6] as const,
      ['protection', 0.3] as const,
      ['washOnly', 0.1] as const,
    ]);
    const wanted = changedShares(shares, { purpose: 'washOnly', sharePpm: 550_000 });
    expect(wanted.get('washOnly')).toBe(0.55);
    expect(wanted.get('correction')).toBeCloseTo(0.3, 12);
    expect(wanted.get('protection')).toBeCloseTo(0.15, 12);
    const jobs = [pastJob({ purpose: 'correction' }), pastJob({ purpose: 'washOnly' })];
    const half = new Map([['correction', 0.25] as const, ['washOnly', 0.75] as const]);
    const drawn = Array.from({ length: 40 }, (_, seed) =>
      drawCars({ jobs, weeks: 0.2, times: 1, shares: half }, DAYS, OWN, seed + 1),
    ).flat();
    const washes = drawn.filter((c) => c.job.purpose === 'washOnly').length;
    expect(Math.abs(washes / drawn.length - 0.75)).toBeLessThan(0.05);
  });
});

describe('a change', () => {
  it('closes later with everybody staying, or with only the new ones working then', () => {
    const setup = setupOf();
    const like = setup.technicians[0]?.personId;
    if (!like) throw new Error('nobody');
    const all = changedSetup(setup, { longerMin: 120 });
    expect(all.hours.filter((h) => h.weekday === 1).map((h) => h.closeMin)).toEqual([1140, 1140]);
    expect(all.technicians[0]?.shifts.filter((s) => s.weekday === 1)).toEqual([
      { weekday: 1, startMin: 480, endMin: 720 },
      { weekday: 1, startMin: 780, endMin: 1140 },
    ]);
    const late = changedSetup(setup, { longerMin: 120, technician: { like, count: 2, hours: 'late' } });
    expect(late.technicians).toHaveLength(3);
    expect(late.technicians[0]?.shifts).toEqual(setup.technicians[0]?.shifts);
    expect(late.technicians[2]?.shifts[0]).toEqual({ weekday: 1, startMin: 1020, endMin: 1140 });
  });

  it('adds bays and people, and leaves the shop alone where nothing is asked', () => {
    const setup = setupOf();
    expect(changedSetup(setup, {})).toEqual(setup);
    const more = changedSetup(setup, { bay: { bayKind: 'protection', count: 2 } });
    expect(more.bays.map((b) => b.kind)).toEqual(['correction', 'yard', 'protection', 'protection']);
  });

  it('leaves what the shop has as open as it was, also a first bay of its kind that began in between', () => {
    const began = '2026-10-26' as LocalDay;
    const setup = setupOf();
    const [bay, ...others] = setup.bays;
    if (!bay) throw new Error('no bay');
    const late = { ...setup, bays: [{ ...bay, startedDay: began }, ...others] };
    const shut = (own: BaysSetupView, change: WhatIfChange): readonly number[] =>
      simShopOf(changedSetup(own, change), DAYS, 'Europe/Berlin', own)
        .places.filter((p) => p.kind === 'correction')
        .map((p) => p.shut.length);
    const more: WhatIfChange = { bay: { bayKind: 'correction', count: 1 } };
    expect([shut(late, {}), shut(late, more)]).toEqual([[0], [0, 0]]);
    // A second one that began in between stays shut until then.
    const two = { ...late, bays: [bay, { ...bay, bayId: 'b2' as BayId, startedDay: began }, ...others] };
    expect([shut(two, {}), shut(two, more)]).toEqual([
      [0, 1],
      [0, 1, 0],
    ]);
  });
});

it('says nine of ten: the 5th and 95th of a hundred and one are the sixth from each end', () => {
  const values = Array.from({ length: 101 }, (_, i) => 100 - i);
  expect(bandOf(values)).toEqual({ low: 5, mid: 50, high: 95 });
});

it('takes what a full week of several people costs where an hour has many digits', () => {
  // 50,000.00 an hour, 40 hours of five people
  expect(whatIfChange.safeParse({ costWeekMinor: 5_000_000 * 40 * 5 }).success).toBe(true);
  // All hours of a week of five people at the most that an hour may cost
  expect(whatIfChange.safeParse({ costWeekMinor: 100_000_000 * 168 * 5 }).success).toBe(true);
  expect(whatIfChange.safeParse({ costWeekMinor: 100_000_000 * 168 * 5 + 1 }).success).toBe(false);
});
