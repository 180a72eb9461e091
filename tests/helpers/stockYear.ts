import { seeded } from '#core/shared/random.ts';
import type { Minor } from '#core/shared/units.ts';
import { onOpenDays, shareNotBooked, type UsualUse, usualUse } from '#core/stock/rules/demand.ts';
import { project } from '#core/stock/rules/projection.ts';
import { type SuggestQuestion, suggest } from '#core/stock/rules/suggest.ts';
import { HISTORY, HORIZON, type Item, isOpen, type Need, type World, YEAR } from './stockWorld.ts';

/** The share aimed at of what is asked for that is there, money for an order, and a year's keeping as a share of value. */
export const LEVEL = 0.995;
const ORDER_COST = 1000;
const HOLDING = 0.2;
/** The year's first half is for tuning, its second is held back. */
export const HALF = YEAR / 2;

/** Which days of the world are open, told once. */
const OPEN = Uint8Array.from({ length: HISTORY + YEAR + HORIZON }, (_, day) => (isOpen(day) ? 1 : 0));

/** What the second half of the year brought: amounts asked and served, money for orders and for keeping stock. */
export type Year = {
  readonly asked: number;
  readonly served: number;
  readonly costMinor: number;
  /** Orders that came, and those before which something ran out meanwhile. */
  readonly waits: number;
  readonly shortWaits: number;
};

/** The day an order of `day` comes: working days on, a day sooner or later now and then. */
function arrival(day: number, item: Item, stray: number): number {
  let at = day;
  for (let left = Math.max(1, item.leadDays + stray); left > 0; ) {
    at += 1;
    if (isOpen(at)) left -= 1;
  }
  return at;
}

type Shelf = { level: number; readonly coming: Map<number, number> };
type Policy = (day: number, shelf: Shelf) => number;

function putUp(shelf: Shelf, day: number): void {
  shelf.level += shelf.coming.get(day) ?? 0;
  shelf.coming.delete(day);
}

/**
 * Plays days `from` to `to` of the year for one item, warmed up by those before; `policy` answers the packs ordered
 * on a day. A delivery comes before the day's work or after it. The same world strays in the same way whatever the policy.
 */
export function play(world: World, i: number, policy: Policy, from: number, to: number): Year {
  const item = world.items[i] as Item;
  const random = seeded(world.seed * 1000 + i);
  const byDay = Map.groupBy(world.needs[i] ?? [], (n) => n.day);
  const shelf: Shelf = { level: item.packSize * 2, coming: new Map() };
  const year = { asked: 0, served: 0, costMinor: 0, waits: 0, shortWaits: 0 };
  let short = false;
  for (let k = 0; k < to; k += 1) {
    const day = HISTORY + k;
    const came = shelf.coming.get(day) ?? 0;
    const early = random() < 0.5;
    if (early) putUp(shelf, day);
    const packs = isOpen(day) ? policy(day, shelf) : 0;
    const stray = Math.floor(random() * 8);
    if (packs > 0)
      shelf.coming.set(arrival(day, item, stray === 0 ? -1 : stray === 1 ? 1 : 0), packs * item.packSize);
    const use = (byDay.get(day) ?? []).reduce((sum, n) => sum + n.drawn, 0);
    const out = Math.min(use, shelf.level);
    shelf.level -= out;
    short ||= shelf.coming.size > 0 && out < use;
    putUp(shelf, day);
    if (k >= from) addDay(year, { item, level: shelf.level, ordered: packs > 0, use, out, came, short });
    if (came > 0) short = shelf.coming.size > 0 && out < use;
  }
  return year;
}

function addDay(
  year: { -readonly [K in keyof Year]: Year[K] },
  day: {
    readonly item: Item;
    readonly level: number;
    readonly ordered: boolean;
    readonly use: number;
    readonly out: number;
    readonly came: number;
    readonly short: boolean;
  },
): void {
  const { item, level } = day;
  year.asked += day.use;
  year.served += day.out;
  year.costMinor += (HOLDING / 365) * (item.priceMinor / item.packSize) * level;
  if (day.ordered) year.costMinor += ORDER_COST;
  if (day.came === 0) return;
  year.waits += 1;
  if (day.short) year.shortWaits += 1;
}

