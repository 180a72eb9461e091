import { describe, expect, it } from 'vitest';
import type { ItemId, PurchaseOrderId } from '#core/shared/ids.ts';
import { sayError } from '#core/shared/text/sayError.ts';
import { bookJob, refusal, shelfShop } from './shelf.ts';

const on = shelfShop();
/** Eight digits, as short barcodes have them: what a reader types into whatever field is in front. */
const SCANNED = 40_170_725;

async function said(name: string, input: unknown): Promise<string> {
  const reply = await on.shop.call(name, input);
  return reply.ok ? 'saved' : sayError('en', reply.error);
}

describe('a barcode read into the wrong field, or a point left out', () => {
  it('is no count: more than ten times what ever came in is asked about, and saved after a yes', async () => {
    const { pads, clay } = on.shelf;
    const of = async (itemId: ItemId, counted: number) => {
      const { asOfMovementId } = await on.shop.read('stock.showCount', { itemId });
      return { itemId, counted, asOfMovementId };
    };
    expect(await said('stock.count', await of(pads, SCANNED))).toBe(
      'That is far more Cutting pads, 150 mm than the book says. Was a barcode read into this field, or a unit mixed up? Say yes if so much is there. Nothing was saved.',
    );
    const many = await of(clay, 3_200_000);
    expect(refusal(() => on.shop.write('stock.count', many))).toBe('COUNT_UNLIKELY');
    expect(on.shop.write('stock.count', { ...many, acceptMore: true }).onHand).toBe(3_200_000);
    expect(refusal(() => on.shop.write('stock.count', { ...many, counted: -1 }))).toBe('BAD_INPUT');
  });
  it('is a count where a few packs came that nobody booked in, however little came in before', async () => {
    const small = {
      name: 'Wax',
      unit: 'ul',
      packSize: 500_000,
      opening: { amount: 1000, valueMinor: 1 },
    } as const;
    const { itemId } = on.shop.write('stock.addItem', small);
    const { asOfMovementId } = await on.shop.read('stock.showCount', { itemId });
    const of = (counted: number) => () => on.shop.write('stock.count', { itemId, counted, asOfMovementId });
    expect(refusal(of(5_000_001))).toBe('COUNT_UNLIKELY');
    expect(refusal(of(5_000_000))).toBe('none');
  });
  it('is no count of many times what the book has, and many packs more, where much came in over the years', async () => {
    const cleaner = {
      ...({ name: 'Iron remover', unit: 'ul', packSize: 5_000_000 } as const),
      opening: { amount: 900_000_000, valueMinor: 900 },
    };
    const { itemId } = on.shop.write('stock.addItem', cleaner);
    on.shop.write('stock.waste', { itemId, amount: 885_834_650, why: 'used' });
    const { asOfMovementId } = await on.shop.read('stock.showCount', { itemId });
    const of = (counted: number) => () => on.shop.write('stock.count', { itemId, counted, asOfMovementId });
    // 14,165.35 ml by the book: the point left out of 14,165.0, and a day on which four canisters were overlooked
    expect(refusal(of(141_650_000))).toBe('COUNT_UNLIKELY');
    expect(refusal(of(34_165_000))).toBe('none');
  });
  it('is no first count of an item that nothing came in of: that is what counts are for', async () => {
    const { itemId } = on.shop.write('stock.addItem', { name: 'Blades', unit: 'piece', packSize: 10 });
    const { asOfMovementId } = await on.shop.read('stock.showCount', { itemId });
    const read = { itemId, counted: SCANNED, asOfMovementId };
    expect(refusal(() => on.shop.write('stock.count', read))).toBe('COUNT_UNLIKELY');
    expect(on.shop.write('stock.count', { itemId, counted: 40, asOfMovementId }).onHand).toBe(40);
  });
  it('is no number of pieces, of an item or of a material without one; nothing of the stage is booked then', async () => {
    const { pads, compound } = on.shelf;
    const { stageId } = bookJob(on.shop, '2026-11-27', { cuttingPad: 4 });
    const draws = (draw: object) => ({ stageId, draws: [{ itemId: compound, amount: 1000 }, draw] });
    expect(await said('stock.drawForStage', draws({ itemId: pads, amount: SCANNED }))).toBe(
      'Cutting pads, 150 mm: more than 10,000 pieces at once. Was a barcode read into this field? Nothing was saved.',
    );
    expect(await said('stock.drawForStage', draws({ material: 'gloves', amount: SCANNED }))).toMatch(
      /^gloves: more than 10,000 pieces/,
    );
    expect((await on.board()).items.find((i) => i.id === compound)?.onHand).toBe(620_000);
    const { itemId } = on.shop.write('stock.addItem', { name: 'Blades', unit: 'piece', packSize: 10 });
    expect(await said('stock.waste', { itemId, amount: SCANNED, why: 'bent' })).toMatch(/^Blades: more/);
  });
  it('is no price: one that is five times the ordered one is asked about, as is a fifth of it', async () => {
    const { compound, kestle } = on.shelf;
    const { orders } = on.shop.write('stock.makeOrders', {
      lines: [{ supplierId: kestle, itemId: compound, packs: 3 }],
    });
    const orderId = orders[0]?.id as PurchaseOrderId;
    const lineId = (await on.shop.read('stock.showOrder', { orderId })).lines[0]?.id ?? '';
    const came = (priceMinor: number, packSize = 1_000_000, ordered = true) => ({
      ...{ supplierId: kestle, ...(ordered ? { orderId } : {}), acceptOtherPack: true },
      lines: [{ ...(ordered ? { lineId } : {}), itemId: compound, packs: 1, packSize, priceMinor }],
    });
    expect(await said('stock.receive', came(412_000))).toBe(
      'Heavy-cut compound: €41.20 a pack was agreed, the delivery says €4,120.00. Check the delivery note; say yes if the price is right. Nothing was put in stock yet.',
    );
    // 824 is a fifth: 8.24 is asked about, 8.25 is not; half a pack for half the price is the same price
    expect(refusal(() => on.shop.write('stock.receive', came(824)))).toBe('PRICE_UNLIKELY');
    expect(refusal(() => on.shop.write('stock.receive', came(412_000, 1_000_000, false)))).toBe(
      'PRICE_UNLIKELY',
    );
    on.shop.write('stock.receive', came(825));
    on.shop.write('stock.receive', came(2060, 500_000));
    on.shop.write('stock.receive', { ...came(412_000), acceptPrice: true });
    // a yes to another item is none to this one
    const { clay, pads } = on.shelf;
    expect(
      refusal(() =>
        on.shop.write('stock.receive', { ...came(412_000, 1_000_000, false), acceptPrice: [clay, pads] }),
      ),
    ).toBe('PRICE_UNLIKELY');
    on.shop.write('stock.receive', { ...came(412_000, 1_000_000, false), acceptPrice: [compound] });
    // what came for nothing, as a sample, is no slip
    on.shop.write('stock.receive', came(0, 1_000_000, false));
  });
  it('is no barcode that a spreadsheet has made a figure of', async () => {
    const list = (code: string) => `name,unit,packSize,barcode\r\nSealant,ml,500,${code}\r\n`;
    const faults = async (code: string) =>
      (await on.shop.read('stock.checkItems', { csv: list(code) })).faults;
    for (const spoilt of ['4.1E+12', '"4,09999900002E+12"', '4.09999900002e+12'])
      expect(await faults(spoilt)).toEqual([{ line: 2, field: 'barcode', problem: 'codeRounded' }]);
    for (const code of ['4099999000024', 'E12', '4E12', 'RL0123ABCDEF'])
      expect(await faults(code)).toEqual([]);
  });
});
