import { normalLoss, zOf } from '#core/stock/rules/normal.ts';

/**
 * Newsvendor: amount for one period when each unit over costs `over` and each unit short costs `under`,
 * normal demand. Cost is the expected cost at that amount.
 * @source Snyder & Shen, Fundamentals of Supply Chain Theory, example 4.3
 */
export function newsvendor(
  over: number,
  under: number,
  mean: number,
  sd: number,
): { readonly amount: number; readonly cost: number } {
  const z = zOf(under / (under + over));
  const amount = mean + z * sd;
  return { amount, cost: over * (amount - mean) + (over + under) * normalLoss(z) * sd };
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
  for (let t = 0; t < n; t = until[t] ?? n)
    for (let s = t; s < (until[t] ?? n); s += 1) orders[t] = (orders[t] ?? 0) + (demand[s] ?? 0);
  return { orders, cost: best[0] ?? 0 };
}
