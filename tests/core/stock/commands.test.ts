import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { DomainError } from '#core/shared/errors.ts';
import { seeded } from '#core/shared/random.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';
import { audit, bookJob, fillShelf, type Shelf } from './shelf.ts';

let shop: TestShop;
let shelf: Shelf;
beforeEach(() => {
  shop = openTestShop();
  shelf = fillShelf(shop);
});
afterEach(() => {
  expect(audit(shop)).toEqual([]);
  shop.close();
});

function refusal(run: () => unknown): string {
  try {
    run();
  } catch (error) {
    if (error instanceof DomainError) return error.code;
    throw error;
  }
  return 'none';
}
const board = () => shop.read('stock.showBoard', {});

describe('a stage that is finished', () => {
  it('draws what was planned and corrected, and its pads go dirty', async () => {
    const { stageId, jobId } = bookJob(shop, '2026-11-27', { heavyCutCompound: 120_000, cuttingPad: 4 });
    const proposed = await shop.read('stock.proposeDraws', { stageId });
    expect(proposed.map((p) => [p.material, p.proposed, p.itemName])).toEqual([
      ['heavyCutCompound', 120_000, 'Heavy-cut compound'],
      ['cuttingPad', 4, 'Cutting pads, 150 mm'],
    ]);
    const done = shop.write('stock.drawForStage', {
      stageId,
      draws: [
        { material: 'heavyCutCompound', amount: 155_000 },
        { itemId: shelf.pads, amount: 4 },
        { material: 'coating', amount: 10 },
      ],
    });
    expect(done.notKept).toEqual(['coating']);
    // 155 of 620 ml that cost 25.54: 6.385, half away from zero
    expect(done.drawn[0]).toMatchObject({ amount: 155_000, valueMinor: -639, onHandAfter: 465_000 });
    expect((await board()).pads[0]).toMatchObject({ clean: 5, dirty: 4 });
    const cost = await shop.read('stock.jobCost', { jobId });
    // 4 uses of a pad of 11.00 that lasts 20: 2.20
    expect(cost.lines.map((l) => [l.kind, l.valueMinor])).toEqual([
      ['used', 639],
      ['worn', 220],
    ]);
    expect(cost.totalMinor).toBe(859);
  });
  it('is saved beyond book stock and opens one count', async () => {
    const { stageId } = bookJob(shop, '2026-11-25', { heavyCutCompound: 700_000 });
    const draws = [{ material: 'heavyCutCompound' as const, amount: 700_000 }];
    expect(shop.write('stock.drawForStage', { stageId, draws }).drawn[0]).toMatchObject({
      onHandAfter: -80_000,
      countOpened: true,
    });
    const open = (await board()).counts;
    expect(open).toHaveLength(1);
    expect(open[0]).toMatchObject({ why: 'negative', book: -80_000 });
    const counted = shop.write('stock.count', {
      itemId: shelf.compound,
      counted: 45_000,
      asOfMovementId: open[0]?.asOfMovementId ?? 0,
    });
    expect(counted).toEqual({ difference: 125_000, onHand: 45_000, since: 0 });
    expect((await board()).counts).toEqual([]);
  });
  it('is corrected by a further line, at what it was drawn at', async () => {
    const { stageId } = bookJob(shop, '2026-11-25', {});
    shop.write('stock.drawForStage', { stageId, draws: [{ itemId: shelf.compound, amount: 100_000 }] });
    const page = await shop.read('stock.showItem', { itemId: shelf.compound });
    const movementId = page.latestMovementId;
    expect(shop.write('stock.correctDraw', { movementId, amount: 60_000 }).onHandAfter).toBe(560_000);
    expect(shop.write('stock.correctDraw', { movementId, amount: 70_000 }).onHandAfter).toBe(550_000);
    expect(refusal(() => shop.write('stock.correctDraw', { movementId: 1, amount: 1 }))).toBe('NOT_A_DRAW');
  });
  it('proposes more where stages like it used more', async () => {
    for (let i = 0; i < 5; i += 1) {
      const { stageId } = bookJob(shop, '2026-11-20', { heavyCutCompound: 10_000 });
      shop.write('stock.drawForStage', { stageId, draws: [{ itemId: shelf.compound, amount: 14_000 }] });
      shop.db.raw.prepare(`UPDATE job_stage SET state = 'done', done_ms = 1 WHERE id = ?`).run(stageId);
    }
    const { stageId } = bookJob(shop, '2026-11-27', { heavyCutCompound: 100_000 });
    const [row] = await shop.read('stock.proposeDraws', { stageId });
    // (50 + 70) / (50 + 50)
    expect(row).toMatchObject({ learnedFrom: 5, proposed: 120_000 });
  });
});

