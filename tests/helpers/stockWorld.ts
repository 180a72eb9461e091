import { normal, type Random, seeded } from '#core/shared/random.ts';

/**
 * An invented shop over half a year of history and a year of orders: jobs are booked some days ahead, each needs some
 * items, what it really draws strays from the plan, suppliers stray by a day. What is short is lost, not owed. The
 * year's first half is for tuning, its second is held back.
 */
export const HISTORY = 180;
export const YEAR = 364;
/** Days seen ahead of each day. */
export const HORIZON = 60;
const JOBS_A_DAY = 2;
const MEAN_BOOKING_LEAD = 12;

export type Item = {
  readonly share: number;
  readonly amount: number;
  readonly packSize: number;
  readonly priceMinor: number;
  readonly leadDays: number;
};
export type Need = {
  readonly day: number;
  readonly bookedDay: number;
  readonly planned: number;
  readonly drawn: number;
};
export type World = {
  readonly seed: number;
  readonly leads: readonly number[];
  /** Needs of each item by the day they fall on. */
  readonly needs: readonly (readonly Need[])[];
  readonly items: readonly Item[];
};
export const isOpen = (day: number): boolean => day % 7 < 5;
/** An exponential waiting time. */
const wait = (random: Random, mean: number): number => -mean * Math.log(1 - random());

function itemOf(random: Random, i: number): Item {
  const amount = 10 ** (3 + random() * 2);
  return {
    share: i % 3 === 0 ? 0.04 + 0.1 * random() : 0.2 + 0.7 * random(),
    amount,
    packSize: Math.round(amount * (2 + 18 * random())),
    priceMinor: Math.round(500 + 6000 * random()),
    leadDays: 1 + Math.floor(5 * random()),
  };
}

/** Jobs of history and year with what they need; the same seed gives the same world. */
export function worldOf(seed: number, count: number): World {
  const random = seeded(seed);
  const items = Array.from({ length: count }, (_, i) => itemOf(random, i));
  const needs: Need[][] = items.map(() => []);
  const leads: number[] = [];
  for (let day = 0; day < HISTORY + YEAR + HORIZON; day += 1) {
    if (!isOpen(day)) continue;
    for (let spent = wait(random, 1 / JOBS_A_DAY); spent < 1; spent += wait(random, 1 / JOBS_A_DAY)) {
      const lead = Math.floor(wait(random, MEAN_BOOKING_LEAD));
      leads.push(lead);
      items.forEach((item, i) => {
        if (random() >= item.share) return;
        const planned = item.amount * Math.exp(0.35 * normal(random));
        const drawn = planned * Math.max(0.1, 1 + 0.25 * normal(random));
        needs[i]?.push({ day, bookedDay: day - lead, planned, drawn });
      });
    }
  }
  return { seed, leads, needs, items };
}
