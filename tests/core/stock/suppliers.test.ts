import { describe, expect, it } from 'vitest';
import type { PurchaseOrderId } from '#core/shared/ids.ts';
import { shelfShop } from './shelf.ts';

const on = shelfShop();
const at = (day: string): void => on.shop.at(Date.parse(`${day}T09:00:00Z`));
const order = (): PurchaseOrderId => {
  const lines = [{ supplierId: on.shelf.kestle, itemId: on.shelf.clay, packs: 1 }];
  return on.shop.write('stock.makeOrders', { lines }).orders[0]?.id as PurchaseOrderId;
};
async function came(orderId: PurchaseOrderId): Promise<void> {
  const { lines } = await on.shop.read('stock.showOrder', { orderId });
  on.shop.write('stock.receive', {
    ...{ supplierId: on.shelf.kestle, orderId },
    lines: lines.map(({ id: lineId, itemId, packs, packSize, priceMinor }) => ({
      ...{ lineId, itemId, packs, packSize, priceMinor },
    })),
  });
}

describe('suppliers', () => {
  it('get one order each from what is ordered at once', () => {
    const { clay, compound, kestle } = on.shelf;
    const { supplierId } = on.shop.write('stock.addSupplier', { name: 'Corran Vale', leadDays: 1 });
    on.shop.write('stock.linkSupplier', { supplierId, itemId: clay, packSize: 200_000, priceMinor: 900 });
    const { orders } = on.shop.write('stock.makeOrders', {
      lines: [
        { supplierId: kestle, itemId: compound, packs: 1 },
        { supplierId, itemId: clay, packs: 2 },
        { supplierId: kestle, itemId: clay, packs: 3 },
      ],
    });
    expect(orders.map((o) => o.number)).toEqual([1, 2]);
    const lines = on.shop.db.raw.prepare(
      'SELECT o.number, l.packs FROM purchase_order_line l JOIN purchase_order o ON o.id = l.order_id ORDER BY 1, 2',
    );
    expect(lines.raw().all()).toEqual([
      [1, 1],
      [1, 3],
      [2, 2],
    ]);
  });
  it('are expected when they really come, learned from three orders on, shut days left out', async () => {
    const lead = async () => (await on.shop.read('stock.listSuppliers', {}))[0]?.learnedLead;
    // said to take 2 days; ordered on Mondays it came on Fridays, and once on the Monday after: 4, 4 and 5 working days
    for (const [ordered, due, arrived] of [
      ['2026-11-30', '2026-12-02', '2026-12-04'],
      ['2026-12-07', '2026-12-09', '2026-12-11'],
      ['2026-12-14', '2026-12-16', '2026-12-21'],
    ] as const) {
      expect(await lead()).toBeNull();
      at(ordered);
      const orderId = order();
      expect((await on.shop.read('stock.showOrder', { orderId })).dueDay).toBe(due);
      at(arrived);
      await came(orderId);
    }
    expect(await lead()).toMatchObject({ n: 3, meanDays: 13 / 3 });
    const revision = (await on.shop.read('stock.listSuppliers', {}))[0]?.revision ?? 0;
    const changes = { closedDays: ['2026-12-24', '2026-12-25'] as never };
    on.shop.write('stock.changeSupplier', { supplierId: on.shelf.kestle, revision, changes });
    // four working days from Monday 21 December without the 24th and 25th: Tuesday 29th
    expect(await on.shop.read('stock.showOrder', { orderId: order() })).toMatchObject({
      dueDay: '2026-12-29',
    });
  });
});
