import { describe, expect, it } from 'vitest';
import { refusal, shelfShop } from './shelf.ts';

const on = shelfShop();

describe('what does not fit', () => {
  const bottle = { name: 'Another', unit: 'ul', packSize: 1000 } as const;
  it.each([
    ['BARCODE_TAKEN', { ...bottle, barcode: '4099999000017' }],
    ['ITEM_NAME_TAKEN', { ...bottle, name: 'HEAVY-CUT compound' }],
    ['REUSABLE_IN_PIECES', { ...bottle, reusable: true }],
    ['MATERIAL_UNIT', { ...bottle, material: 'clayBar' as const }],
  ])('is refused by name: %s', (code, input) => {
    expect(refusal(() => on.shop.write('stock.addItem', input))).toBe(code);
  });
  it('names the field of a bad input', async () => {
    const reply = await on.shop.call('stock.addItem', { ...bottle, unit: 'litre' });
    expect(reply).toMatchObject({ ok: false, error: { code: 'BAD_INPUT', data: { field: 'unit' } } });
  });
  it('is refused by the database itself where it would change the ledger', () => {
    const edit = (sql: string) => () => on.shop.db.raw.prepare(sql).run();
    expect(edit('UPDATE stock_movement SET qty = 1')).toThrow(/append-only/);
    expect(edit('DELETE FROM stock_movement')).toThrow(/append-only/);
    expect(edit('UPDATE pad_event SET pieces = 1')).toThrow(/append-only/);
  });
  it('is found in a list before anything is taken over', async () => {
    const list =
      'name,material,unit,packSize,reusable\r\nSealant,sealant,ul,500000,no\r\nTape,maskingTape,ul,1,no\r\n';
    const report = await on.shop.read('stock.checkItems', { csv: list });
    expect(report).toMatchObject({ added: ['Sealant', 'Tape'], faults: [{ line: 3, field: 'unit' }] });
    expect(refusal(() => on.shop.write('stock.importItems', { csv: list }))).toBe('IMPORT_FAULTS');
    expect(await on.shop.read('stock.listItems', {})).toHaveLength(3);
  });
  it('reads back the list it writes', async () => {
    const file = await on.shop.read('stock.exportItems', {});
    const report = await on.shop.read('stock.checkItems', { csv: Buffer.from(file.bytes).toString() });
    expect(report).toEqual({ rows: 3, added: [], changed: [], same: 3, faults: [] });
  });
});
