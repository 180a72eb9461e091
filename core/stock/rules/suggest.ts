import type { Minor } from '../../shared/units.ts';
import type { PriceBreak } from '../../shared/views/stockItem.ts';
import { isIntermittent, isSteady, leadQuantile, syntetosBoylan, type UsualUse } from './demand.ts';
import { BOOKED_SPREAD, sumTo } from './projection.ts';
import { orderQuantity, type QuantityAnswer, usualLot } from './quantity.ts';
import { chanceFor, inventoryPosition, leadSpread, orderToday, safetyStock } from './reorder.ts';

/** After an order arrives it should last this long. Common practice, no source. */
export const COVER_DAYS = 14;
/** Share of its lead time that a supplier strays by before any delivery is known. Common practice, no source. */
export const DEFAULT_LEAD_SPREAD = 0.2;
/** Smoothing of rare use. Common practice, no source. */
export const ALPHA = 0.1;

/** One item, its way forward, one supplier and the shop's rules; days are indexes, 0 = today. */
export type SuggestQuestion = {
  readonly onHand: number;
  readonly booked: ArrayLike<number>;
  readonly usual: ArrayLike<number>;
  readonly usualVar: ArrayLike<number>;
  readonly arrivals: ArrayLike<number>;
  /** Everything on order, also what is due after the last day looked at. */
  readonly onOrder: number;
  readonly mid: ArrayLike<number>;
  /** Past use on open days, oldest first; and which of the days ahead are open. */
  readonly openUse: ArrayLike<number>;
  readonly openAhead: ArrayLike<number>;
  readonly usualUse: UsualUse;
  readonly arrivesToday: number;
  readonly arrivesNext: number;
  readonly sdLeadDays: number;
  /** Share of what jobs ask for that is to be there when they ask. */
  readonly level: number;
  readonly packSize: number;
  readonly priceMinor: Minor;
  readonly breaks: readonly PriceBreak[];
  readonly orderCostMinor: number;
  readonly holdingShare: number;
  readonly sealedLifeDays: number | null;
  readonly openedLifeDays: number | null;
  readonly shelfPacks: number | null;
};
export type SuggestAnswer = {
  readonly order: boolean;
  /** First day expected stock falls below what is kept back, with all that is on order; null = not in sight. */
  readonly below: number | null;
  /** The same, and never later than something is short, however much may be: what comes by then comes in time. */
  readonly lacksFrom: number | null;
  readonly rare: boolean;
  readonly perDay: number;
  readonly onOrder: number;
  readonly reserved: number;
  readonly position: number;
  readonly usualByThen: number;
  /** Below 0 where the aim lets a large lot run that much short before the next one comes. */
  readonly safety: number;
  readonly reorderPoint: number;
  readonly shortfall: number;
  readonly quantity: QuantityAnswer;
};

/**
 * Whether to order one item today from one supplier, and how much. The horizon of the arrays must reach past the
 * later arrival and the cover behind it; what lies beyond is not seen.
 */
export function suggest(q: SuggestQuestion): SuggestAnswer {
  const until = Math.min(q.mid.length, q.arrivesNext + 1);
  const rare = isIntermittent(q.usualUse);
  const perDay = usualPerDay(q, rare);
  const reserved = sumTo(q.booked, until);
  const level = withOrdersThere(q);
  const usualByThen = sumTo(q.usual, until);
  const use = { expectedUse: (days: number) => expectedUse(q, perDay, days), steady: isSteady(q.usualUse) };
  const lot = usualLot({ ...q, ...use }, use.expectedUse(COVER_DAYS));
  const wished = keptBack(q, { until, rare, usualByThen, lot });
  const safety = Math.max(wished, leastKept(usualByThen));
  const answer = orderToday({ ...q, level, safety });
  const shortfall = lacking(level, Math.max(0, safety), Math.min(level.length, until + COVER_DAYS));
  const quantity = orderQuantity({
    ...q,
    ...use,
    shortfall,
    positionThen: level[Math.min(level.length - 1, q.arrivesToday)] ?? q.onHand,
  });
  return {
    order: answer.order && (q.onOrder <= 0 || quantity.fits),
    below: answer.below,
    lacksFrom: orderToday({ ...q, level, safety: Math.max(0, safety) }).below,
    rare,
    perDay,
    onOrder: q.onOrder,
    reserved,
    position: inventoryPosition(q.onHand, q.onOrder, reserved),
    usualByThen,
    safety,
    reorderPoint: usualByThen + safety,
    shortfall,
    quantity,
  };
}

