import { expect, it } from 'vitest';
import { seeded } from '#core/shared/random.ts';
import { fifoLeft, fifoOf } from '#core/stock/rules/cost.ts';
import { audit, bookJob, refusal, shelfShop } from './shelf.ts';

const on = shelfShop();

it('keeps book, ledger and round together over 200 random commands', async () => {
  const random = seeded(7);
  const pick = (n: number): number => Math.floor(random() * n);
  const { stageId } = bookJob(on.shop, '2026-11-27', {});
  const steps: (() => unknown)[] = [
    () =>
      on.shop.write('stock.drawForStage', {
        stageId,
        draws: [{ itemId: on.shelf.compound, amount: 1 + pick(90_000) }],
      }),
    () =>
      on.shop.write('stock.drawForStage', {
        stageId,
        draws: [{ itemId: on.shelf.pads, amount: 1 + pick(5) }],
      }),
    () => on.shop.write('stock.waste', { itemId: on.shelf.clay, amount: 1 + pick(60_000), why: 'dropped' }),
    () => on.shop.write('stock.padsWash', { itemId: on.shelf.pads, pieces: 1 + pick(3), step: 'in' }),
    () => on.shop.write('stock.padsWash', { itemId: on.shelf.pads, pieces: 1 + pick(3), step: 'out' }),
    () => on.shop.write('stock.padsRetire', { itemId: on.shelf.pads, pieces: 1, from: 'dirty', why: 'worn' }),
    () =>
      on.shop.write('stock.receive', {
        supplierId: on.shelf.kestle,
        lines: [{ itemId: on.shelf.compound, packs: 1, packSize: 1_000_000, priceMinor: 3900 + pick(500) }],
      }),
    () => on.shop.write('stock.returnItem', { itemId: on.shelf.compound, amount: 1 + pick(40_000) }),
    () => {
      const latest = on.shop.db.raw.prepare('SELECT max(id) FROM stock_movement WHERE item_id = ?').pluck();
      const itemId = pick(2) ? on.shelf.clay : on.shelf.pads;
      return on.shop.write('stock.count', {
        itemId,
        counted: pick(12),
        asOfMovementId: latest.get(itemId) as number,
      });
    },
  ];
  const inUse = (): string | undefined =>
    on.shop.db.raw
      .prepare('SELECT id FROM stock_container WHERE closed_ms IS NULL ORDER BY id')
      .pluck()
      .get() as string | undefined;
  const withOne = (run: (containerId: string) => unknown): unknown => {
    const containerId = inUse();
    return containerId === undefined ? null : run(containerId);
  };
  steps.push(
    () => on.shop.write('stock.openContainer', { itemId: pick(2) ? on.shelf.compound : on.shelf.clay }),
    () =>
      withOne((containerId) =>
        on.shop.write('stock.readContainer', { containerId, read: { level: pick(9), of: 8 } }),
      ),
    () =>
      withOne((containerId) =>
        on.shop.write('stock.closeContainer', { containerId, as: pick(2) ? 'empty' : 'thrown', why: 'old' }),
      ),
  );
  let refused = 0;
  for (let i = 0; i < 200; i += 1) {
    const code = refusal(() => steps[pick(steps.length)]?.());
    if (code !== 'none') refused += 1;
    expect(['none', 'PADS_NOT_THERE', 'MORE_THAN_THERE']).toContain(code);
  }
  expect(refused).toBeLessThan(120);
  expect(audit(on.shop)).toEqual([]);
  // The layers of purchases hold what the book holds, less what was drawn beyond it.
  for (const itemId of [on.shelf.compound, on.shelf.clay]) {
    const lines = on.shop.db.raw
      .prepare('SELECT qty, value_minor AS valueMinor FROM stock_movement WHERE item_id = ? ORDER BY id')
      .all(itemId) as { qty: number; valueMinor: number }[];
    const { onHand } = (await on.shop.read('stock.showItem', { itemId })).row;
    expect(fifoLeft(fifoOf(lines)).qty).toBe(onHand);
  }
  const page = await on.shop.read('stock.showItem', { itemId: on.shelf.compound });
  expect(page.row.onHand === 0 ? page.row.valueMinor : 0).toBe(0);
});
