import { afterAll, beforeAll, expect, it } from 'vitest';
import type { EpochMs } from '#core/shared/units.ts';
import { gatherWhatIf } from '#core/views/whatIf.ts';
import { coversHeldBack, HELD_MEASURES } from '../../helpers/heldBack.ts';
import { KNOWN_START_MIN, knownCars, loadKnown, setUpKnown, truthOf } from '../../helpers/knownShop.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';

const WEEK_MIN = 10_080;
/** Fewer runs than the page takes, and few seeds: `tests/faults/heldBack.test.ts` takes as many as the page, and a hundred. */
const ROUNDS = 40;
const SEEDS = [100, 101, 102, 103, 104, 105];
let shop: TestShop;

beforeAll(() => {
  shop = openTestShop({ zone: 'UTC', nowMs: Date.UTC(2026, 0, 2) });
  setUpKnown(shop);
});
afterAll(() => shop.close());

it('the record of a shop that is known says what the truth was, read by the what-if', () => {
  const cars = knownCars(34, 1);
  shop.db.raw.exec('SAVEPOINT known');
  loadKnown(shop, cars);
  const toMin = KNOWN_START_MIN + 30 * WEEK_MIN;
  const ctx = { db: shop.db, now: (toMin * 60_000) as EpochMs, actor: null };
  const { past } = gatherWhatIf(ctx, { change: {}, seed: 1, rounds: 10 });
  shop.db.raw.exec('ROLLBACK TO known; RELEASE known');
  const truth = truthOf(cars, toMin - 26 * WEEK_MIN, toMin);
  for (const name of HELD_MEASURES) expect(past[name]).toBeCloseTo(truth[name], 9);
});

/**
 * Nine runs in ten lie within the band. The weeks held back differ from the middle by their own chance and by that of the
 * half year learned from: with 6 weeks of 26, by √(1 + 6/26) of what the runs differ, so that 86 in 100 would lie
 * within, and fewer where so few runs tell the band.
 */
it('with nothing changed the band holds the weeks that nothing was learned from about as often as it should', () => {
  const all = SEEDS.map((seed) => coversHeldBack(shop, seed, { rounds: ROUNDS }));
  const held = all.flatMap((covered) => HELD_MEASURES.map((name) => covered[name]));
  expect(held.filter(Boolean).length / held.length).toBeGreaterThan(0.6);
});

it('and no longer where more ask in the runs than ask in the shop', () => {
  const all = SEEDS.slice(0, 3).map((seed) => coversHeldBack(shop, seed, { rounds: ROUNDS, times: 1.4 }));
  expect(all.filter((covered) => covered.people).length).toBe(0);
});
