import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ItemId } from '#core/shared/ids.ts';
import { drawnPerDay } from '#core/views/stockHistory.ts';
import { TEST_NOW } from '../../helpers/shop.ts';
import { shelfShop } from './shelf.ts';

const on = shelfShop();
const DAY = 86_400_000;
const HISTORY = 40;
const MIDNIGHT = Math.floor(TEST_NOW / DAY) * DAY + 60 * DAY;

type Line = {
  readonly id: number;
  readonly itemId: ItemId;
  /** When it was written; of a correction the day that counts is that of its draw. */
  readonly atMs: number;
  readonly countsMs: number;
  readonly qty: number;
};

/** One figure per day by looking at every line again, whatever was known before. */
function byHand(lines: readonly Line[], itemId: ItemId, days: number, midnight: number): number[] {
  return Array.from({ length: days }, (_, k) => {
    const from = midnight - (days - k) * DAY;
    const found = lines.filter((l) => l.itemId === itemId && l.countsMs >= from && l.countsMs < from + DAY);
    return Math.max(
      0,
      found.reduce((sum, l) => sum - l.qty, 0),
    );
  });
}

const move = fc.record({
  clay: fc.boolean(),
  /** Days before the midnight looked from; at most 0 as a rule, since most is written down on its day. */
  daysAgo: fc.oneof(
    { weight: 6, arbitrary: fc.integer({ min: -1, max: 0 }) },
    { weight: 1, arbitrary: fc.integer({ min: 1, max: 50 }) },
  ),
  ofDay: fc.constantFrom(0, 1, DAY / 2, DAY - 1),
  qty: fc.integer({ min: -9000, max: 4000 }).filter((qty) => qty !== 0),
  /** Now and then it corrects the draw so many before it. */
  corrects: fc.option(fc.nat(8), { freq: 3, nil: null }),
});
/** Then so many days go by; by half an hour more or less where the clock is put forward or back. */
const later = fc.record({
  moves: fc.array(move, { maxLength: 6 }),
  onMs: fc.constantFrom(0, DAY, DAY, 3 * DAY, 60 * DAY, -2 * DAY, DAY + DAY / 48),
});

describe('what was drawn on each day', () => {
  it('is what the ledger says, however the days go by and whatever is written down late', () => {
    const insert = on.shop.db.raw.prepare(
      `INSERT INTO stock_movement (item_id, qty, value_minor, reason, at_ms, corrects_id, note)
       VALUES (?, ?, 0, 'draw', ?, ?, '')`,
    );
    const lines: Line[] = [];
    let midnight = MIDNIGHT;
    fc.assert(
      fc.property(fc.array(later, { minLength: 1, maxLength: 5 }), (steps) => {
        for (const { moves, onMs } of steps) {
          for (const m of moves) {
            const first = m.corrects === null ? undefined : lines.at(-1 - m.corrects);
            const itemId = first?.itemId ?? (m.clay ? on.shelf.clay : on.shelf.compound);
            const atMs = Math.max(first?.atMs ?? 0, midnight - m.daysAgo * DAY + m.ofDay);
            const { lastInsertRowid } = insert.run(itemId, m.qty, atMs, first?.id ?? null);
            const countsMs = first?.atMs ?? atMs;
            lines.push({ id: Number(lastInsertRowid), itemId, atMs, countsMs, qty: m.qty });
          }
          midnight += onMs;
          const seen = drawnPerDay(on.shop.db, midnight, HISTORY);
          for (const itemId of [on.shelf.clay, on.shelf.compound]) {
            const days = Array.from(seen.get(itemId) ?? []);
            expect(days.length).toBeGreaterThanOrEqual(14);
            expect(days).toEqual(byHand(lines, itemId, days.length, midnight));
          }
        }
      }),
      { numRuns: 12 },
    );
  });
});
