import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { ItemId } from '#core/shared/ids.ts';
import { fifoLeft } from '#core/stock/rules/cost.ts';
import { type FifoLine, fifoOf } from '#core/stock/rules/fifoLedger.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';
import { audit, bookJob, fillShelf, refusal, type Shelf } from './shelf.ts';

type Pick = (n: number) => number;
type Does = (shop: TestShop, shelf: Shelf, pick: Pick, stageId: string) => unknown;

const drawn =
  (of: 'compound' | 'pads', most: number): Does =>
  (shop, shelf, pick, stageId) =>
    shop.write('stock.drawForStage', { stageId, draws: [{ itemId: shelf[of], amount: 1 + pick(most) }] });
const washed =
  (step: 'in' | 'out'): Does =>
  (shop, { pads }, pick) =>
    shop.write('stock.padsWash', { itemId: pads, pieces: 1 + pick(3), step });
const openOne = (shop: TestShop): string | undefined =>
  shop.db.raw.prepare('SELECT id FROM stock_container WHERE closed_ms IS NULL ORDER BY id').pluck().get() as
    | string
    | undefined;

const DOES: readonly Does[] = [
  drawn('compound', 90_000),
  drawn('pads', 5),
  (shop, { clay }, pick) =>
    shop.write('stock.waste', { itemId: clay, amount: 1 + pick(60_000), why: 'dropped' }),
  washed('in'),
  washed('out'),
  (shop, { pads }) => shop.write('stock.padsRetire', { itemId: pads, pieces: 1, from: 'dirty', why: 'worn' }),
  (shop, { kestle, compound }, pick) =>
    shop.write('stock.receive', {
      supplierId: kestle,
      lines: [{ itemId: compound, packs: 1, packSize: 1_000_000, priceMinor: 3900 + pick(500) }],
    }),
  (shop, { compound }, pick) =>
    shop.write('stock.returnItem', { itemId: compound, amount: 1 + pick(40_000) }),
  (shop, { clay, pads }, pick) => {
    const latest = shop.db.raw.prepare('SELECT max(id) FROM stock_movement WHERE item_id = ?').pluck();
    const itemId = pick(2) ? clay : pads;
    const asOfMovementId = latest.get(itemId) as number;
    return shop.write('stock.count', { itemId, counted: pick(12), asOfMovementId });
  },
  (shop, { compound, clay }, pick) =>
    shop.write('stock.openContainer', { itemId: pick(2) ? compound : clay }),
  (shop, _, pick) => {
    const containerId = openOne(shop);
    return containerId && shop.write('stock.readContainer', { containerId, read: { level: pick(9), of: 8 } });
  },
  (shop, _, pick) => {
    const containerId = openOne(shop);
    const as = pick(2) ? 'empty' : 'thrown';
    return containerId && shop.write('stock.closeContainer', { containerId, as, why: 'old' });
  },
  (shop, _, pick) => {
    const last = shop.db.raw.prepare(
      `SELECT max(id) FROM stock_movement WHERE reason = 'draw' AND corrects_id IS NULL`,
    );
    const movementId = last.pluck().get() as number | null;
    return movementId && shop.write('stock.correctDraw', { movementId, amount: pick(90_000) });
  },
];
/** Which command, and what its amounts are remainders of. */
const command = fc.tuple(fc.nat(DOES.length - 1), fc.nat(999_999), fc.nat(999_999));

/** The layers of purchases hold what the book holds, less what was drawn beyond it. */
async function layersAgree(shop: TestShop, itemId: ItemId): Promise<void> {
  const lines = shop.db.raw
    .prepare(
      'SELECT id, corrects_id AS correctsId, qty, value_minor AS valueMinor FROM stock_movement WHERE item_id = ? ORDER BY id',
    )
    .all(itemId) as FifoLine[];
  const { row, fifoValueMinor } = await shop.read('stock.showItem', { itemId });
  const left = fifoLeft(fifoOf(lines));
  expect(left.qty).toBe(row.onHand);
  expect(fifoValueMinor).toBe(left.valueMinor);
  const paid = lines.filter((l) => l.qty > 0 && !l.correctsId).reduce((sum, l) => sum + l.valueMinor, 0);
  expect(left.valueMinor).toBe(paid - fifoOf(lines).issuedMinor);
  expect(row.valueMinor).toBe(lines.reduce((sum, line) => sum + line.valueMinor, 0));
  expect(row.onHand === 0 ? row.valueMinor : 0).toBe(0);
}

it('keeps book, ledger, layers and round together over 200 random commands', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(command, { minLength: 200, maxLength: 200 }), async (commands) => {
      const shop = openTestShop();
      try {
        const shelf = fillShelf(shop);
        const { stageId } = bookJob(shop, '2026-11-27', {});
        let refused = 0;
        for (const [which, ...numbers] of commands) {
          let at = 0;
          const pick: Pick = (n) => (numbers[at++ % 2] ?? 0) % n;
          const code = refusal(() => DOES[which]?.(shop, shelf, pick, stageId));
          if (code !== 'none') refused += 1;
          expect(['none', 'PADS_NOT_THERE', 'MORE_THAN_THERE']).toContain(code);
        }
        expect(refused).toBeLessThan(180);
        expect(audit(shop)).toEqual([]);
        for (const itemId of [shelf.compound, shelf.clay]) await layersAgree(shop, itemId);
      } finally {
        shop.close();
      }
    }),
    { numRuns: 3, endOnFailure: true },
  );
});
