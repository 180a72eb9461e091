import { invariant } from '../../shared/errors.ts';
import type { PriceBreak } from '../../shared/views/stockItem.ts';
import { HAIR } from './reorder.ts';

/**
 * Economic order quantity: yearly (or any period's) demand, cost of one order, cost of keeping one unit that period.
 * @source F. W. Harris (1913); Hillier & Lieberman, Introduction to Operations Research
 */
export function economicQuantity(demand: number, orderCost: number, holding: number): number {
  if (demand <= 0 || orderCost <= 0) return 0;
  return holding <= 0 ? Number.POSITIVE_INFINITY : Math.sqrt((2 * demand * orderCost) / holding);
}

/** Yearly cost of buying `demand` in lots of `quantity` at one price: goods, orders, keeping. */
export function yearlyCost(
  demand: number,
  quantity: number,
  price: number,
  orderCost: number,
  rate: number,
): number {
  return demand * price + (orderCost * demand) / quantity + (rate * price * quantity) / 2;
}

/** A price that holds for every unit from `from` units on. */
export type UnitPrice = { readonly from: number; readonly price: number };

/**
 * The cheapest lot under all-units discounts, within `least` and `most`: each price's own economic quantity, lifted to
 * where the price begins; those that a better price already covers are dropped. Prices in rising `from` order, the first
 * from 0.
 * @source Snyder & Shen, Fundamentals of Supply Chain Theory, section 3.4
 */
export function discountQuantity(
  demand: number,
  orderCost: number,
  rate: number,
  prices: readonly UnitPrice[],
  least = 0,
  most = Number.POSITIVE_INFINITY,
): { readonly quantity: number; readonly price: number; readonly cost: number } {
  let best: { quantity: number; price: number; cost: number } | null = null;
  prices.forEach((p, i) => {
    const end = prices[i + 1]?.from ?? Number.POSITIVE_INFINITY;
    const own = economicQuantity(demand, orderCost, rate * p.price);
    const quantity = Math.min(most, Math.max(own, p.from, least));
    if (quantity < p.from || quantity >= end) return;
    const cost = yearlyCost(demand, quantity, p.price, orderCost, rate);
    if (!best || cost < best.cost) best = { quantity, price: p.price, cost };
  });
  invariant(best, 'there is a price');
  return best;
}

/** The price of a pack when so many are bought. */
export function packPrice(packs: number, priceMinor: number, breaks: readonly PriceBreak[]): number {
  let price = priceMinor;
  let from = 0;
  for (const b of breaks) {
    if (packs >= b.fromPacks && b.fromPacks > from) {
      from = b.fromPacks;
      price = b.priceMinor;
    }
  }
  return price;
}

/** Everything that bears on how much to order, base units unless said. */
export type QuantityQuestion = {
  readonly shortfall: number;
  /** Use expected over the coming so many days: what is booked and the usual. */
  readonly expectedUse: (days: number) => number;
  /** Past use may be read as a rate, so that an economic quantity has a meaning. */
  readonly steady: boolean;
  /** On hand and on order once this order arrives; below 0 by what is lacking until then. */
  readonly positionThen: number;
  readonly packSize: number;
  readonly priceMinor: number;
  readonly breaks: readonly PriceBreak[];
  readonly orderCostMinor: number;
  /** Cost of keeping stock for a year, share of its value. */
  readonly holdingShare: number;
  readonly sealedLifeDays: number | null;
  readonly openedLifeDays: number | null;
  readonly shelfPacks: number | null;
};
/** Limits that pulled against the need. */
export type QuantityConflict = 'shelf' | 'life' | 'opened';
export type QuantityAnswer = {
  readonly packs: number;
  /** Packs that cover the shortfall, before any limit. */
  readonly need: number;
  readonly priceMinor: number;
  /** Null where too little is known of the use for one. */
  readonly economic: number | null;
  readonly lifeLimit: number | null;
  readonly shelfLimit: number | null;
  readonly breakUsed: boolean;
  /** At least one more pack stays within shelf and life. */
  readonly fits: boolean;
  readonly conflicts: readonly QuantityConflict[];
};

/**
 * How much to order: the larger of the economic quantity and the shortfall, at most what is used before it expires
 * sealed and what the shelf takes, in whole packs, lifted to a price break when the year gets cheaper by it. Where
 * the use is not known as a rate, the shortfall alone: what is booked and the cover behind it.
 * A need that a limit cuts short is still ordered by one pack and the conflict named.
 */
