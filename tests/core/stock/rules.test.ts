import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fromShown, type ShownUnit, toShown } from '#core/shared/amounts.ts';
import type { LocalDay, Minor } from '#core/shared/units.ts';
import { EMPTY_BOOK, EMPTY_FIFO, fifoIn, fifoLeft, fifoOut, putIn, takeOut } from '#core/stock/rules/cost.ts';
import { isIntermittent, leadQuantile, shareNotBooked, usualUse } from '#core/stock/rules/demand.ts';
import { drawFactor, dropsToUl, pickItem, proposedAmount } from '#core/stock/rules/draws.ts';
import { countDifference, fromPacks, inPacks, onHand } from '#core/stock/rules/ledger.ts';
import { mayGo, padShortage, piecesLacking, usesPerLife, wearMinor } from '#core/stock/rules/pads.ts';
import { bandOf, project } from '#core/stock/rules/projection.ts';
import { orderQuantity, packPrice } from '#core/stock/rules/quantity.ts';
import { inventoryPosition, orderToday } from '#core/stock/rules/reorder.ts';
import { arrivalDay, learnLead, nextOpen, openDaysBetween } from '#core/stock/rules/supplierDays.ts';

describe('the ledger', () => {
  it('sums movements, also only up to a line', () => {
    const lines = [
      { id: 1, qty: 500 },
      { id: 2, qty: -120 },
      { id: 3, qty: -30 },
    ];
    expect(onHand(lines)).toBe(350);
    expect(onHand(lines, 2)).toBe(380);
  });
  it('counts against the book as it stood beside the shelf, so later draws stay', () => {
    // book 380 at the shelf, 370 found there: −10 whatever was drawn since
    expect(countDifference(370, 380)).toBe(-10);
  });
  it('splits packs and puts them together again, below zero too', () => {
    fc.assert(
      fc.property(fc.integer({ min: -1e9, max: 1e9 }), fc.integer({ min: 1, max: 1e6 }), (amount, size) => {
        const { packs, rest } = inPacks(amount, size);
        expect(fromPacks(packs, size, rest)).toBe(amount);
        expect(Math.abs(rest)).toBeLessThan(size);
      }),
    );
  });
  it('reads back every amount it shows, in either system', () => {
    const unit = fc.constantFrom('ul', 'mg', 'mm', 'piece' as const);
    const style = fc.record({
      volume: fc.constantFrom('ml', 'floz' as const),
      length: fc.constantFrom('m', 'ft' as const),
    });
    fc.assert(
      fc.property(fc.integer({ min: -2e9, max: 2e9 }), unit, style, (amount, u, s) => {
        const shown = toShown(amount, u, s as { volume: 'ml' | 'floz'; length: 'm' | 'ft' });
        expect(fromShown(shown.value, shown.unit as ShownUnit)).toBe(amount === 0 ? 0 : amount);
      }),
    );
  });
});

