import { invariant } from '../../shared/errors.ts';
import type { PriceBreak } from '../../shared/views/stock.ts';

/**
 * Economic order quantity: yearly (or any period's) demand, cost of one order, cost of keeping one unit that period.
 * @source F. W. Harris (1913); Hillier & Lieberman, Introduction to Operations Research
 */
export function economicQuantity(demand: number, orderCost: number, holding: number): number {
  if (demand <= 0 || orderCost <= 0) return 0;
  return holding <= 0 ? Number.POSITIVE_INFINITY : Math.sqrt((2 * demand * orderCost) / holding);
}

/**
 * The same when running short is allowed at a cost per unit and period.
 * @source Hillier & Lieberman, EOQ with planned shortages
 */
export function economicWithShortage(
  demand: number,
  orderCost: number,
  holding: number,
  shortage: number,
): { readonly quantity: number; readonly short: number } {
  const quantity = economicQuantity(demand, orderCost, holding) * Math.sqrt((shortage + holding) / shortage);
  return { quantity, short: (quantity * holding) / (holding + shortage) };
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
 * The cheapest lot under all-units discounts: each price's own economic quantity, lifted to where the price begins;
 * those that a better price already covers are dropped. Prices in rising `from` order, the first from 0.
 * @source Snyder & Shen, Fundamentals of Supply Chain Theory, section 3.4
 */
export function discountQuantity(
  demand: number,
  orderCost: number,
  rate: number,
  prices: readonly UnitPrice[],
): { readonly quantity: number; readonly price: number; readonly cost: number } {
  let best: { quantity: number; price: number; cost: number } | null = null;
  prices.forEach((p, i) => {
    const end = prices[i + 1]?.from ?? Number.POSITIVE_INFINITY;
    const quantity = Math.max(economicQuantity(demand, orderCost, rate * p.price), p.from);
    if (quantity >= end) return;
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

/**
 * Lots for known demand per period, all met, least cost of orders and of keeping: exact.
 * Returns what is ordered in each period.
 * @source H. M. Wagner & T. M. Whitin, Management Science 5 (1958) 89–96
 */
export function wagnerWhitin(
  demand: readonly number[],
  orderCost: number,
  holding: number,
): { readonly orders: readonly number[]; readonly cost: number } {
  const n = demand.length;
  const best = new Array<number>(n + 1).fill(Number.POSITIVE_INFINITY);
  const until = new Array<number>(n).fill(n);
  best[n] = 0;
  for (let t = n - 1; t >= 0; t -= 1) {
    let keep = 0;
    for (let s = t; s < n; s += 1) {
      keep += holding * (s - t) * (demand[s] ?? 0);
      const cost = orderCost + keep + (best[s + 1] ?? 0);
      if (cost < (best[t] ?? Number.POSITIVE_INFINITY)) {
        best[t] = cost;
        until[t] = s + 1;
      }
    }
  }
  const orders = new Array<number>(n).fill(0);
  for (let t = 0; t < n; t = until[t] ?? n) {
    for (let s = t; s < (until[t] ?? n); s += 1) orders[t] = (orders[t] ?? 0) + (demand[s] ?? 0);
  }
  return { orders, cost: best[0] ?? 0 };
}

/** Everything that bears on how much to order, base units unless said. */
export type QuantityQuestion = {
  readonly shortfall: number;
  readonly yearlyUse: number;
  /** On hand and on order once this order arrives. */
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
  readonly priceMinor: number;
  readonly economic: number;
  readonly lifeLimit: number | null;
  readonly shelfLimit: number | null;
  readonly breakUsed: boolean;
  readonly conflicts: readonly QuantityConflict[];
};

/**
 * How much to order: the larger of the economic quantity and the shortfall, at most what is used before it expires
 * sealed and what the shelf takes, in whole packs, lifted to a price break when the year gets cheaper by it.
 * A need that a limit cuts short is still ordered by one pack and the conflict named.
 */
export function orderQuantity(q: QuantityQuestion): QuantityAnswer {
  const unitMinor = q.priceMinor / q.packSize;
  const economic = economicQuantity(q.yearlyUse, q.orderCostMinor, q.holdingShare * unitMinor);
  const lifeLimit =
    q.sealedLifeDays === null
      ? null
      : Math.max(0, (q.yearlyUse / 365) * q.sealedLifeDays - Math.max(0, q.positionThen));
  const shelfLimit =
    q.shelfPacks === null ? null : Math.max(0, q.shelfPacks * q.packSize - Math.max(0, q.positionThen));
  const most = Math.floor(Math.min(lifeLimit ?? 1e15, shelfLimit ?? 1e15) / q.packSize + 1e-9);
  const need = Math.ceil(q.shortfall / q.packSize - 1e-9);
  const wanted = Math.max(1, need, Math.ceil(Math.min(economic, q.yearlyUse) / q.packSize - 0.5));
  const conflicts: QuantityConflict[] = [];
  if (shelfLimit !== null && need > Math.floor(shelfLimit / q.packSize + 1e-9)) conflicts.push('shelf');
  if (lifeLimit !== null && need > Math.floor(lifeLimit / q.packSize + 1e-9)) conflicts.push('life');
  if (q.openedLifeDays !== null && (q.yearlyUse / 365) * q.openedLifeDays < q.packSize && q.yearlyUse > 0)
    conflicts.push('opened');
  const plain = Math.max(1, Math.min(wanted, most));
  const packs = bestBreak(q, plain, Math.max(1, most));
  return {
    packs,
    priceMinor: packPrice(packs, q.priceMinor, q.breaks),
    economic: Number.isFinite(economic) ? economic : q.yearlyUse,
    lifeLimit,
    shelfLimit,
    breakUsed: packs > plain,
    conflicts,
  };
}

function bestBreak(q: QuantityQuestion, plain: number, most: number): number {
  const demand = q.yearlyUse / q.packSize;
  if (demand <= 0) return plain;
  let best = plain;
  let least = costOf(q, demand, plain);
  for (const b of q.breaks) {
    if (b.fromPacks <= plain || b.fromPacks > most) continue;
    const cost = costOf(q, demand, b.fromPacks);
    if (cost < least) {
      least = cost;
      best = b.fromPacks;
    }
  }
  return best;
}

function costOf(q: QuantityQuestion, demand: number, packs: number): number {
  const price = packPrice(packs, q.priceMinor, q.breaks);
  return yearlyCost(demand, packs, price, q.orderCostMinor, q.holdingShare);
}