/** The shop's own rule, knowing on each day what was booked by then and what was drawn before. */
export function ownRule(world: World, i: number, level = LEVEL): Policy {
  const item = world.items[i] as Item;
  const needs = world.needs[i] ?? [];
  const drawn = new Float64Array(HISTORY + YEAR + HORIZON);
  for (const n of needs) drawn[n.day] = (drawn[n.day] ?? 0) + n.drawn;
  const byDay = Map.groupBy(needs, (n) => n.day);
  const share = shareNotBooked(world.leads.slice(0, HISTORY), HORIZON);
  return (day, shelf) => {
    const answer = suggest({ ...questionOn(day, shelf, item, byDay, drawn, share), level });
    return answer.order ? answer.quantity.packs : 0;
  };
}

function questionOn(
  day: number,
  shelf: Shelf,
  item: Item,
  needs: ReadonlyMap<number, readonly Need[]>,
  drawn: Float64Array,
  share: Float64Array,
): SuggestQuestion {
  const past = drawn.subarray(day - HISTORY, day);
  const open = OPEN.subarray(day - HISTORY, day);
  const use = usualUse(past, (day - HISTORY) % 7, open);
  const flows = aheadOf(day, shelf, needs, use, share);
  let next = day + 1;
  while (!isOpen(next)) next += 1;
  return {
    ...flows,
    onHand: shelf.level,
    onOrder: [...shelf.coming.values()].reduce((sum, amount) => sum + amount, 0),
    mid: project({ onHand: shelf.level, ...flows }).mid,
    openUse: onOpenDays(past, open),
    usualUse: use,
    arrivesToday: arrival(day, item, 0) - day,
    arrivesNext: arrival(next, item, 0) - day,
    sdLeadDays: (0.2 * item.leadDays * 7) / 5,
    level: LEVEL,
    packSize: item.packSize,
    priceMinor: item.priceMinor as Minor,
    breaks: [],
    orderCostMinor: ORDER_COST,
    holdingShare: HOLDING,
    sealedLifeDays: null,
    openedLifeDays: null,
    shelfPacks: null,
  };
}

type Flows = Pick<SuggestQuestion, 'booked' | 'usual' | 'usualVar' | 'arrivals' | 'openAhead'>;

function aheadOf(
  day: number,
  shelf: Shelf,
  needs: ReadonlyMap<number, readonly Need[]>,
  use: UsualUse,
  share: Float64Array,
): Flows {
  const booked = new Float64Array(HORIZON);
  for (let k = 0; k < HORIZON; k += 1)
    for (const n of needs.get(day + k) ?? [])
      if (n.bookedDay <= day) booked[k] = (booked[k] ?? 0) + n.planned;
  const openAhead = OPEN.subarray(day, day + HORIZON);
  const expected = (of: Float64Array): Float64Array => {
    const found = new Float64Array(HORIZON);
    for (let k = 0; k < HORIZON; k += 1)
      found[k] = (openAhead[k] ?? 0) * (of[(day + k) % 7] ?? 0) * (share[k] ?? 0);
    return found;
  };
  const arrivals = new Float64Array(HORIZON);
  for (const [at, amount] of shelf.coming) if (at - day < HORIZON) arrivals[at - day] = amount;
  return { booked, usual: expected(use.mean), usualVar: expected(use.variance), arrivals, openAhead };
}

/** Orders up to `most` packs whenever what is there and coming is at most `least` packs. */
export function minMax(item: Item, least: number, most: number): Policy {
  return (_day, shelf) => {
    let position = shelf.level;
    for (const amount of shelf.coming.values()) position += amount;
    const packs = position / item.packSize;
    return packs <= least ? Math.max(0, Math.ceil(most - packs)) : 0;
  };
}

/** The cheapest min and max over the first half of the year that served the level there; else the best served. */
export function tunedMinMax(world: World, i: number): Policy {
  const item = world.items[i] as Item;
  let best: { readonly policy: Policy; readonly fill: number; readonly costMinor: number } | null = null;
  for (const least of [0.25, 0.5, 1, 1.5, 2, 3, 4, 6, 8])
    for (const lot of [1, 2, 3, 5, 8, 12, 20]) {
      const policy = minMax(item, least, least + lot);
      const { asked, served, costMinor } = play(world, i, policy, 0, HALF);
      const fill = asked > 0 ? served / asked : 1;
      const good = Math.min(fill, LEVEL);
      const bestGood = best ? Math.min(best.fill, LEVEL) : -1;
      if (!best || good > bestGood || (good === bestGood && costMinor < best.costMinor))
        best = { policy, fill, costMinor };
    }
  return best?.policy ?? minMax(item, 1, 2);
}