describe('a count', () => {
  it('leaves draws alone that were booked while somebody counted', async () => {
    const sheet = await shop.read('stock.showCount', { itemId: shelf.clay });
    shop.write('stock.waste', { itemId: shelf.clay, amount: 50_000, why: 'dropped' });
    const done = shop.write('stock.count', {
      itemId: shelf.clay,
      counted: 300_000,
      asOfMovementId: sheet.asOfMovementId,
    });
    expect(done).toEqual({ difference: -10_000, onHand: 250_000, since: -50_000 });
    const ahead = { itemId: shelf.clay, counted: 1, asOfMovementId: 9999 };
    expect(refusal(() => shop.write('stock.count', ahead))).toBe('COUNT_AHEAD');
  });
  it('takes missing pieces out of the round, dirty ones first', async () => {
    shop.write('stock.padsUsed', { itemId: shelf.pads, pieces: 3 });
    const sheet = await shop.read('stock.showCount', { itemId: shelf.pads });
    shop.write('stock.count', { itemId: shelf.pads, counted: 7, asOfMovementId: sheet.asOfMovementId });
    expect((await board()).pads[0]).toMatchObject({ clean: 6, dirty: 1, retired: 2 });
  });
  it('can be asked for of everything, once', () => {
    expect(shop.write('stock.askCount', { all: true }).opened).toBe(3);
    expect(shop.write('stock.askCount', { all: true }).opened).toBe(0);
  });
});

describe('pads', () => {
  it('go dirty, into the wash, out clean, and one retires', async () => {
    shop.write('stock.padsUsed', { itemId: shelf.pads, pieces: 5 });
    shop.write('stock.padsWash', { itemId: shelf.pads, pieces: 4, step: 'in' });
    shop.write('stock.padsWash', { itemId: shelf.pads, pieces: 3, step: 'out' });
    shop.write('stock.padsRetire', { itemId: shelf.pads, pieces: 1, from: 'dirty', why: 'torn' });
    const { pads, items } = await board();
    expect(pads[0]).toMatchObject({ clean: 7, washing: 1, dirty: 0, retired: 1, learnedFrom: 1 });
    // 4 imagined pieces of 20 uses and 5 real uses over 4 + 1 retirements
    expect(pads[0]?.usesPerLife).toBe(17);
    expect(items.find((i) => i.id === shelf.pads)?.onHand).toBe(8);
    shop.as('technician');
    expect(await shop.read('stock.showPads', {})).toEqual(pads);
  });
  it('are not washed, retired or taken where there are none', () => {
    const wash = () => shop.write('stock.padsWash', { itemId: shelf.pads, pieces: 1, step: 'in' });
    expect(refusal(wash)).toBe('PADS_NOT_THERE');
    expect(refusal(() => shop.write('stock.padsUsed', { itemId: shelf.clay, pieces: 1 }))).toBe(
      'NOT_REUSABLE',
    );
    const waste = () => shop.write('stock.waste', { itemId: shelf.pads, amount: 1, why: 'lost' });
    expect(refusal(waste)).toBe('RETIRE_INSTEAD');
  });
  it('that were used beyond the book come into it and open a count', async () => {
    shop.write('stock.padsUsed', { itemId: shelf.pads, pieces: 12 });
    const { pads, counts } = await board();
    expect(counts[0]?.itemName).toBe('Cutting pads, 150 mm');
    // 9 clean ones, then 3 of the dirty ones a second time
    expect(pads[0]).toMatchObject({ clean: 0, dirty: 9 });
  });
  it('warn before the day of the job that lacks clean ones, and are suggested when washing is not enough', async () => {
    bookJob(shop, '2026-11-27', { cuttingPad: 6 });
    const { jobId } = bookJob(shop, '2026-11-28', { cuttingPad: 12 });
    const { pads, suggestions } = await board();
    expect(pads[0]?.shortage).toMatchObject({
      day: '2026-11-28',
      jobId,
      needs: 12,
      has: 3,
      washHelps: false,
    });
    const line = suggestions[0]?.lines.find((l) => l.itemId === shelf.pads);
    // 9 in the round, 6 used and washed by Saturday less wear: 8.7, so 4 are missing: 2 packs of 2
    expect(line).toMatchObject({ packs: 2, sentence: { key: 'stock.say.pads' } });
  });
});

