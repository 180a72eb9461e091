import { describe, expect, it } from 'vitest';
import { bookJob, shelfShop } from './shelf.ts';

const on = shelfShop();

describe('when an item has to be ordered', () => {
  it('names the day to order by, waits until it and asks on it', async () => {
    const { compound } = on.shelf;
    bookJob(on.shop, '2026-12-10', { heavyCutCompound: 900_000 });
    const now = on.shop.now();
    const seen = async (day: string) => {
      on.shop.at(now + (Date.parse(day) - Date.parse('2026-11-25')));
      const board = await on.board();
      const asked = board.suggestions.flatMap((s) => s.lines).some((l) => l.itemId === compound);
      return [asked, board.items.find((i) => i.id === compound)?.orderByDay];
    };
    // two working days: ordered on Mon 7 it is there on Wed 9, on Tue 8 only on the day of the job
    expect(await seen('2026-11-25')).toEqual([false, '2026-12-07']);
    expect(await seen('2026-12-04')).toEqual([false, '2026-12-07']);
    expect(await seen('2026-12-07')).toEqual([true, '2026-12-07']);
    expect(await seen('2026-12-08')).toEqual([true, '2026-12-08']);
  });
  it('names no day that is too late for booked jobs, also where the aim lets some of the usual use run short', async () => {
    const { compound } = on.shelf;
    on.shop.db.raw.exec('UPDATE supplier_item SET pack_size = 4000000');
    const draw = on.shop.db.raw.prepare(
      `INSERT INTO stock_movement (item_id, qty, value_minor, reason, at_ms, note) VALUES (?, ?, 0, ?, ?, '')`,
    );
    draw.run(compound, 1_200_000, 'found', on.shop.now() - 61 * 86_400_000);
    for (let day = 1; day <= 60; day += 1)
      draw.run(compound, -20_000, 'draw', on.shop.now() - day * 86_400_000);
    on.shop.db.raw
      .prepare(`UPDATE shop SET settings = json_set(settings, '$.stock.serviceLevelPpm', 980000)`)
      .run();
    for (let day = 3; day < 31; day += 1)
      bookJob(on.shop, `2026-12-${String(day).padStart(2, '0')}`, { heavyCutCompound: 12_000 });
    const { asOfMovementId } = await on.shop.read('stock.showCount', { itemId: compound });
    on.shop.write('stock.count', { itemId: compound, counted: 200_000, asOfMovementId });
    on.shop.at(on.shop.now() + 12 * 86_400_000);
    const row = (await on.board()).items.find((i) => i.id === compound);
    // ordered on Mon 14 it comes on Wed 16 itself, when work has begun and may find the shelf empty
    expect([row?.runOutDay, row?.orderByDay]).toEqual(['2026-12-16', '2026-12-11']);
  });
  it('expects all of the usual use of what no booking asks for: it can’t be counted twice', async () => {
    const { itemId } = on.shop.write('stock.addItem', { name: 'Bin bags', unit: 'piece', packSize: 25 });
    const put = on.shop.db.raw.prepare(
      `INSERT INTO stock_movement (item_id, qty, value_minor, reason, at_ms, note) VALUES (?, ?, 0, ?, ?, '')`,
    );
    put.run(itemId, 100, 'found', on.shop.now() - 28 * 86_400_000);
    for (let day = 1; day <= 28; day += 1) put.run(itemId, -2, 'draw', on.shop.now() - day * 86_400_000);
    const { row } = await on.shop.read('stock.showItem', { itemId });
    // 44 left and 2 a day, today's among them
    expect(row.series.mid.slice(0, 3)).toEqual([42, 40, 38]);
    expect(row.runOutDay).toBe('2026-12-16');
  });
  it('counts the jobs of a material once, also where a second item of it is used now and then', async () => {
    const { itemId } = on.shop.write('stock.addItem', {
      name: 'Another heavy-cut compound',
      material: 'heavyCutCompound',
      unit: 'ul',
      packSize: 1_000_000,
      preference: 2,
    });
    const put = on.shop.db.raw.prepare(
      `INSERT INTO stock_movement (item_id, qty, value_minor, reason, at_ms, note) VALUES (?, ?, 0, ?, ?, '')`,
    );
    put.run(itemId, 1_000_000, 'found', on.shop.now() - 28 * 86_400_000);
    for (let day = 1; day <= 28; day += 1) put.run(itemId, -10_000, 'draw', on.shop.now() - day * 86_400_000);
    const { row } = await on.shop.read('stock.showItem', { itemId });
    // everything of today is booked, and lies on the item that serves it first; far ahead next to nothing is
    const uses = row.series.mid.map((left, day) => (row.series.mid[day - 1] ?? 720_000) - left);
    expect(uses[0]).toBe(0);
    expect(uses[1]).toBeGreaterThan(0);
    expect(uses[1]).toBeLessThan(2000);
    expect(uses[40]).toBeGreaterThan(9000);
    expect(uses[40]).toBeLessThan(10_000);
  });
});
