import type { DayRow } from '#core/bays/rules/hours.ts';
import { type Asks, drawCars, type Habits } from './whatIfAsks.ts';
import { type Measures, type Money, measure, type Span, tookOfPromised } from './whatIfMeasures.ts';
import { runShop } from './whatIfRun.ts';
import type { SimShop } from './whatIfShop.ts';

/** One side of the tape: the shop, who asks, and the money. */
export type Side = { readonly shop: SimShop; readonly asks: Asks; readonly money: Money };
/** The days of a run, which begin some weeks before `span` so that the shop has filled, and what is measured. */
export type Frame = { readonly days: readonly DayRow[]; readonly span: Span };

/** What one run of a side comes to. */
export function oneRun(frame: Frame, side: Side, habits: Habits, seed: number): Measures {
  const cars = drawCars(side.asks, frame.days, habits, seed);
  const run = runShop(side.shop, cars, frame.span);
  return measure(run, cars, side.shop, frame.span, { ...side.money, promise: habits.promise });
}

/** How long promised jobs take in one run, in times of what they were promised for. */
export function promisesOf(frame: Frame, side: Side, habits: Habits, seed: number): readonly number[] {
  const cars = drawCars(side.asks, frame.days, habits, seed);
  return tookOfPromised(runShop(side.shop, cars, frame.span), cars, side.shop, frame.span);
}
