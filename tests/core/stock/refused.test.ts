import { describe, expect, it } from 'vitest';
import { sayError } from '#core/shared/text/sayError.ts';
import type { LocalDay } from '#core/shared/units.ts';
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
  it('is a supplier’s e-mail address that can’t be one', async () => {
    const add = { name: 'Corran Vale', leadDays: 1, email: 'nicht-gültig' };
    expect(refusal(() => on.shop.write('stock.addSupplier', add))).toBe('EMAIL_UNREADABLE');
    const [kestle] = await on.shop.read('stock.listSuppliers', {});
    const change = { supplierId: on.shelf.kestle, revision: kestle?.revision ?? 0 };
    const to = (email: string) => () =>
      on.shop.write('stock.changeSupplier', { ...change, changes: { email } });
    expect(refusal(to('orders@'))).toBe('EMAIL_UNREADABLE');
    expect(refusal(to(' orders@kestle.example '))).toBe('none');
    expect((await on.shop.read('stock.listSuppliers', {}))[0]?.email).toBe('orders@kestle.example');
  });
  it('is a unit that lists do not name, or an amount finer than can be kept', async () => {
    const faultsOf = async (line: string) =>
      (await on.shop.read('stock.checkItems', { csv: `name,unit,packSize\r\n${line}\r\n` })).faults;
    expect(await faultsOf('Sealant,ul,500')).toEqual([
      { line: 2, field: 'unit', problem: 'notOneOf', limit: 'ml, g, m, piece' },
    ]);
    expect(await faultsOf('Sealant,ml,0.5')).toEqual([]);
    expect(await faultsOf('Sealant,ml,"0,5"')).toEqual([]);
    expect(await faultsOf('Sealant,ml,0.0005')).toMatchObject([{ field: 'packSize' }]);
    expect(await faultsOf('Sealant,piece,1.5')).toMatchObject([{ field: 'packSize' }]);
  });
  it('names the field of a bad input', async () => {
    const reply = await on.shop.call('stock.addItem', { ...bottle, unit: 'litre' });
    expect(reply).toMatchObject({ ok: false, error: { code: 'BAD_INPUT', data: { field: 'unit' } } });
    const line = { itemId: on.shelf.compound, packs: 1, packSize: 1000, priceMinor: -1 };
    const sent = { supplierId: on.shelf.kestle, lines: [{ ...line, priceMinor: 100 }, line] };
    const wrong = await on.shop.call('stock.receive', sent);
    expect(wrong.ok ? '' : sayError('en', wrong.error)).toBe(
      'Price in line 2 does not fit: it has to be 0 or more. Nothing was saved.',
    );
  });
  it('is refused by the database itself where it would change the ledger', () => {
    const edit = (sql: string) => () => on.shop.db.raw.prepare(sql).run();
    expect(edit('UPDATE stock_movement SET qty = 1')).toThrow(/append-only/);
    expect(edit('DELETE FROM stock_movement')).toThrow(/append-only/);
    expect(edit('UPDATE pad_event SET pieces = 1')).toThrow(/append-only/);
  });
  it('is found in a list before anything is taken over', async () => {
    const list =
      'name,material,unit,packSize,reusable\r\nSealant,sealant,ml,500,no\r\nTape,maskingTape,ml,1,no\r\n';
    const report = await on.shop.read('stock.checkItems', { csv: list });
    expect(report).toMatchObject({ added: ['Sealant', 'Tape'], faults: [{ line: 3, field: 'unit' }] });
    expect(refusal(() => on.shop.write('stock.importItems', { csv: list }))).toBe('IMPORT_FAULTS');
    expect(await on.shop.read('stock.listItems', {})).toHaveLength(3);
  });
  it('is named with its line and column, whatever is wrong with it', async () => {
    const faultsOf = async (csv: string) => (await on.shop.read('stock.checkItems', { csv })).faults;
    const head = 'name,unit,packSize,barcode,reusable';
    expect(
      await faultsOf(
        `${head}\r\nSealant,ml,x,,no\r\nsponge,ml,1,,yes\r\nSponge,piece,1,77,no\r\nMitt,piece,1,77,no\r\nclay,ml,1,,no\r\n`,
      ),
    ).toEqual([
      { line: 2, field: 'packSize', problem: 'notNumber' },
      { line: 3, field: 'unit', problem: 'roundInPieces' },
      { line: 4, field: 'name', problem: 'sameNameAbove', limit: 3 },
      { line: 5, field: 'barcode', problem: 'barcodeOf', limit: 'Sponge' },
      { line: 6, field: 'unit', problem: 'unitFixed' },
    ]);
    expect(await faultsOf('name,unit,packsize\r\nSealant,ml,1\r\n')).toEqual([
      { line: 1, field: 'packsize', problem: 'unknownField' },
    ]);
  });
  it.each(['\n', '\r\n'])(
    'is named by the first line of its row, also below cells of several lines',
    async (end) => {
      const faultsOf = async (lines: readonly string[]) =>
        (await on.shop.read('stock.checkItems', { csv: lines.join(end) })).faults;
      const lines = [
        'name,unit,packSize',
        '',
        '"Sealant',
        'for wheels",ml,x',
        '',
        '"Mitt',
        '',
        '"',
        'Towel,piece,x',
      ];
      expect(await faultsOf(lines)).toMatchObject([
        { line: 3, field: 'packSize', problem: 'notNumber' },
        { line: 6, field: 'unit' },
        { line: 9, field: 'packSize', problem: 'notNumber' },
      ]);
      // A quote that is never closed swallows the rest: what is to be mended is where it was opened.
      expect(
        await faultsOf(['name,unit,packSize', 'Sealant,ml,1', '', '"Mitt,piece,1', 'Towel,piece,1']),
      ).toEqual([{ line: 4, field: 'csv', problem: 'noList' }]);
      expect(await faultsOf(['name,unit', '"Sealant', '",ml,x', 'Towel,piece'])).toEqual([
        { line: 2, field: 'csv', problem: 'moreCells' },
      ]);
    },
  );
  it('is a barcode of an item no longer kept, told by the check as well', async () => {
    const changes = { endedDay: '2026-11-25' as LocalDay };
    on.shop.write('stock.changeItem', { itemId: on.shelf.compound, revision: 1, changes });
    for (const name of ['New compound', 'Heavy-cut compound']) {
      const csv = `name,unit,packSize,barcode\r\n${name},ml,500,4099999000017\r\n`;
      expect((await on.shop.read('stock.checkItems', { csv })).faults).toEqual([
        { line: 2, field: 'barcode', problem: 'barcodeOfEnded', limit: 'Heavy-cut compound' },
      ]);
      expect(refusal(() => on.shop.write('stock.importItems', { csv }))).toBe('IMPORT_FAULTS');
    }
  });
  it('is only what the columns of a list say: the others stay as they are written down', async () => {
    const find = async (name: string) =>
      (await on.shop.read('stock.listItems', {})).find((i) => i.name === name);
    const [bottle, pads] = [await find('Heavy-cut compound'), await find('Cutting pads, 150 mm')];
    const csv =
      'name,unit,packSize,place\r\nHeavy-cut compound,ml,1000,\r\n"Cutting pads, 150 mm",piece,2,C1\r\nClay,g,200,\r\n';
    expect(await on.shop.read('stock.checkItems', { csv })).toMatchObject({ added: [], same: 1, faults: [] });
    expect(on.shop.write('stock.importItems', { csv }).changed).toHaveLength(2);
    expect(await find('Heavy-cut compound')).toEqual({ ...bottle, place: '', revision: 2 });
    expect(await find('Cutting pads, 150 mm')).toEqual({ ...pads, place: 'C1', revision: 2 });
  });
  it('reads back the list it writes', async () => {
    const file = await on.shop.read('stock.exportItems', {});
    const report = await on.shop.read('stock.checkItems', { csv: Buffer.from(file.bytes).toString() });
    expect(report).toEqual({ rows: 3, added: [], changed: [], same: 3, faults: [] });
  });
});