export function orderQuantity(q: QuantityQuestion): QuantityAnswer {
  const year = q.expectedUse(365);
  const economic = q.steady ? economicOf(q, year) : null;
  const limits = limitsOf(q);
  const need = Math.max(0, Math.ceil((q.shortfall - HAIR / 2) / q.packSize));
  const most = Math.max(1, limits.most);
  const least = Math.max(1, Math.min(need, most));
  const plain = q.steady ? cheapestLot(q, year, [], least, most) : least;
  const packs = q.steady ? cheapestLot(q, year, q.breaks, least, most) : least;
  return {
    packs,
    need,
    priceMinor: packPrice(packs, q.priceMinor, q.breaks),
    economic,
    lifeLimit: limits.life,
    shelfLimit: limits.shelf,
    breakUsed: packs > plain,
    fits: limits.most >= 1,
    conflicts: conflictsOf(q, need, limits),
  };
}

/**
 * What an order usually brings: the economic quantity, or what `cover` lasts where no rate is known, within what the
 * shelf takes and what is used before it expires; at least a pack. Hangs on nothing that is there or on its way.
 */
export function usualLot(q: Omit<QuantityQuestion, 'shortfall' | 'positionThen'>, cover: number): number {
  const wished = q.steady ? economicOf(q, q.expectedUse(365)) : cover;
  const shelf = (q.shelfPacks ?? Number.POSITIVE_INFINITY) * q.packSize;
  const life = q.sealedLifeDays === null ? Number.POSITIVE_INFINITY : q.expectedUse(q.sealedLifeDays);
  return Math.max(q.packSize, Math.min(wished, shelf, life));
}

/** Never more than a year's use, however cheap an item is beside its order. */
type Costs = Pick<QuantityQuestion, 'orderCostMinor' | 'holdingShare' | 'priceMinor' | 'packSize'>;
function economicOf(q: Costs, year: number): number {
  return Math.min(
    year,
    economicQuantity(year, q.orderCostMinor, (q.holdingShare * q.priceMinor) / q.packSize),
  );
}

type Limits = { readonly life: number | null; readonly shelf: number | null; readonly most: number };

/**
 * What is used before it expires and what the shelf takes, less what is there already; `most` in whole packs. Where
 * use outruns what is there, that much of the order is gone as it comes and takes no room.
 */
function limitsOf(q: QuantityQuestion): Limits {
  const there = q.positionThen;
  const life = q.sealedLifeDays === null ? null : Math.max(0, q.expectedUse(q.sealedLifeDays) - there);
  const shelf = q.shelfPacks === null ? null : Math.max(0, q.shelfPacks * q.packSize - there);
  return { life, shelf, most: packsIn(q, Math.min(life ?? 1e15, shelf ?? 1e15)) };
}

function packsIn(q: QuantityQuestion, amount: number): number {
  return Math.floor(amount / q.packSize + 1e-9);
}

function conflictsOf(q: QuantityQuestion, need: number, limits: Limits): readonly QuantityConflict[] {
  const found: QuantityConflict[] = [];
  if (limits.shelf !== null && need > packsIn(q, limits.shelf)) found.push('shelf');
  if (limits.life !== null && need > packsIn(q, limits.life)) found.push('life');
  const opened = q.openedLifeDays === null ? q.packSize : q.expectedUse(q.openedLifeDays);
  if (opened < q.packSize && opened > 0) found.push('opened');
  return found;
}

/** Whole packs that make the year cheapest, never more than a year's use unless the need is more. */
function cheapestLot(
  q: QuantityQuestion,
  year: number,
  breaks: readonly PriceBreak[],
  least: number,
  most: number,
): number {
  const demand = year / q.packSize;
  if (demand <= 0) return least;
  const prices = [{ from: 0, price: q.priceMinor }];
  for (const b of breaks) prices.push({ from: b.fromPacks, price: b.priceMinor });
  const highest = Math.min(most, Math.max(least, demand));
  const lot = discountQuantity(demand, q.orderCostMinor, q.holdingShare, prices, least, highest);
  return Math.max(least, Math.ceil(lot.quantity - 0.5));
}