describe('looking forward and ordering', () => {
  it('says what runs out when, what to order and why; not today is remembered', async () => {
    bookJob(shop, '2026-11-27', { heavyCutCompound: 400_000 });
    bookJob(shop, '2026-11-30', { heavyCutCompound: 740_000 });
    const seen = await board();
    const row = seen.items.find((i) => i.id === shelf.compound);
    expect(row).toMatchObject({
      booked: 1_140_000,
      available: -520_000,
      runOutDay: '2026-11-30',
      needsHand: true,
    });
    const line = seen.suggestions[0]?.lines.find((l) => l.itemId === shelf.compound);
    expect(line?.sentence).toMatchObject({
      key: 'stock.say.booked',
      values: {
        order: { packs: line?.packs },
        booked: { amount: 1_140_000 },
        byDay: { day: '2026-11-30' },
        left: { amount: 620_000 },
        runOutDay: { day: '2026-11-30' },
      },
    });
    expect(line?.packs).toBeGreaterThanOrEqual(1);
    expect(line?.reason.inputs.length).toBeGreaterThan(10);
    expect(shop.write('stock.notToday', { itemId: shelf.compound }).untilDay).toBe('2026-11-26');
    expect((await board()).suggestions.flatMap((s) => s.lines)).toEqual([]);
    shop.at(Date.parse('2026-11-26T09:00:00Z'));
    expect((await board()).suggestions.flatMap((s) => s.lines)).toHaveLength(1);
  });
  it('adds the usual use that is not booked yet, learned from past draws', async () => {
    const now = Date.parse('2026-11-25T09:00:00Z');
    const { stageId } = bookJob(shop, '2026-11-02', {});
    // 28 days with 14 ml a day each, the last one yesterday
    for (let day = 28; day >= 1; day -= 1) {
      shop.at(now - day * 86_400_000);
      shop.write('stock.drawForStage', { stageId, draws: [{ itemId: shelf.compound, amount: 14_000 }] });
    }
    shop.at(now);
    const page = await shop.read('stock.showItem', { itemId: shelf.compound });
    const input = (key: string) => page.reason.inputs.find((i) => i.key === `stock.in.${key}`)?.value;
    expect(page.row.onHand).toBe(620_000 - 28 * 14_000);
    expect(input('history')).toBe(28);
    expect(input('perDay')).toEqual({ is: 'amount', amount: 14_000, unit: 'ul' });
    // nothing is booked; one long-booked past job beside the ten imagined: 10/11 of 1 − e^(−1/12) of 14 ml is to come
    const first = 228_000 - (14_000 * (1 - Math.exp(-1 / 12)) * 10) / 11;
    expect(page.row.series.mid.slice(0, 2)).toEqual([228_000, Math.round(first)]);
    expect(page.row.runOutDay).not.toBeNull();
    // a line dated before today that comes in later counts too
    shop.at(now - 86_400_000);
    shop.write('stock.drawForStage', { stageId, draws: [{ itemId: shelf.compound, amount: 28_000 }] });
    shop.at(now);
    const later = await shop.read('stock.showItem', { itemId: shelf.compound });
    expect(later.reason.inputs.find((i) => i.key === 'stock.in.perDay')?.value).toMatchObject({
      amount: 15_000,
    });
  });
  it('orders, takes a part, asks about more, gives up the rest', async () => {
    const { orders } = shop.write('stock.makeOrders', {
      lines: [
        { supplierId: shelf.kestle, itemId: shelf.compound, packs: 3 },
        { supplierId: shelf.kestle, itemId: shelf.clay, packs: 6 },
      ],
    });
    const id = orders[0]?.id;
    if (!id) throw new Error('no order');
    const order = await shop.read('stock.showOrder', { orderId: id });
    // Wednesday and two working days
    expect(order).toMatchObject({ state: 'ordered', dueDay: '2026-11-27', totalMinor: 3 * 4120 + 6 * 980 });
    const line = order.lines.find((l) => l.itemId === shelf.compound);
    const came = (packs: number, packSize = 1_000_000) => ({
      supplierId: shelf.kestle,
      orderId: id,
      lines: [{ lineId: line?.id ?? null, itemId: shelf.compound, packs, packSize, priceMinor: 4200 }],
    });
    expect(shop.write('stock.receive', came(2)).raised).toEqual(['Heavy-cut compound']);
    expect((await shop.read('stock.showOrder', { orderId: id })).state).toBe('part');
    expect((await board()).items.find((i) => i.id === shelf.compound)).toMatchObject({
      onHand: 2_620_000,
      onOrder: 1_000_000,
    });
    expect(refusal(() => shop.write('stock.receive', came(2)))).toBe('ABOVE_ORDER');
    expect(refusal(() => shop.write('stock.receive', came(1, 500_000)))).toBe('OTHER_PACK');
    shop.write('stock.receive', { ...came(2), acceptMore: true });
    const clay = order.lines.find((l) => l.itemId === shelf.clay)?.id ?? '';
    const revision = (await shop.read('stock.showOrder', { orderId: id })).revision;
    const cancel = { orderId: id, lineId: clay, revision };
    shop.write('stock.cancelOrderLine', cancel);
    expect(refusal(() => shop.write('stock.cancelOrderLine', cancel))).toBe('STALE');
    expect((await shop.read('stock.showOrder', { orderId: id })).state).toBe('closed');
    expect(refusal(() => shop.write('stock.receive', came(1)))).toBe('ORDER_NOT_OPEN');
  });
  it('prints the order, and its list says the same', async () => {
    const { orders } = shop.write('stock.makeOrders', {
      lines: [{ supplierId: shelf.kestle, itemId: shelf.clay, packs: 6 }],
    });
    const id = orders[0]?.id;
    if (!id) throw new Error('no order');
    const pdf = await shop.read('stock.orderFile', { orderId: id });
    expect(Buffer.from(pdf.bytes.slice(0, 5)).toString()).toBe('%PDF-');
    const csv = await shop.read('stock.orderFile', { orderId: id, as: 'csv' });
    expect(Buffer.from(csv.bytes).toString()).toBe(
      'order,code,item,pack,unit,packs,price,currency\r\n1,,Clay,200000,mg,6,9.80,EUR\r\n',
    );
  });
});

