import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Minor } from '#core/shared/units.ts';
import { EMPTY_BOOK, EMPTY_FIFO, fifoIn, fifoLeft, fifoOut, putIn, takeOut } from '#core/stock/rules/cost.ts';
import { croston, syntetosBoylan } from '#core/stock/rules/demand.ts';
import { normalLoss, zOf } from '#core/stock/rules/normal.ts';
import { discountQuantity, economicQuantity, orderQuantity, yearlyCost } from '#core/stock/rules/quantity.ts';
import { chanceFor, leadSpread, safetyStock } from '#core/stock/rules/reorder.ts';
import { newsvendor, wagnerWhitin } from '../helpers/textbookStock.ts';

describe('order quantity', () => {
  it('gives Hillier & Lieberman’s loudspeakers: d 8000, K 12000, h 0.30', () => {
    const q = economicQuantity(8000, 12_000, 0.3);
    expect(q).toBeCloseTo(25_298.221281347, 8);
    expect(q / 8000).toBeCloseTo(3.16227766017, 10);
  });
  it('gives Heizer & Render’s needles (from memory): 200 a time, 5 orders, 100 a year', () => {
    expect(economicQuantity(1000, 10, 0.5)).toBe(200);
    // ordering 1000/200·10 = 50 and keeping 200/2·0.5 = 50; goods left out by a price of 0
    expect(yearlyCost(1000, 200, 1, 10, 0.5) - 1000).toBe(100);
  });
  it('takes the last price break of Snyder & Shen, example 3.5: 800 at 0.68 for 978.60 a year', () => {
    const best = discountQuantity(1300, 8, 0.3, [
      { from: 0, price: 0.75 },
      { from: 400, price: 0.72 },
      { from: 800, price: 0.68 },
    ]);
    expect(best.quantity).toBe(800);
    expect(best.cost).toBeCloseTo(978.6, 9);
  });
  it('orders the example’s 800 by the shop’s own rule too, in packs of one', () => {
    const answer = orderQuantity({
      shortfall: 0,
      expectedUse: (days) => (1300 * days) / 365,
      steady: true,
      positionThen: 0,
      packSize: 1,
      priceMinor: 0.75,
      breaks: [
        { fromPacks: 400, priceMinor: 0.72 as Minor },
        { fromPacks: 800, priceMinor: 0.68 as Minor },
      ],
      orderCostMinor: 8,
      holdingShare: 0.3,
      sealedLifeDays: null,
      openedLifeDays: null,
      shelfPacks: null,
    });
    expect(answer).toMatchObject({ packs: 800, breakUsed: true });
  });
  it('is within a twelfth of the least cost there is, found by Wagner and Whitin, whatever the order costs', () => {
    // The oracle first gives its own example, Snyder & Shen 3.9: 210, 0, 150, 0 for 1380.
    expect(wagnerWhitin([90, 120, 80, 70], 500, 2)).toEqual({ orders: [210, 0, 150, 0], cost: 1380 });
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 40 }), fc.integer({ min: 1, max: 30 }), (use, times) => {
        const [periods, orderCost] = [365, times * use];
        const lot = Math.max(use, economicQuantity(use, orderCost, 1));
        const least = wagnerWhitin(new Array<number>(periods).fill(use), orderCost, 1).cost;
        let [cost, there] = [0, 0];
        for (let k = 0; k < periods; k += 1) {
          if (there < use) {
            cost += orderCost;
            there += Math.min(Math.max(use, Math.round(lot / use) * use), use * (periods - k));
          }
          there -= use;
          cost += there;
        }
        expect(cost).toBeGreaterThanOrEqual(least - 1e-6);
        expect(cost).toBeLessThanOrEqual(least * (1 + 1 / 12));
      }),
      { numRuns: 40 },
    );
  });
});