describe('what stock is worth', () => {
  it('lets the last piece take the last cent along', () => {
    // 3 for 10: 3.33 → 3, then 7/2 = 3.5 → 4, then the remaining 3
    const a = takeOut(putIn(EMPTY_BOOK, 3, 10).book, 1);
    const b = takeOut(a.book, 1);
    const c = takeOut(b.book, 1);
    expect([a.valueMinor, b.valueMinor, c.valueMinor]).toEqual([-3, -4, -3]);
    expect(c.book).toMatchObject({ qty: 0, valueMinor: 0 });
  });
  it('books a draw beyond the book at the latest price and settles it at the next', () => {
    const drawn = takeOut(putIn(EMPTY_BOOK, 10, 100).book, 14);
    expect(drawn.valueMinor).toBe(-140);
    expect(drawn.book).toMatchObject({ qty: -4, valueMinor: -40 });
    // 10 more at 12 each: the 4 owed cost 48, not 40, so 8 more were used up; 6 are left at 12
    const settled = putIn(drawn.book, 10, 120);
    expect(settled.recostMinor).toBe(-8);
    expect(settled.book).toMatchObject({ qty: 6, valueMinor: 72 });
  });
  it('keeps amount = sum of movements and value = sum of layers over 200 random commands', () => {
    const step = fc.record({
      in: fc.boolean(),
      qty: fc.integer({ min: 1, max: 5000 }),
      cost: fc.nat(100_000),
    });
    fc.assert(
      fc.property(fc.array(step, { minLength: 200, maxLength: 200 }), (steps) => {
        let book = EMPTY_BOOK;
        let fifo = EMPTY_FIFO;
        let qty = 0;
        let average = 0;
        let paid = 0;
        for (const s of steps) {
          const posted = s.in ? putIn(book, s.qty, s.cost) : takeOut(book, s.qty);
          book = posted.book;
          fifo = s.in ? fifoIn(fifo, s.qty, s.cost) : fifoOut(fifo, s.qty);
          qty += s.in ? s.qty : -s.qty;
          average += posted.valueMinor + posted.recostMinor;
          if (s.in) paid += s.cost;
        }
        expect(book.qty).toBe(qty);
        expect(book.valueMinor).toBe(average);
        expect(book.qty === 0 ? book.valueMinor : 0).toBe(0);
        const left = fifoLeft(fifo);
        expect(left.qty).toBe(qty);
        expect(left.valueMinor).toBe(paid - fifo.issuedMinor);
      }),
      { numRuns: 60 },
    );
  });
});

describe('draws', () => {
  it('keeps the plan while nothing is known and moves with evidence', () => {
    expect(drawFactor({ n: 0, planned: 0, drawn: 0 })).toBe(1);
    // 5 imagined stages of 100 and 5 real ones: (500 + 700) / (500 + 500)
    expect(drawFactor({ n: 5, planned: 500, drawn: 700 })).toBeCloseTo(1.2, 12);
  });
  it('proposes whole pieces and whole base units', () => {
    expect(proposedAmount(3, 1.1, true)).toBe(4);
    expect(proposedAmount(3, 1, true)).toBe(3);
    expect(proposedAmount(15_001, 1.1, false)).toBe(16_501);
  });
  it('takes the preferred item that has enough, else the fullest, else the preferred', () => {
    const a = { itemId: 'a', preference: 0, onHand: 50 };
    const b = { itemId: 'b', preference: 1, onHand: 400 };
    expect(pickItem([b, a], 40)?.itemId).toBe('a');
    expect(pickItem([b, a], 100)?.itemId).toBe('b');
    expect(
      pickItem(
        [
          { ...b, onHand: -3 },
          { ...a, onHand: 0 },
        ],
        100,
      )?.itemId,
    ).toBe('a');
    expect(pickItem([], 1)).toBeNull();
  });
  it('loads a pad with about five drops: 1 ml (common practice; the drop from memory)', () => {
    expect(dropsToUl(5)).toBe(1000);
  });
});