describe('what does not fit', () => {
  const bottle = { name: 'Another', unit: 'ul', packSize: 1000 } as const;
  it.each([
    ['BARCODE_TAKEN', { ...bottle, barcode: '4099999000017' }],
    ['ITEM_NAME_TAKEN', { ...bottle, name: 'HEAVY-CUT compound' }],
    ['REUSABLE_IN_PIECES', { ...bottle, reusable: true }],
    ['MATERIAL_UNIT', { ...bottle, material: 'clayBar' as const }],
  ])('is refused by name: %s', (code, input) => {
    expect(refusal(() => shop.write('stock.addItem', input))).toBe(code);
  });
  it('names the field of a bad input', async () => {
    const reply = await shop.call('stock.addItem', { ...bottle, unit: 'litre' });
    expect(reply).toMatchObject({ ok: false, error: { code: 'BAD_INPUT', data: { field: 'unit' } } });
  });
  it('is refused by the database itself where it would change the ledger', () => {
    const edit = (sql: string) => () => shop.db.raw.prepare(sql).run();
    expect(edit('UPDATE stock_movement SET qty = 1')).toThrow(/append-only/);
    expect(edit('DELETE FROM stock_movement')).toThrow(/append-only/);
    expect(edit('UPDATE pad_event SET pieces = 1')).toThrow(/append-only/);
  });
  it('is found in a list before anything is taken over', async () => {
    const list =
      'name,material,unit,packSize,reusable\r\nSealant,sealant,ul,500000,no\r\nTape,maskingTape,ul,1,no\r\n';
    const report = await shop.read('stock.checkItems', { csv: list });
    expect(report).toMatchObject({ added: ['Sealant', 'Tape'], faults: [{ line: 3, field: 'unit' }] });
    expect(refusal(() => shop.write('stock.importItems', { csv: list }))).toBe('IMPORT_FAULTS');
    expect(await shop.read('stock.listItems', {})).toHaveLength(3);
  });
  it('reads back the list it writes', async () => {
    const file = await shop.read('stock.exportItems', {});
    const report = await shop.read('stock.checkItems', { csv: Buffer.from(file.bytes).toString() });
    expect(report).toEqual({ rows: 3, added: [], changed: [], same: 3, faults: [] });
  });
});

