import { daysBetween } from '#core/bays/rules/hours.ts';
import type { WhatIfModel } from '#core/figures/rules/whatIf.ts';
import { fitHabits } from '#core/figures/rules/whatIfFit.ts';
import { simShopOf } from '#core/figures/rules/whatIfLay.ts';
import { bandOf } from '#core/figures/rules/whatIfMeasures.ts';
import { oneRun } from '#core/figures/rules/whatIfOneRun.ts';
import { addLocalDays } from '#core/shared/time.ts';
import type { EpochMs, LocalDay } from '#core/shared/units.ts';
import { baysSetup } from '#core/views/baysSetup.ts';
import { gatherWhatIf } from '#core/views/whatIf.ts';
import { KNOWN_START_MIN, knownCars, loadKnown, truthOf } from './knownShop.ts';
import type { TestShop } from './shop.ts';

const ZONE = 'UTC';
const WEEK_MIN = 10_080;
/** The weeks that the program learns from are its own half year; before them the shop fills, after them it is held back. */
const [FILL, LEARNED, HELD] = [4, 26, 6];
/** Weeks that a run fills up in before it is measured. */
const BEFORE = 8;
export const HELD_MEASURES = ['people', 'wait', 'kept'] as const;
export type Covered = Readonly<Record<(typeof HELD_MEASURES)[number], boolean>>;

/**
 * Learns from half a year of a known shop's record and runs the six weeks after it, which nothing was learned from:
 * whether the truth of those lies within the band of nine runs in ten. `times` = so many times as many ask in the runs.
 */
export function coversHeldBack(
  shop: TestShop,
  seed: number,
  { rounds, times = 1 }: { readonly rounds: number; readonly times?: number },
): Covered {
  const nowMin = KNOWN_START_MIN + (FILL + LEARNED) * WEEK_MIN;
  const cars = knownCars(FILL + LEARNED + HELD + 4, seed);
  shop.db.raw.exec('SAVEPOINT known');
  try {
    loadKnown(shop, cars);
    const ctx = { db: shop.db, now: (nowMin * 60_000) as EpochMs, actor: null };
    const model = gatherWhatIf(ctx, { change: {}, seed: 1, rounds });
    const habits = fitHabits(model, () => true);
    const ahead = weeksAhead(shop, model, nowMin, times);
    const runs = Array.from({ length: rounds }, (_, i) => oneRun(ahead, ahead.side, habits, 1 + i));
    const truth = truthOf(cars, ahead.span.fromMin, ahead.span.toMin);
    const within = (name: (typeof HELD_MEASURES)[number]): boolean => {
      const band = bandOf(runs.map((r) => r[name]));
      return band.low <= truth[name] && truth[name] <= band.high;
    };
    return { people: within('people'), wait: within('wait'), kept: within('kept') };
  } finally {
    shop.db.raw.exec('ROLLBACK TO known; RELEASE known');
  }
}

/** The shop laid over the weeks held back, with the cars that were learned. */
function weeksAhead(shop: TestShop, model: WhatIfModel, nowMin: number, times: number) {
  const first = addLocalDays(model.toDay, 1);
  const days = daysBetween(addLocalDays(first, -7 * BEFORE), addLocalDays(first, 7 * HELD - 1), ZONE);
  const setup = baysSetup(shop.db, first);
  const early = { startedDay: days[0]?.day as LocalDay };
  const bays = setup.bays.map((b) => ({ ...b, ...early }));
  const technicians = setup.technicians.map((t) => ({ ...t, ...early }));
  return {
    ...{ days, span: { fromMin: nowMin, toMin: nowMin + HELD * WEEK_MIN } },
    side: {
      ...model.before,
      asks: { ...model.before.asks, times },
      shop: simShopOf({ ...setup, bays, technicians }, days, ZONE),
    },
  };
}
