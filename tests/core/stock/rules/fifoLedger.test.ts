import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fifoLeft } from '#core/stock/rules/cost.ts';
import { type FifoLine, fifoOf } from '#core/stock/rules/fifoLedger.ts';

const came = (id: number, qty: number, valueMinor: number): FifoLine => ({ id, qty, valueMinor });
const drawn = (id: number, qty: number): FifoLine => ({ id, qty: -qty, valueMinor: -7 });
/** Booked at the moving average, which first in, first out has nothing to do with. */
const corrected = (id: number, correctsId: number, qty: number): FifoLine => ({
  ...{ id, correctsId, qty, valueMinor: 77 },
});

describe('first in, first out over a ledger with corrections', () => {
  it('lays what is taken back in front again at what it was taken at', () => {
    // August of Wild’s Financial Accounting: 10 at 91 and 15 at 106, 20 drawn for 910 + 1060; 12 of them come back
    const lines = [came(1, 10, 910), came(2, 15, 15 * 106), drawn(3, 20), corrected(4, 3, 12)];
    const back = fifoOf(lines);
    // the ten at 106 and two at 91: 2 · 91 + 15 · 106 are left
    expect(back.layers).toEqual([
      { qty: 2, valueMinor: 182 },
      { qty: 10, valueMinor: 1060 },
      { qty: 5, valueMinor: 530 },
    ]);
    expect(back.issuedMinor).toBe(8 * 91);
    // the next draw takes the oldest, as if the twelve had never left
    expect(fifoOf([...lines, drawn(5, 4)]).issuedMinor).toBe(8 * 91 + 2 * 91 + 2 * 106);
  });
  it('takes what was drawn on credit off the debt first, and gives to others what was taken beyond the shelf', () => {
    const lines = [came(1, 5, 500), drawn(2, 8), drawn(3, 4)];
    // 7 are owed, 3 of them by the first: 5 back pay its 3 and give 2 at 100 to the second
    const less = fifoOf([...lines, corrected(4, 2, 5)]);
    expect(less).toMatchObject({ owed: 2, layers: [], issuedMinor: 500 });
    // what then comes settles the second’s last two; all of it back lies there at what it was settled at
    const all = fifoOf([
      ...lines,
      corrected(4, 2, 5),
      came(5, 10, 1200),
      corrected(6, 3, 4),
      corrected(7, 2, 3),
    ]);
    expect(all).toMatchObject({ owed: 0, issuedMinor: 0 });
    expect(fifoLeft(all)).toEqual({ qty: 15, valueMinor: 1700 });
  });
  it('leaves what was paid less what was issued, and all that was paid once every draw is taken back', () => {
    const step = fc.record({
      what: fc.constantFrom('came', 'drawn', 'drawn', 'corrected'),
      qty: fc.integer({ min: 1, max: 300 }),
      cost: fc.nat(10_000),
    });
    fc.assert(
      fc.property(fc.array(step, { minLength: 20, maxLength: 40 }), (steps) => {
        const lines: FifoLine[] = [];
        const open = new Map<number, number>();
        let [paid, owned] = [0, 0];
        for (const [at, { what, qty, cost }] of steps.entries()) {
          const id = at + 1;
          const of = [...open.keys()][cost % Math.max(1, open.size)];
          if (what === 'came') {
            lines.push(came(id, qty, cost));
            [paid, owned] = [paid + cost, owned + qty];
          } else if (what === 'drawn') {
            lines.push(drawn(id, qty));
            open.set(id, qty);
          } else if (of !== undefined) {
            const now = qty % 3 === 0 ? -qty : Math.min(qty, open.get(of) ?? 0);
            if (now === 0) continue;
            lines.push(corrected(id, of, now));
            open.set(of, (open.get(of) ?? 0) - now);
          }
        }
        const stock = fifoOf(lines);
        expect(fifoLeft(stock).qty).toBe(lines.reduce((sum, l) => sum + l.qty, 0));
        expect(fifoLeft(stock).valueMinor).toBe(paid - stock.issuedMinor);
        const back = [...open].filter(([, qty]) => qty > 0);
        const none = fifoOf([...lines, ...back.map(([of, qty], i) => corrected(1000 + i, of, qty))]);
        expect(none.issuedMinor).toBe(0);
        expect(fifoLeft(none)).toEqual({ qty: owned, valueMinor: paid });
      }),
      { numRuns: 200 },
    );
  });
});
