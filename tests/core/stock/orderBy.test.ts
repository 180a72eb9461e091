import { describe, expect, it } from 'vitest';
import { PLAIN_MANNER } from '#core/shared/text/manner.ts';
import { partsOf } from '../../../renderer/features/stock/looks.ts';
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
  it('names no day that is too late for booked jobs, also where the aim lets some of them run short', async () => {
    const { compound } = on.shelf;
    on.shop.db.raw
      .prepare(`UPDATE shop SET settings = json_set(settings, '$.stock.serviceLevelPpm', 970000)`)
      .run();
    for (let day = 3; day < 31; day += 1)
      bookJob(on.shop, `2026-12-${String(day).padStart(2, '0')}`, { heavyCutCompound: 12_000 });
    const { asOfMovementId } = await on.shop.read('stock.showCount', { itemId: compound });
    on.shop.write('stock.count', { itemId: compound, counted: 200_000, asOfMovementId });
    on.shop.at(on.shop.now() + 12 * 86_400_000);
    const row = (await on.board()).items.find((i) => i.id === compound);
    // what is ordered on the 17th comes on the 21st, when jobs of two days have found the shelf empty
    expect([row?.runOutDay, row?.orderByDay]).toEqual(['2026-12-19', '2026-12-16']);
  });
  it('says of steady use with a lot of months when the shelf runs out, and how much may be short before it comes', async () => {
    const { compound } = on.shelf;
    const draw = on.shop.db.raw.prepare(
      `INSERT INTO stock_movement (item_id, qty, value_minor, reason, at_ms, note) VALUES (?, ?, 0, ?, ?, '')`,
    );
    on.shop.db.raw
      .prepare(`UPDATE shop SET settings = json_set(settings, '$.stock.serviceLevelPpm', 999000)`)
      .run();
    // 10 ml on each of 90 days, and so much found that 1 ml is left
    for (let day = 1; day <= 90; day += 1)
      draw.run(compound, -10_000, 'draw', on.shop.now() - day * 86_400_000);
    draw.run(compound, 281_000, 'found', on.shop.now() - 91 * 86_400_000);
    const line = (await on.board()).suggestions.flatMap((s) => s.lines).find((l) => l.itemId === compound);
    expect(line?.sentence.key).toBe('stock.say.usualOut');
    expect(
      partsOf(PLAIN_MANNER, line?.sentence ?? { key: '', values: {} })
        .map((part) => part.text)
        .join(''),
    ).toMatch(/The shelf has 1 ml; the usual 69 ml a week uses that up by .*Nov/);
    const inputs = line?.reason.inputs ?? [];
    // little strays beside a lot of some 3 l, of which a thousandth may be short
    expect(inputs.find((i) => i.key === 'stock.in.mayLack')?.value).toMatchObject({ is: 'amount' });
    expect(inputs.some((i) => i.key === 'stock.in.safety')).toBe(false);
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
});