describe('pads', () => {
  const none = { clean: 0, inUse: 0, dirty: 0, washing: 0 };
  it('go clean, dirty, washing, clean and retire for good', () => {
    expect(mayGo('clean', 'dirty')).toBe(true);
    expect(mayGo('dirty', 'washing')).toBe(true);
    expect(mayGo('retired', 'clean')).toBe(false);
    expect(mayGo('clean', 'washing')).toBe(false);
  });
  it('names the first job that lacks clean ones, and whether a wash helps', () => {
    const needs = [
      { day: 1, jobId: 'dray', pieces: 2 },
      { day: 2, jobId: 'farrow', pieces: 6 },
    ];
    // 3 clean: 2 go to Dray, 1 is left for Farrow. Washed tonight the 7 dirty are back.
    const lack = padShortage({ ...none, clean: 3, dirty: 7 }, needs, 20);
    expect(lack).toEqual({ day: 2, jobId: 'farrow', needs: 6, has: 1, washHelps: true });
    expect(padShortage({ ...none, clean: 3, dirty: 1 }, needs, 20)?.washHelps).toBe(false);
    expect(padShortage({ ...none, clean: 8 }, needs, 20)).toBeNull();
  });
  it('counts what is in the machine as clean tomorrow', () => {
    expect(padShortage({ ...none, washing: 4 }, [{ day: 1, jobId: 'a', pieces: 4 }], 20)).toBeNull();
    expect(padShortage({ ...none, washing: 4 }, [{ day: 0, jobId: 'a', pieces: 4 }], 20)?.has).toBe(0);
  });
  it('buys what is lacking even when everything is washed each night', () => {
    const needs = [{ day: 3, jobId: 'a', pieces: 9 }];
    expect(piecesLacking({ ...none, clean: 2, dirty: 3 }, needs, 20)).toBe(4);
    expect(piecesLacking({ ...none, clean: 9 }, needs, 20)).toBe(0);
  });
  it('learns their life from retirements', () => {
    expect(usesPerLife(20, 0, 0)).toBe(20);
    // 4 imagined pieces of 20 uses, then 8 retired over 120 uses: (80 + 120) / 12
    expect(usesPerLife(20, 120, 8)).toBeCloseTo(16.6667, 4);
    // a piece of 12.00 that lasts 20 uses loses 0.60 a use
    expect(wearMinor(1200, 20, 3)).toBe(180);
  });
});

describe('looking forward', () => {
  it('runs out on the day a booked job takes the last of it', () => {
    // 620 ml; jobs take 300, 300 and 540: the third one on day 5 finds nothing
    const booked = [0, 300, 300, 0, 0, 540, 0];
    const flat = new Array<number>(7).fill(0);
    const p = project({ onHand: 620, booked, usual: flat, usualVar: flat, arrivals: flat });
    expect(Array.from(p.mid)).toEqual([620, 320, 20, 20, 20, -520, -520]);
    expect(p.runOut).toBe(5);
    expect(bandOf(p).mid[5]).toBe(0);
  });
  it('never runs out of what nobody uses, nor when an order comes first', () => {
    const flat = [0, 0, 0];
    expect(
      project({ onHand: 0, booked: flat, usual: flat, usualVar: flat, arrivals: flat }).runOut,
    ).toBeNull();
    const p = project({ onHand: 5, booked: [0, 0, 9], usual: flat, usualVar: flat, arrivals: [0, 10, 0] });
    expect(p.runOut).toBeNull();
  });
  it('spreads the band by the variance of the usual use', () => {
    // variance 100 a day: after 4 days sd 20, P20 16.8 below the middle
    const usual = [0, 0, 0, 0];
    const p = project({ onHand: 100, booked: usual, usual, usualVar: [100, 100, 100, 100], arrivals: usual });
    expect(p.sd[3]).toBeCloseTo(20, 12);
    expect(bandOf(p).low[3]).toBe(83);
    expect(bandOf(p).high[3]).toBe(117);
  });
  it('adds only the part of the usual work that is not booked yet', () => {
    // 90 bookings, half a day before, half ten days before; 10 imagined ones behind
    const leads = [...new Array<number>(45).fill(1), ...new Array<number>(45).fill(10)];
    const share = shareNotBooked(leads, 20);
    expect(share[0]).toBe(0);
    expect(share[1]).toBeCloseTo((10 * (1 - Math.exp(-1 / 12))) / 100, 12);
    expect(share[2]).toBeCloseTo((45 + 10 * (1 - Math.exp(-2 / 12))) / 100, 12);
    expect(share[11]).toBeCloseTo((90 + 10 * (1 - Math.exp(-11 / 12))) / 100, 12);
  });
  it('takes the usual use by weekday', () => {
    // two weeks from a Monday: 10 each Monday, nothing else
    const use = [10, 0, 0, 0, 0, 0, 0, 20, 0, 0, 0, 0, 0, 0];
    const usual = usualUse(use, 0);
    expect(usual.mean[0]).toBe(15);
    expect(usual.variance[0]).toBe(50);
    expect(usual.mean[3]).toBe(0);
    expect(usual.perDay).toBeCloseTo(30 / 14, 12);
    expect(isIntermittent(usual)).toBe(true);
  });
  it('finds the amount that so many lead times do not exceed', () => {
    expect(leadQuantile([2, 2, 2], 5, 0.95)).toBe(10);
    expect(leadQuantile([], 5, 0.95)).toBe(0);
    const q = leadQuantile([0, 0, 0, 0, 0, 0, 0, 0, 0, 10], 10, 0.9);
    // binomial(10, 0.1): P(≤ 1) = 0.736, P(≤ 2) = 0.930
    expect(q).toBe(20);
  });
});

