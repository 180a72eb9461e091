import { expect, it } from 'vitest';
import { bookJob, refusal, shelfShop } from './shelf.ts';

const on = shelfShop();

/** Two uses of coating without an item, 40 ml and 15 ml; their ids, the newest first. */
async function used() {
  const first = bookJob(on.shop, '2026-11-27', { coating: 30_000 });
  const second = bookJob(on.shop, '2026-11-30', { coating: 15_000 });
  on.shop.write('stock.drawForStage', {
    stageId: first.stageId,
    draws: [{ material: 'coating', amount: 40_000 }],
  });
  on.shop.at(Date.parse('2026-11-25T09:10:00Z'));
  on.shop.write('stock.drawForStage', {
    stageId: second.stageId,
    draws: [{ material: 'coating', amount: 15_000 }],
  });
  const open = await on.shop.read('stock.usesWithoutItem', { material: 'coating' });
  return { first, second, ids: open.map((u) => u.id), open };
}

function coating() {
  const opening = { amount: 100_000, valueMinor: 20_000 };
  const item = { name: 'Coating', material: 'coating', unit: 'ul', packSize: 50_000, opening } as const;
  return on.shop.write('stock.addItem', item).itemId;
}

it('what was used before an item was kept is taken from it later, with its job, stage and worth', async () => {
  const { first, ids, open } = await used();
  expect(open.map((u) => u.amount)).toEqual([15_000, 40_000]);
  const itemId = coating();
  expect(on.shop.write('stock.giveUses', { useIds: ids, itemId })).toEqual({ given: 2 });
  expect(await on.shop.read('stock.usesWithoutItem', { material: 'coating' })).toEqual([]);
  expect((await on.board()).missing).toEqual([]);
  const { movements, row } = await on.shop.read('stock.showItem', { itemId, horizonDays: 42 });
  expect(row.onHand).toBe(45_000);
  expect(movements.filter((m) => m.reason === 'draw').map((m) => [m.amount, m.valueMinor])).toEqual(
    // 200.00 for 100 ml: 2.00 a ml
    expect.arrayContaining([
      [-40_000, -8000],
      [-15_000, -3000],
    ]),
  );
  expect((await on.shop.read('stock.jobCost', { jobId: first.jobId })).totalMinor).toBe(8000);
  const [stage] = (await on.shop.read('bookings.job', { jobId: first.jobId })).stages;
  expect(stage?.materials).toMatchObject([{ material: 'coating', used: 40_000, noItem: 0 }]);
});

it('what was written down wrongly is removed with a reason, once, and the row itself stays', async () => {
  const { second, ids } = await used();
  const [last = 0] = ids;
  expect(on.shop.write('stock.removeUses', { useIds: [last], why: 'typed in the wrong job' })).toEqual({
    removed: 1,
  });
  const [stage] = (await on.shop.read('bookings.job', { jobId: second.jobId })).stages;
  expect(stage?.materials).toMatchObject([{ material: 'coating', planned: 15_000, used: null }]);
  expect((await on.board()).missing[0]).toMatchObject({ material: 'coating', used: 40_000, kept: false });
  expect(refusal(() => on.shop.write('stock.removeUses', { useIds: [last], why: 'again' }))).toBe(
    'USE_SETTLED',
  );
  expect(refusal(() => on.shop.write('stock.giveUses', { useIds: [last], itemId: coating() }))).toBe(
    'USE_SETTLED',
  );
  for (const change of ["UPDATE draw_settled SET why = 'x'", 'DELETE FROM draw_settled'])
    expect(() => on.shop.db.raw.exec(change)).toThrow('append-only');
});

it('is not taken from an item of another material, and nothing of the list is taken then', async () => {
  const { ids } = await used();
  const wrong = { useIds: ids, itemId: on.shelf.compound };
  expect(refusal(() => on.shop.write('stock.giveUses', wrong))).toBe('USE_OTHER_MATERIAL');
  expect(await on.shop.read('stock.usesWithoutItem', { material: 'coating' })).toHaveLength(2);
});
