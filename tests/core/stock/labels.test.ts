import {
  BarcodeFormat,
  BinaryBitmap,
  HybridBinarizer,
  MultiFormatReader,
  RGBLuminanceSource,
} from '@zxing/library';
import { describe, expect, it } from 'vitest';
import { code128 } from '#core/documents/barcode.ts';
import { filledRects, pdfText, sizeOf } from '#tests/helpers/pdfText.ts';
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

type Rect = Awaited<ReturnType<typeof filledRects>>[number];

/** What a reader that had no part in drawing makes of a label printed at 300 dpi: bars, and white as wide as the label. */
function scanned(bars: readonly Rect[], label: { readonly x: number; readonly width: number }): string {
  const dots = 300 / 72;
  const [width, height] = [Math.round(label.width * dots), 60];
  const light = new Uint8ClampedArray(width * height).fill(255);
  for (const bar of bars)
    for (let y = 10; y < height - 10; y += 1) {
      const from = Math.round((bar.x - label.x) * dots);
      light.fill(0, y * width + from, y * width + from + Math.round(bar.width * dots));
    }
  const image = new BinaryBitmap(new HybridBinarizer(new RGBLuminanceSource(light, width, height)));
  const read = new MultiFormatReader().decode(image, new Map());
  expect(read.getBarcodeFormat()).toBe(BarcodeFormat.CODE_128);
  return read.getText();
}

describe('the bars on the sheet', () => {
  const CODES = [
    '4099999000017',
    'RL0N4QKXT7',
    'A-1',
    'bottle 5 l/half',
    '012345678901234567890123456789',
    'x'.repeat(24),
  ];
  it('are read by a reader as their code, one label after the other, at the dots of a printer', async () => {
    for (const [i, barcode] of CODES.slice(1).entries())
      on.shop.write('stock.addItem', { name: `Item ${i}`, unit: 'ul', packSize: 1000, barcode });
    const items = await on.shop.read('stock.listItems', {});
    const { bytes } = await on.shop.read('stock.labels', {});
    const bars = (await filledRects(bytes)).filter((r) => r.height > 20);
    const [page] = await sizeOf(bytes);
    const wide = page / 3;
    const labels = Map.groupBy(bars, (r) => `${Math.round(r.y)} ${Math.floor(r.x / wide)}`);
    const found = [...labels.values()].map((of) =>
      scanned(of, { x: Math.floor((of[0]?.x ?? 0) / wide) * wide, width: wide }),
    );
    expect(found.toSorted()).toEqual(
      items
        .map((i) => i.barcode)
        .filter((code) => code !== '')
        .toSorted(),
    );
    expect(found).toHaveLength(CODES.length);
  });
  it('are left out where they would be too narrow to read, and the code stays as text', async () => {
    const { itemId } = on.shop.write('stock.addItem', {
      ...{ name: 'Long', unit: 'ul', packSize: 1000, barcode: 'Q'.repeat(40) },
    });
    const { bytes } = await on.shop.read('stock.labels', { itemIds: [itemId] });
    expect((await filledRects(bytes)).filter((r) => r.height > 20)).toEqual([]);
    expect((await pdfText(bytes)).join()).toContain('QQQQQQQQQQ');
  });
});
