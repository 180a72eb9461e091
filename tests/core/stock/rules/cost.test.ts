import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { EMPTY_BOOK, EMPTY_FIFO, fifoIn, fifoLeft, fifoOut, putIn, takeOut } from '#core/stock/rules/cost.ts';

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
