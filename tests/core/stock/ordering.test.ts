import { describe, expect, it } from 'vitest';
import type { ItemId, PurchaseOrderId } from '#core/shared/ids.ts';
import { sayError } from '#core/shared/text/sayError.ts';
import type { LocalDay } from '#core/shared/units.ts';
import { bookJob, refusal, shelfShop } from './shelf.ts';

const on = shelfShop();

describe('looking forward and ordering', () => {
  it('says what runs out when, what to order and why; not today is remembered', async () => {
    bookJob(on.shop, '2026-11-27', { heavyCutCompound: 400_000 });
    bookJob(on.shop, '2026-11-30', { heavyCutCompound: 740_000 });
    const seen = await on.board();
    const row = seen.items.find((i) => i.id === on.shelf.compound);
    expect(row).toMatchObject({
      booked: 1_140_000,
      available: -520_000,
      runOutDay: '2026-11-30',
      needsHand: true,
    });
    const line = seen.suggestions[0]?.lines.find((l) => l.itemId === on.shelf.compound);
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
    expect(on.shop.write('stock.notToday', { itemId: on.shelf.compound }).untilDay).toBe('2026-11-26');
    const put = await on.board();
    expect(put.suggestions.flatMap((s) => s.lines)).toEqual([]);
    const said = { itemId: on.shelf.compound, untilDay: '2026-11-26' };
    expect(put.putOff).toMatchObject([
      { ...said, itemName: 'Heavy-cut compound', person: expect.any(String) },
    ]);
    on.shop.write('stock.askAgain', { itemId: on.shelf.compound });
    const again = await on.board();
    expect([again.suggestions[0]?.lines.length, again.putOff]).toEqual([1, []]);
    on.shop.write('stock.notToday', { itemId: on.shelf.compound });
    on.shop.at(Date.parse('2026-11-26T09:00:00Z'));
    expect((await on.board()).suggestions.flatMap((s) => s.lines)).toHaveLength(1);
  });
  it('counts what waits, and finds an item by words of its name or by its barcode', async () => {
    expect(await on.shop.read('stock.needs', {})).toEqual({
      toOrder: 0,
      toChase: 0,
      toCount: 0,
      toWash: 0,
      toThrow: 0,
      late: 0,
    });
    on.shop.write('stock.padsUsed', { itemId: on.shelf.pads, pieces: 6 });
    bookJob(on.shop, '2026-11-27', { heavyCutCompound: 1_400_000, cuttingPad: 5 });
    on.shop.write('stock.askCount', { itemIds: [on.shelf.clay] });
    expect(await on.shop.read('stock.needs', {})).toEqual({
      toOrder: 1,
      toChase: 0,
      toCount: 1,
      toWash: 1,
      toThrow: 0,
      late: 0,
    });
    on.shop.as('technician');
    const found = async (text: string) =>
      (await on.shop.read('stock.findItems', { text })).map((i) => i.name);
    expect(await found('PAD cut')).toEqual(['Cutting pads, 150 mm']);
    expect(await found('4099999000017')).toEqual(['Heavy-cut compound']);
    expect(await found('ompound')).toEqual([]);
  });
  it('counts and lights what runs out while nobody is written down who sells it', async () => {
    const wipe = { name: 'Panel wipe', material: 'panelWipe', unit: 'ul', packSize: 1_000_000 } as const;
    const opening = { amount: 50_000, valueMinor: 100 };
    const { itemId } = on.shop.write('stock.addItem', { ...wipe, opening });
    const lit = async () => (await on.board()).items.find((i) => i.id === itemId)?.needsHand;
    expect([await lit(), (await on.shop.read('stock.needs', {})).toOrder]).toEqual([false, 0]);
    bookJob(on.shop, '2026-12-17', { panelWipe: 400_000 });
    expect([await lit(), (await on.shop.read('stock.needs', {})).toOrder]).toEqual([true, 1]);
    expect((await on.shop.read('stock.showItem', { itemId })).row.needsHand).toBe(true);
  });
  it('asks for an order on a Saturday too, when whoever sells it is shut: it is taken up on Monday', async () => {
    on.shop.at(Date.parse('2026-11-28T09:00:00Z'));
    bookJob(on.shop, '2026-11-30', { heavyCutCompound: 1_000_000 });
    const lines = (await on.board()).suggestions.flatMap((s) => s.lines);
    expect(lines.map((l) => l.itemId)).toEqual([on.shelf.compound]);
  });
  it('never proposes again what is on its way: what runs out before it comes is to be chased', async () => {
    // 1,000 ml for today's car with 620 on the shelf; Kestle & Rowe are here on Friday at the soonest
    bookJob(on.shop, '2026-11-25', { heavyCutCompound: 1_000_000 });
    const line = (await on.board()).suggestions[0]?.lines[0];
    expect(line?.itemId).toBe(on.shelf.compound);
    if (!line) throw new Error('nothing to order');
    const { supplierId, itemId, packs } = line;
    on.shop.write('stock.makeOrders', { lines: [{ supplierId, itemId, packs }] });
    const ordered = await on.board();
    expect(ordered.suggestions).toEqual([]);
    expect(ordered.chases).toMatchObject([
      {
        itemId,
        orderNumber: 1,
        sentence: {
          key: 'stock.say.chase',
          values: {
            coming: { amount: packs * 1_000_000 },
            due: { day: '2026-11-27' },
            runOutDay: { day: '2026-11-25' },
          },
        },
      },
    ]);
    expect((await on.shop.read('stock.needs', {})).toChase).toBe(1);
    // In the list as on its page it waits for somebody, though there is nothing to order.
    expect(ordered.items.find((i) => i.id === itemId)?.needsHand).toBe(true);
    const page = await on.shop.read('stock.showItem', { itemId, horizonDays: 42 });
    expect(page.row.needsHand).toBe(true);
    // Monday: it has not come; still no second order, but the supplier is late
    on.shop.at(Date.parse('2026-11-30T09:00:00Z'));
    const late = await on.board();
    expect(late.suggestions).toEqual([]);
    expect(late.chases[0]?.sentence.key).toBe('stock.say.chaseLate');
  });
  it('orders what booked jobs need in a new shop, not a year of its first job', async () => {
    const { itemId } = on.shop.write('stock.addItem', {
      name: 'Sealant',
      material: 'sealant',
      unit: 'ul',
      packSize: 25_000,
      opening: { amount: 20_000, valueMinor: 168 },
    });
    on.shop.write('stock.linkSupplier', {
      supplierId: on.shelf.kestle,
      itemId,
      packSize: 25_000,
      priceMinor: 210,
    });
    on.shop.at(Date.parse('2026-11-24T09:00:00Z'));
    const { stageId } = bookJob(on.shop, '2026-11-24', {});
    on.shop.write('stock.drawForStage', { stageId, draws: [{ itemId, amount: 15_000 }] });
    on.shop.at(Date.parse('2026-11-25T09:00:00Z'));
    bookJob(on.shop, '2026-11-26', { sealant: 30_000 });
    const line = (await on.board()).suggestions[0]?.lines.find((l) => l.itemId === itemId);
    // 25 ml are missing for the job; the rest is what one use in fourteen days lets expect, far from a year's
    expect(line?.packs).toBeGreaterThanOrEqual(1);
    expect(line?.packs).toBeLessThanOrEqual(4);
    expect(line?.because).toEqual({
      key: 'stock.say.needOnly',
      values: { days: 14, usedDays: 1, cover: 14 },
    });
    expect(line?.reason.inputs.map((i) => i.key)).not.toContain('stock.in.economic');
  });
  it('adds the usual use that is not booked yet, learned from past draws', async () => {
    const now = Date.parse('2026-11-25T09:00:00Z');
    const { stageId } = bookJob(on.shop, '2026-11-02', {});
    // 28 days with 14 ml a day each, the last one yesterday
    for (let day = 28; day >= 1; day -= 1) {
      on.shop.at(now - day * 86_400_000);
      on.shop.write('stock.drawForStage', {
        stageId,
        draws: [{ itemId: on.shelf.compound, amount: 14_000 }],
      });
    }
    on.shop.at(now);
    const page = await on.shop.read('stock.showItem', { itemId: on.shelf.compound });
    const input = (key: string) => page.reason.inputs.find((i) => i.key === `stock.in.${key}`)?.value;
    expect(page.row.onHand).toBe(620_000 - 28 * 14_000);
    expect(input('history')).toBe(28);
    expect(input('perDay')).toEqual({ is: 'amount', amount: 14_000, unit: 'ul' });
    // nothing is booked; one long-booked past job beside the ten imagined: 10/11 of 1 − e^(−1/12) of 14 ml is to come
    const first = 228_000 - (14_000 * (1 - Math.exp(-1 / 12)) * 10) / 11;
    expect(page.row.series.mid.slice(0, 2)).toEqual([228_000, Math.round(first)]);
    expect(page.row.runOutDay).not.toBeNull();
    // a line dated before today that comes in later counts too
    on.shop.at(now - 86_400_000);
    on.shop.write('stock.drawForStage', { stageId, draws: [{ itemId: on.shelf.compound, amount: 28_000 }] });
    on.shop.at(now);
    const later = await on.shop.read('stock.showItem', { itemId: on.shelf.compound });
    expect(later.reason.inputs.find((i) => i.key === 'stock.in.perDay')?.value).toMatchObject({
      amount: 15_000,
    });
  });
  it('orders, takes a part, asks about more, gives up the rest', async () => {
    const { orders } = on.shop.write('stock.makeOrders', {
      lines: [
        { supplierId: on.shelf.kestle, itemId: on.shelf.compound, packs: 3 },
        { supplierId: on.shelf.kestle, itemId: on.shelf.clay, packs: 6 },
      ],
    });
    const id = orders[0]?.id;
    if (!id) throw new Error('no order');
    const order = await on.shop.read('stock.showOrder', { orderId: id });
    // Wednesday and two working days
    expect(order).toMatchObject({ state: 'ordered', dueDay: '2026-11-27', totalMinor: 3 * 4120 + 6 * 980 });
    const line = order.lines.find((l) => l.itemId === on.shelf.compound);
    const came = (packs: number, packSize = 1_000_000) => ({
      supplierId: on.shelf.kestle,
      orderId: id,
      lines: [{ lineId: line?.id ?? null, itemId: on.shelf.compound, packs, packSize, priceMinor: 4200 }],
    });
    expect(on.shop.write('stock.receive', came(2)).raised).toEqual(['Heavy-cut compound']);
    expect((await on.shop.read('stock.showOrder', { orderId: id })).state).toBe('part');
    expect((await on.board()).items.find((i) => i.id === on.shelf.compound)).toMatchObject({
      onHand: 2_620_000,
      onOrder: 1_000_000,
    });
    expect(refusal(() => on.shop.write('stock.receive', came(2)))).toBe('ABOVE_ORDER');
    expect(refusal(() => on.shop.write('stock.receive', came(1, 500_000)))).toBe('OTHER_PACK');
    on.shop.write('stock.receive', { ...came(2), acceptMore: true });
    const clay = order.lines.find((l) => l.itemId === on.shelf.clay)?.id ?? '';
    const revision = (await on.shop.read('stock.showOrder', { orderId: id })).revision;
    const cancel = { orderId: id, lineId: clay, revision };
    on.shop.write('stock.cancelOrderLine', cancel);
    expect(refusal(() => on.shop.write('stock.cancelOrderLine', cancel))).toBe('STALE');
    expect((await on.shop.read('stock.showOrder', { orderId: id })).state).toBe('closed');
    expect(refusal(() => on.shop.write('stock.receive', came(1)))).toBe('ORDER_NOT_OPEN');
  });
  it('counts other packs by their amount: one canister for four bottles leaves nothing due, and is no dearer', async () => {
    const { compound, kestle } = on.shelf;
    const lines = [{ supplierId: kestle, itemId: compound, packs: 4 }];
    const orderId = on.shop.write('stock.makeOrders', { lines }).orders[0]?.id as PurchaseOrderId;
    const lineId = (await on.shop.read('stock.showOrder', { orderId })).lines[0]?.id ?? '';
    const came = (packs: number, packSize: number) => ({
      ...{ supplierId: kestle, orderId },
      lines: [{ lineId, itemId: compound, packs, packSize, priceMinor: 4120 * (packSize / 1_000_000) }],
    });
    const said = async (input: object): Promise<string> => {
      const reply = await on.shop.call('stock.receive', input);
      return reply.ok ? 'saved' : sayError('en', reply.error);
    };
    expect(await said(came(1, 3_000_000))).toMatch(/by its amount it makes 3 of the 4 packs due\./);
    // six half litres are three of them; ten would be five, which is one too many
    expect(await said({ ...came(10, 500_000), acceptOtherPack: true })).toMatch(/4 packs were .* now 5 more/);
    expect(on.shop.write('stock.receive', { ...came(6, 500_000), acceptOtherPack: true }).raised).toEqual([]);
    const row = async () => (await on.board()).items.find((i) => i.id === compound);
    expect(await row()).toMatchObject({ onHand: 3_620_000, onOrder: 1_000_000 });
    on.shop.write('stock.receive', { ...came(1, 900_000), acceptOtherPack: true });
    expect(await row()).toMatchObject({ onHand: 4_520_000, onOrder: 0 });
    expect((await on.shop.read('stock.showOrder', { orderId })).state).toBe('received');
  });
  it('gives what the supplier could not send a day of its own, which chart, list and page go by', async () => {
    const { orders } = on.shop.write('stock.makeOrders', {
      lines: [
        { supplierId: on.shelf.kestle, itemId: on.shelf.compound, packs: 3 },
        { supplierId: on.shelf.kestle, itemId: on.shelf.clay, packs: 6 },
      ],
    });
    const orderId = orders[0]?.id as PurchaseOrderId;
    const order = () => on.shop.read('stock.showOrder', { orderId });
    const days = async () =>
      (await order()).lines.map((l) => [l.itemName, l.packs - l.receivedPacks, l.dueDay]);
    const dayOn = async (itemId: ItemId) => {
      const { row } = await on.shop.read('stock.showItem', { itemId, horizonDays: 42 });
      return row.series.mid;
    };
    on.shop.at(Date.parse('2026-11-27T09:00:00Z'));
    const compound = (await order()).lines.find((l) => l.itemId === on.shelf.compound);
    on.shop.write('stock.receive', {
      ...{ supplierId: on.shelf.kestle, orderId },
      lines: [
        {
          ...{ lineId: compound?.id ?? null, itemId: on.shelf.compound },
          ...{ packs: 2, packSize: 1_000_000, priceMinor: 4120 },
        },
      ],
    });
    // due on Friday, came on Friday without one bottle and the clay: as if ordered anew, on Tuesday
    expect(await days()).toEqual([
      ['Clay', 6, '2026-12-01'],
      ['Heavy-cut compound', 1, '2026-12-01'],
    ]);
    const { revision } = await order();
    const said = { orderId, lineId: compound?.id ?? '', revision, dueDay: '2026-12-09' as LocalDay };
    on.shop.write('stock.expectLine', said);
    expect(await order()).toMatchObject({ dueDay: '2026-12-01', late: false });
    expect((await days())[1]).toEqual(['Heavy-cut compound', 1, '2026-12-09']);
    // day 0 is Friday 27 November: the bottle is there on day 12 and not before
    const levels = await dayOn(on.shelf.compound);
    expect([levels[11], levels[12]]).toEqual([2_620_000, 3_620_000]);
    expect(refusal(() => on.shop.write('stock.expectLine', said))).toBe('STALE');
    const past = { ...said, revision: revision + 1, dueDay: '2026-11-26' as LocalDay };
    expect(refusal(() => on.shop.write('stock.expectLine', past))).toBe('DUE_IS_PAST');
    on.shop.at(Date.parse('2026-12-02T09:00:00Z'));
    const late = await order();
    expect([late.late, late.lines.map((l) => l.late)]).toEqual([true, [true, false]]);
  });
});
