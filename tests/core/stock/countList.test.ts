import { describe, expect, it } from 'vitest';
import { bookJob, refusal, shelfShop } from './shelf.ts';

const on = shelfShop();
const DAY = 86_400_000;
const NOON = Date.parse('2026-11-25T11:00:00Z');
const plan = () => on.shop.read('stock.countPlan', {});

async function listNow(): Promise<string> {
  const reply = await on.shop.call('stock.countList', { as: 'csv' });
  if (!reply.ok) throw new Error(reply.error.code);
  return new TextDecoder().decode((reply.value as { bytes: Uint8Array }).bytes);
}
/** The list with a figure written after each item named. */
function filled(csv: string, counted: Readonly<Record<string, string>>): string {
  const lines = csv.trimEnd().split('\r\n');
  return lines.map((l) => `${l}${counted[l.split(',')[0] ?? ''] ?? ''}`).join('\r\n');
}

describe('the day’s count list', () => {
  it('is empty while everything is young, and has each item in its turn by what its use is worth', async () => {
    expect(await plan()).toMatchObject({ rows: [], later: 0 });
    const { stageId } = bookJob(on.shop, '2026-11-25', {});
    on.shop.write('stock.drawForStage', { stageId, draws: [{ itemId: on.shelf.compound, amount: 200_000 }] });
    on.shop.at(NOON + 30 * DAY);
    expect((await plan()).rows).toMatchObject([
      { itemName: 'Heavy-cut compound', of: 'A', why: 'cycle', lastCountMs: null },
    ]);
    on.shop.at(NOON + 180 * DAY);
    expect((await plan()).rows.map((r) => [r.itemName, r.of])).toEqual([
      ['Clay', 'C'],
      ['Cutting pads, 150 mm', 'C'],
      ['Heavy-cut compound', 'A'],
    ]);
  });
  it('doubts an item whose draws were corrected twice, and has what somebody asked for', async () => {
    const { stageId } = bookJob(on.shop, '2026-11-25', {});
    for (const amount of [40_000, 60_000])
      on.shop.write('stock.drawForStage', { stageId, draws: [{ itemId: on.shelf.clay, amount }] });
    const drawn = on.shop.db.raw
      .prepare(`SELECT id FROM stock_movement WHERE reason = 'draw'`)
      .pluck()
      .all() as number[];
    for (const movementId of drawn) on.shop.write('stock.correctDraw', { movementId, amount: 50_000 });
    on.shop.write('stock.askCount', { itemIds: [on.shelf.pads] });
    on.shop.at(NOON + DAY);
    expect((await plan()).rows).toMatchObject([
      { itemName: 'Clay', why: 'corrected' },
      { itemName: 'Cutting pads, 150 mm', why: 'asked' },
    ]);
  });
  it('prints as a page', async () => {
    on.shop.write('stock.askCount', { all: true });
    const reply = await on.shop.call('stock.countList', {});
    expect(reply).toMatchObject({ ok: true, value: { mime: 'application/pdf' } });
  });
  it('is read back whole: checked first, draws since left alone, lines without a figure left out', async () => {
    on.shop.write('stock.askCount', { all: true });
    const csv = filled(await listNow(), { Clay: '300', 'Heavy-cut compound': '620' });
    on.shop.write('stock.waste', { itemId: on.shelf.clay, amount: 50_000, why: 'dropped' });
    const report = await on.shop.read('stock.checkCounts', { csv });
    expect(report).toEqual({
      rows: 3,
      empty: 1,
      counted: [
        { itemName: 'Clay', unit: 'mg', counted: 300_000, difference: -10_000 },
        { itemName: 'Heavy-cut compound', unit: 'ul', counted: 620_000, difference: 0 },
      ],
      faults: [],
    });
    expect(on.shop.write('stock.importCounts', { csv })).toEqual(report);
    expect((await on.board()).counts.map((c) => c.itemName)).toEqual(['Cutting pads, 150 mm']);
    const clay = await on.shop.read('stock.showCount', { itemId: on.shelf.clay });
    expect(clay.book).toBe(250_000);
    const again = await on.shop.read('stock.checkCounts', { csv });
    expect(again.faults).toMatchObject([{ line: 2, problem: 'countedSince' }]);
    // the list made after a count that agreed stands beside the same line, and is no old one
    expect((await listNow()).includes('Clay')).toBe(false);
    const fresh = filled(csv.split('\r\n').slice(0, 1).concat('Heavy-cut compound,,,ml,1,').join('\r\n'), {
      'Heavy-cut compound': '600',
    });
    expect((await on.shop.read('stock.checkCounts', { csv: fresh })).faults).toEqual([]);
  });
  it('names each line that does not fit, and takes nothing then', async () => {
    const head = 'item,barcode,place,unit,asOf,counted';
    const lines = [
      'Clay,,,g,2,300',
      'Wax,,,g,2,300',
      'Clay,,,g,2,310',
      'Heavy-cut compound,,,litre,1,1',
      '"Cutting pads, 150 mm",,,g,3,1',
    ];
    const csv = [head, ...lines].join('\r\n');
    const { faults } = await on.shop.read('stock.checkCounts', { csv });
    expect(faults).toMatchObject([
      { line: 3, field: 'item', problem: 'noSuchItem' },
      { line: 4, field: 'item', problem: 'sameNameAbove', limit: 2 },
      { line: 5, field: 'unit', problem: 'notOneOf' },
      { line: 6, field: 'unit', problem: 'otherUnit', limit: 'piece' },
    ]);
    expect(refusal(() => on.shop.write('stock.importCounts', { csv }))).toBe('IMPORT_FAULTS');
    const more = [head, 'Clay,,,g,99,1', 'Heavy-cut compound,,,ml,1,-4'].join('\r\n');
    expect((await on.shop.read('stock.checkCounts', { csv: more })).faults).toMatchObject([
      { line: 2, field: 'asOf', problem: 'lineAhead' },
      { line: 3, field: 'counted', problem: 'notAmount' },
    ]);
    expect((await on.shop.read('stock.checkCounts', { csv: 'a,b\r\n"' })).faults).toMatchObject([
      { problem: 'noList' },
    ]);
  });
  it('reads what a spreadsheet with decimal commas saved, and names the line where a comma splits a figure', async () => {
    const saved = [
      'item;barcode;place;unit;asOf;counted',
      '',
      'Clay;;;g;2;299,5',
      'Heavy-cut compound;;;ml;1',
      'Cutting pads, 150 mm;;;piece;3;4',
    ];
    const report = await on.shop.read('stock.checkCounts', { csv: `\ufeff${saved.join('\r\n')}` });
    expect(report).toMatchObject({ rows: 3, empty: 1, faults: [] });
    expect(report.counted.map((c) => [c.itemName, c.counted])).toEqual([
      ['Clay', 299_500],
      ['Cutting pads, 150 mm', 4],
    ]);
    const wrong = [...saved.slice(0, 3), 'Wax;;;g;2;3'].join('\r\n');
    expect((await on.shop.read('stock.checkCounts', { csv: wrong })).faults).toMatchObject([
      { line: 4, field: 'item', problem: 'noSuchItem' },
    ]);
    const split = ['item,barcode,place,unit,asOf,counted', 'Clay,,,g,2,299,5'].join('\r\n');
    expect((await on.shop.read('stock.checkCounts', { csv: split })).faults).toEqual([
      { line: 2, field: 'csv', problem: 'moreCells' },
    ]);
  });
  it('takes a point for a mark of thousands where another figure has a decimal comma, else says how to write it', async () => {
    const head = 'item;barcode;place;unit;asOf;counted';
    const pad = '"Cutting pads, 150 mm";;;piece;3;1.200';
    const known = [head, 'Clay;;;g;2;31.200', 'Heavy-cut compound;;;ml;1;25600,5', pad].join('\r\n');
    const report = await on.shop.read('stock.checkCounts', { csv: known });
    expect(report.faults).toEqual([]);
    expect(report.counted.map((c) => c.counted)).toEqual([31_200_000, 25_600_500, 1200]);
    const unsure = [head, 'Clay;;;g;2;31.200', 'Heavy-cut compound;;;ml;1;620'].join('\r\n');
    expect((await on.shop.read('stock.checkCounts', { csv: unsure })).faults).toEqual([
      { line: 2, field: 'counted', problem: 'twoWays', limit: '31200 / 31.2' },
    ]);
    expect(refusal(() => on.shop.write('stock.importCounts', { csv: unsure }))).toBe('IMPORT_FAULTS');
  });
});