describe('when and how much', () => {
  const week = { leadDays: 2, openWeekdays: [1, 2, 3, 4, 5], closedDays: ['2026-12-07', '2026-12-08'] };
  it('counts the supplier’s open days', () => {
    // Wed 25 Nov 2026 + 2 working days = Fri 27; Fri 4 Dec + 2 skips the weekend and two shut days: Thu 10
    expect(arrivalDay('2026-11-25' as LocalDay, week)).toBe('2026-11-27');
    expect(arrivalDay('2026-12-04' as LocalDay, week)).toBe('2026-12-10');
    expect(nextOpen('2026-11-28' as LocalDay, week)).toBe('2026-11-30');
    expect(openDaysBetween('2026-12-04' as LocalDay, '2026-12-10' as LocalDay, week)).toBe(2);
    expect(learnLead([2, 3])).toBeNull();
    expect(learnLead([2, 3, 4])).toEqual({ meanDays: 3, sdDays: 1, n: 3 });
  });
  it('looks at the position, not at the shelf', () => {
    expect(inventoryPosition(620, 0, 1140)).toBe(-520);
  });
  it('waits while a later order still comes in time, and not when the supplier shuts', () => {
    const mid = [100, 90, 80, 70, 60, 50, 40, 30];
    const q = { mid, safety: 35, arrivesToday: 2, openToday: true };
    expect(orderToday({ ...q, arrivesNext: 3 })).toEqual({ order: false, below: 7 });
    expect(orderToday({ ...q, arrivesNext: 7 }).order).toBe(true);
    expect(orderToday({ ...q, arrivesNext: 7, openToday: false }).order).toBe(false);
  });
  const base = {
    shortfall: 1500,
    yearlyUse: 12_000,
    positionThen: 0,
    packSize: 1000,
    priceMinor: 4000,
    breaks: [],
    orderCostMinor: 0,
    holdingShare: 0.2,
    sealedLifeDays: null,
    openedLifeDays: null,
    shelfPacks: null,
  };
  it('covers the shortfall in whole packs', () => {
    expect(orderQuantity(base).packs).toBe(2);
  });
  it('takes the economic quantity when it is larger', () => {
    // √(2·12000·1000/(0.2·4)) = 5477 → 5 packs
    expect(orderQuantity({ ...base, orderCostMinor: 1000 }).packs).toBe(5);
  });
  it('stays within shelf and life and says when the need does not fit', () => {
    const shelf = orderQuantity({ ...base, shelfPacks: 1 });
    expect(shelf).toMatchObject({ packs: 1, conflicts: ['shelf'] });
    // 12000 a year is 32.9 a day; 30 days use 986: not one pack
    const life = orderQuantity({ ...base, sealedLifeDays: 30 });
    expect(life).toMatchObject({ packs: 1, conflicts: ['life'] });
    const opened = orderQuantity({ ...base, openedLifeDays: 10 });
    expect(opened.conflicts).toEqual(['opened']);
  });
  it('goes up to a price break when the year gets cheaper', () => {
    const breaks = [{ fromPacks: 4, priceMinor: 3500 as Minor }];
    expect(orderQuantity({ ...base, breaks }).packs).toBe(4);
    expect(orderQuantity({ ...base, breaks, shelfPacks: 3 }).packs).toBe(2);
    expect(packPrice(3, 4000, breaks)).toBe(4000);
    expect(packPrice(4, 4000, breaks)).toBe(3500);
  });
});