/** Expected stock day by day as if all that is on order were there today. */
function withOrdersThere(q: SuggestQuestion): Float64Array {
  let toCome = q.onOrder;
  return Float64Array.from(q.mid, (mid, k) => {
    toCome -= q.arrivals[k] ?? 0;
    return mid + toCome;
  });
}

/** Mean use per day of the calendar; of rare use smoothed over the open days. */
function usualPerDay(q: SuggestQuestion, rare: boolean): number {
  const { openDays, days, perDay } = q.usualUse;
  return rare ? (syntetosBoylan(q.openUse, ALPHA) * openDays) / Math.max(1, days) : perDay;
}

/** Use over the coming `days`: what is booked and the usual besides, day by day; past the horizon the mean. */
function expectedUse(q: SuggestQuestion, perDay: number, days: number): number {
  const seen = q.booked.length;
  return sumTo(q.booked, days) + sumTo(q.usual, days) + perDay * Math.max(0, days - seen);
}

type Wait = {
  /** Days until a later order would be here, its own day with them: it may come after work has begun. */
  readonly until: number;
  readonly rare: boolean;
  readonly usualByThen: number;
  /** What an order usually brings. */
  readonly lot: number;
};

/**
 * Safety stock over the days until a later order would be here: z times the spread of use and of the lead time; for
 * rare use the quantile of drawn past days less their mean, scaled to the part that is not booked. The aim is the share
 * served of all that is asked for, so that large lots, which are seldom waited for, need less. Where a lot lasts so long
 * that nothing kept back would serve more than the aim, it is below 0: the order goes out that much later.
 */
function keptBack(q: SuggestQuestion, { until, rare, usualByThen, lot }: Wait): number {
  const perDay = (usualByThen + sumTo(q.booked, until)) / Math.max(1, until);
  const usual = sumTo(q.usualVar, until);
  let booked = 0;
  for (let k = 0; k < until; k += 1) booked += (BOOKED_SPREAD * (q.booked[k] ?? 0)) ** 2;
  const chance = chanceFor(q.level, lot, leadSpread(usual + booked, perDay, q.sdLeadDays));
  if (!rare || chance < 0.5) return safetyStock(leadSpread(usual + booked, perDay, q.sdLeadDays), chance);
  const openDays = sumTo(q.openAhead, until);
  const mean = (sumTo(q.openUse, q.openUse.length) / Math.max(1, q.openUse.length)) * openDays;
  const notBooked = mean > 0 ? Math.min(1, usualByThen / mean) : 0;
  const drawn = Math.max(0, leadQuantile(q.openUse, openDays, chance) - mean);
  return drawn * Math.sqrt(notBooked) + safetyStock(leadSpread(booked, perDay, q.sdLeadDays), chance);
}

/**
 * However low the aim, what jobs are booked for is never planned to run short, and an order goes out as soon as nothing is
 * left and nothing on its way, `usual` being expected beside them.
 */
function leastKept(usual: number): number {
  return Math.min(0, 1 - usual);
}

/** The most that expected stock falls below what is kept back, over the cover. */
function lacking(level: ArrayLike<number>, safety: number, until: number): number {
  let most = 0;
  for (let k = 0; k < until; k += 1) most = Math.max(most, safety - (level[k] ?? 0));
  return most;
}
