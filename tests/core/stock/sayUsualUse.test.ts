import { describe, expect, it } from 'vitest';
import { PLAIN_MANNER } from '#core/shared/text/manner.ts';
import { partsOf } from '../../../renderer/features/stock/looks.ts';
import { bookJob, shelfShop } from './shelf.ts';

const on = shelfShop();

describe('the reason of an order', () => {
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
  it('says of what is short by the book that it is out, not on which day it runs out', async () => {
    const { compound } = on.shelf;
    on.shop.write('stock.waste', { itemId: compound, amount: 620_000, why: 'spilt' });
    bookJob(on.shop, '2026-11-30', { heavyCutCompound: 400_000 });
    const said = async () => {
      const { suggestions } = await on.board();
      const line = suggestions.flatMap((s) => s.lines).find((l) => l.itemId === compound);
      return (
        line &&
        partsOf(PLAIN_MANNER, line.sentence)
          .map((part) => part.text)
          .join('')
      );
    };
    expect(await said()).toMatch(/; nothing is left by the stock list\.$/);
    on.shop.write('stock.waste', { itemId: compound, amount: 100_000, why: 'spilt' });
    expect(await said()).toMatch(/; the stock list is 100 ml short already\.$/);
  });
});