it('keeps book, ledger and round together over 200 random commands', async () => {
  const random = seeded(7);
  const pick = (n: number): number => Math.floor(random() * n);
  const { stageId } = bookJob(shop, '2026-11-27', {});
  const steps = [
    () =>
      shop.write('stock.drawForStage', {
        stageId,
        draws: [{ itemId: shelf.compound, amount: 1 + pick(90_000) }],
      }),
    () => shop.write('stock.drawForStage', { stageId, draws: [{ itemId: shelf.pads, amount: 1 + pick(5) }] }),
    () => shop.write('stock.waste', { itemId: shelf.clay, amount: 1 + pick(60_000), why: 'dropped' }),
    () => shop.write('stock.padsWash', { itemId: shelf.pads, pieces: 1 + pick(3), step: 'in' }),
    () => shop.write('stock.padsWash', { itemId: shelf.pads, pieces: 1 + pick(3), step: 'out' }),
    () => shop.write('stock.padsRetire', { itemId: shelf.pads, pieces: 1, from: 'dirty', why: 'worn' }),
    () =>
      shop.write('stock.receive', {
        supplierId: shelf.kestle,
        lines: [{ itemId: shelf.compound, packs: 1, packSize: 1_000_000, priceMinor: 3900 + pick(500) }],
      }),
    () => shop.write('stock.returnItem', { itemId: shelf.compound, amount: 1 + pick(40_000) }),
    () => {
      const latest = shop.db.raw.prepare('SELECT max(id) FROM stock_movement WHERE item_id = ?').pluck();
      const itemId = pick(2) ? shelf.clay : shelf.pads;
      return shop.write('stock.count', {
        itemId,
        counted: pick(12),
        asOfMovementId: latest.get(itemId) as number,
      });
    },
  ];
  let refused = 0;
  for (let i = 0; i < 200; i += 1) {
    const code = refusal(() => steps[pick(steps.length)]?.());
    if (code !== 'none') refused += 1;
    expect(['none', 'PADS_NOT_THERE', 'MORE_THAN_THERE']).toContain(code);
  }
  expect(refused).toBeLessThan(120);
  expect(audit(shop)).toEqual([]);
  const page = await shop.read('stock.showItem', { itemId: shelf.compound });
  expect(page.row.onHand === 0 ? page.row.valueMinor : 0).toBe(0);
});