describe('when to order', () => {
  it('adds safety to the lead time’s use: 500 over 250 days, 12 days, spread 20, z 1.64', () => {
    // 2 a day for 12 days is 24; 1.64 · 20 = 32.8. The spread over the lead time is given whole.
    const perDay = 500 / 250;
    const level = 0.9494974165; // Φ(1.64), the standard normal table
    expect(zOf(level)).toBeCloseTo(1.64, 8);
    expect(perDay * 12).toBe(24);
    expect(safetyStock(leadSpread(20 ** 2, perDay, 0), level)).toBeCloseTo(32.8, 6);
    expect(perDay * 12 + safetyStock(20, level)).toBeCloseTo(56.8, 6);
  });
  it('lets demand and lead time vary together: d 50, s 5, L 6, sL 2', () => {
    const spread = leadSpread(6 * 5 ** 2, 50, 2);
    expect(spread).toBeCloseTo(100.74720839805, 10);
    expect(50 * 6 + safetyStock(spread, 0.9)).toBeCloseTo(429.112742646768, 8);
  });
  it('keeps back what the newsvendor would, of whom Snyder & Shen give example 4.3', () => {
    const { amount, cost } = newsvendor(0.18, 0.7, 50, 8);
    expect(amount).toBeCloseTo(56.603955927433887, 8);
    expect(cost).toBeCloseTo(1.997605193176645, 8);
    // one period, no stray in the lead time: the level aimed at is the share of what a piece short costs
    expect(50 + safetyStock(leadSpread(8 ** 2, 50, 0), 0.7 / 0.88)).toBeCloseTo(amount, 8);
  });
  it('serves the share aimed at with a lot of 1000 and a spread of 100: what is short is a tenth of a spread', () => {
    // 1 % of 1000 is 10 short a wait, 0.1 spreads: L(0.9021) = 0.1; with 83.3 … the loss at z 1, Φ(1) = 0.8413
    expect(chanceFor(1 - 0.00833154705877, 1000, 100)).toBeCloseTo(0.8413447460685, 9);
    expect(chanceFor(1 - 0.0197796557401, 1000, 100)).toBeCloseTo(0.691462461274, 9);
    expect(chanceFor(1 - 0.000849070261683, 1000, 100)).toBeCloseTo(0.9772498680518, 9);
    // 5 % of 2166.63 may be 108.33 short, 1.0833 spreads: L(−z) = L(z) + z, the loss at z −1
    expect(chanceFor(0.95, 2166.63094117574, 100)).toBeCloseTo(0.1586552539315, 9);
    // nothing kept back where nothing strays
    expect(chanceFor(0.999, 1000, 0)).toBe(0.5);
  });
  it.each([
    [0, 0.398942280401],
    [0.5, 0.197796557401],
    [1, 0.0833154705877],
    [2, 0.00849070261683],
  ])('gives the normal loss at %d', (x, loss) => {
    expect(normalLoss(x)).toBeCloseTo(loss, 11);
  });
  it.each([
    [0.8, 0.8416212335729],
    [0.9, 1.2815515655446],
    [0.95, 1.6448536269515],
    [0.975, 1.9599639845401],
    [0.99, 2.3263478740408],
  ])('gives the normal quantile at %d', (p, z) => {
    expect(zOf(p)).toBeCloseTo(z, 12);
  });
});

describe('intermittent use', () => {
  // reference software's forecast for this series prints 8.20
  const series = [0, 0, 3, 0, 0, 0, 2, 0, 5, 0, 0, 1, 0, 0, 0, 0, 4, 0, 0, 3];
  it('forecasts by Croston with α 0.1 and 0.2', () => {
    const at1 = croston(series, 0.1);
    expect(at1.size).toBeCloseTo(3.00819, 5);
    expect(at1.period).toBeCloseTo(3.17271, 5);
    expect(at1.perDay).toBeCloseTo(0.948145276435603, 12);
    expect(croston(series, 0.2).perDay).toBeCloseTo(0.917369799243526, 12);
  });
  it('takes the bias off by Syntetos and Boylan', () => {
    expect(syntetosBoylan(series, 0.1)).toBeCloseTo(0.900738012613822, 12);
  });
  it('forecasts nothing from nothing', () => {
    expect(croston([0, 0, 0], 0.1)).toEqual({ size: 0, period: Number.POSITIVE_INFINITY, perDay: 0 });
    expect(syntetosBoylan([], 0.1)).toBe(0);
  });
});

describe('value of stock, the August example of Wild, Financial Accounting', () => {
  it('first in, first out: issues 4570, left 1420', () => {
    let stock = fifoIn(EMPTY_FIFO, 10, 910);
    stock = fifoOut(fifoIn(stock, 15, 15 * 106), 20);
    stock = fifoOut(fifoIn(fifoIn(stock, 20, 20 * 115), 10, 10 * 119), 23);
    expect(stock.issuedMinor).toBe(4570);
    expect(fifoLeft(stock)).toEqual({ qty: 12, valueMinor: 1420 });
  });
  it('moving average (from memory): issues 4622, left 1368', () => {
    const first = takeOut(putIn(putIn(EMPTY_BOOK, 10, 910).book, 15, 15 * 106).book, 20);
    const second = takeOut(putIn(putIn(first.book, 20, 20 * 115).book, 10, 10 * 119).book, 23);
    expect(-first.valueMinor - second.valueMinor).toBe(4622);
    expect(second.book).toMatchObject({ qty: 12, valueMinor: 1368 });
  });
});
