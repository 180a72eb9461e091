import { describe, expect, it } from 'vitest';
import { code128 } from '#core/documents/barcode.ts';
import { pdfText, sizeOf } from '#tests/helpers/pdfText.ts';
import { shelfShop } from './shelf.ts';

const on = shelfShop();

describe('the bars of a label', () => {
  it('are Code 128: start B, eleven modules a sign, a check sign, stop', () => {
    const row = code128('RL');
    // ISO/IEC 15417, table 1: start B 211214, R 231131, stop 2331112 (bar, space, bar …)
    const bars = row?.bars ?? [];
    // start, R, L, check: 4 signs of 11 modules, and 13 of the stop
    expect(row?.modules).toBe(4 * 11 + 13);
    // each sign has three bars, the stop four
    expect(bars).toHaveLength(4 * 3 + 4);
    expect(bars.slice(0, 3)).toEqual([
      { at: 0, width: 2 },
      { at: 3, width: 1 },
      { at: 6, width: 1 },
    ]);
    expect(bars.slice(3, 6).map((b) => b.width)).toEqual([2, 1, 3]);
    expect(bars.slice(-4).map((b) => b.width)).toEqual([2, 3, 1, 2]);
  });
  it('are not drawn for signs that the code does not have', () => {
    expect(code128('Grün')).toBeNull();
    expect(code128('')).toBeNull();
  });
});

describe('shelf labels', () => {
  it('carry name, place, pack and barcode; items without one can get the shop’s own, which then finds them', async () => {
    expect(on.shop.write('stock.giveCodes', {})).toEqual({ given: 2 });
    expect(on.shop.write('stock.giveCodes', {})).toEqual({ given: 0 });
    const clay = (await on.shop.read('stock.listItems', {})).find((i) => i.id === on.shelf.clay);
    expect(clay?.barcode).toMatch(/^RL[0-9A-Z]{10}$/);
    expect(await on.shop.read('stock.findBarcode', { barcode: clay?.barcode ?? '' })).toMatchObject({
      itemId: on.shelf.clay,
    });
    const file = await on.shop.read('stock.labels', {});
    const [page = ''] = await pdfText(file.bytes);
    expect(page).toContain('Heavy-cut compound');
    expect(page).toContain('B2 · 1,000 ml bottle');
    expect(page).toContain('4099999000017');
    expect(page).toContain(clay?.barcode);
    expect((await sizeOf(file.bytes)).map(Math.round)).toEqual([595, 842]);
    const one = await on.shop.read('stock.labels', { itemIds: [on.shelf.clay] });
    expect((await pdfText(one.bytes)).join()).not.toContain('Heavy-cut');
  });
});
