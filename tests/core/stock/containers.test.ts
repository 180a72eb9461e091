import { describe, expect, it } from 'vitest';
import type { ItemId } from '#core/shared/ids.ts';
import { bookJob, refusal, shelfShop } from './shelf.ts';

const on = shelfShop();
const DAY = 86_400_000;
const NOON = Date.parse('2026-11-25T11:00:00Z');

/** A bottle of the shelf's compound, which keeps 30 days once it is open. */
function open(holds: number | null = null): string {
  const changes = { openedLifeDays: 30 };
  const revision = on.shop.db.raw
    .prepare('SELECT revision FROM stock_item WHERE id = ?')
    .pluck()
    .get(on.shelf.compound) as number;
  on.shop.write('stock.changeItem', { itemId: on.shelf.compound, revision, changes });
  return on.shop.write('stock.openContainer', { itemId: on.shelf.compound, holds }).containerId;
}
const seen = () => on.shop.read('stock.containers', { itemId: on.shelf.compound });
const onHand = (itemId: ItemId): number =>
  on.shop.db.raw.prepare('SELECT qty FROM stock_level WHERE item_id = ?').pluck().get(itemId) as number;

describe('an opened container', () => {
  it('stays on hand, and what stages draw comes out of it', async () => {
    open(500_000);
    expect(onHand(on.shelf.compound)).toBe(620_000);
    const { stageId } = bookJob(on.shop, '2026-11-25', { heavyCutCompound: 40_000 });
    const draws = [{ itemId: on.shelf.compound, amount: 40_000 }];
    on.shop.write('stock.drawForStage', { stageId, draws });
    expect(await seen()).toMatchObject([
      { holds: 500_000, rest: 460_000, openedDay: '2026-11-25', throwDay: '2026-12-26', how: 'opened' },
    ]);
  });
  it('puts the book right by a level, unless the book lies as near as an eye reads', async () => {
    const containerId = open(500_000);
    const near = on.shop.write('stock.readContainer', { containerId, read: { level: 8, of: 8 } });
    expect(near).toEqual({ rest: 500_000, difference: 0, onHand: 620_000 });
    const half = on.shop.write('stock.readContainer', { containerId, read: { level: 4, of: 8 } });
    expect(half).toEqual({ rest: 250_000, difference: -250_000, onHand: 370_000 });
    const percent = on.shop.write('stock.readContainer', { containerId, read: { level: 61, of: 100 } });
    expect(percent).toMatchObject({ rest: 305_000, onHand: 425_000 });
  });
  it('puts it right by weight, and keeps the empty weight for next time', async () => {
    const containerId = open(500_000);
    const read = { grossMg: 420_000, tareMg: 90_000, gramsPerLitre: 1100 };
    const done = on.shop.write('stock.readContainer', { containerId, read });
    expect(done).toEqual({ rest: 300_000, difference: -200_000, onHand: 420_000 });
    expect(await seen()).toMatchObject([{ how: 'weight', tareMg: 90_000, gramsPerLitre: 1100 }]);
    const tried = (bad: object): string =>
      refusal(() => on.shop.write('stock.readContainer', { containerId, read: { ...read, ...bad } }));
    expect(tried({ grossMg: 80_000 })).toBe('LIGHTER_THAN_EMPTY');
    expect(tried({ grossMg: 900_000 })).toBe('MORE_THAN_HOLDS');
    expect(tried({ gramsPerLitre: null })).toBe('DENSITY_MISSING');
  });
  it('is proposed as waste with its reason the day after its opened life, and leaves the book by it', async () => {
    const containerId = open(500_000);
    on.shop.at(NOON + 30 * DAY);
    expect((await on.board()).toThrow).toEqual([]);
    on.shop.at(NOON + 31 * DAY);
    const [waste] = (await on.board()).toThrow;
    // 620 ml are worth 25.54, so 500 ml are 20.60
    expect(waste).toMatchObject({ containerId, amount: 500_000, valueMinor: 2060 });
    expect(waste?.why).toMatchObject({
      key: 'stock.why.opened',
      values: { opened: { day: '2026-11-25' }, kept: { day: '2026-12-25' } },
    });
    expect((await on.shop.read('stock.needs', {})).toThrow).toBe(1);
    const close = { containerId, as: 'thrown' as const };
    expect(refusal(() => on.shop.write('stock.closeContainer', close))).toBe('THROWN_WHY');
    const done = on.shop.write('stock.closeContainer', { ...close, why: 'past its opened life' });
    expect(done).toEqual({ amount: 500_000, onHand: 120_000 });
    const [last] = (await on.shop.read('stock.showItem', { itemId: on.shelf.compound })).movements;
    expect(last).toMatchObject({ reason: 'waste', amount: -500_000, note: 'past its opened life' });
    expect((await on.board()).toThrow).toEqual([]);
    const again = { containerId, as: 'empty' as const };
    expect(refusal(() => on.shop.write('stock.closeContainer', again))).toBe('CONTAINER_CLOSED');
  });
  it('used up sooner than the book thought takes the rest out as a difference', () => {
    const done = on.shop.write('stock.closeContainer', { containerId: open(500_000), as: 'empty' });
    expect(done).toEqual({ amount: 500_000, onHand: 120_000 });
  });
  it('opened days ago has lost what was drawn since', async () => {
    on.shop.at(NOON + DAY);
    on.shop.write('stock.waste', { itemId: on.shelf.compound, amount: 20_000, why: 'spilt' });
    on.shop.at(NOON + 3 * DAY);
    on.shop.write('stock.openContainer', {
      itemId: on.shelf.compound,
      holds: 500_000,
      openedDay: '2026-11-26',
    });
    expect(await seen()).toMatchObject([{ rest: 480_000, openedDay: '2026-11-26' }]);
  });
  it('is asked about where the book has less than is open, and refused where it makes no sense', async () => {
    open(1_000_000);
    expect((await on.board()).counts).toMatchObject([{ itemId: on.shelf.compound, why: 'asked' }]);
    const ahead = { itemId: on.shelf.clay, openedDay: '2026-11-26' };
    expect(refusal(() => on.shop.write('stock.openContainer', ahead))).toBe('OPENED_AHEAD');
    expect(refusal(() => on.shop.write('stock.openContainer', { itemId: on.shelf.pads }))).toBe(
      'NOT_IN_CONTAINERS',
    );
  });
});

describe('sealed packs past the day on their delivery', () => {
  it('are proposed as waste, as far as they are still there when the oldest is used first', async () => {
    const line = { itemId: on.shelf.clay, packs: 1, packSize: 200_000, priceMinor: 980 };
    const old = { ...line, batch: 'L7', bestBefore: '2026-12-01' };
    on.shop.write('stock.receive', { supplierId: on.shelf.kestle, lines: [old] });
    on.shop.write('stock.receive', { supplierId: on.shelf.kestle, lines: [line] });
    on.shop.write('stock.waste', { itemId: on.shelf.clay, amount: 360_000, why: 'used on the floor' });
    on.shop.at(NOON + 7 * DAY);
    // 710 g less 360 g are 350 g: 200 g of the last delivery, 150 g of the one before
    expect((await on.board()).toThrow).toMatchObject([
      {
        containerId: null,
        amount: 150_000,
        why: { key: 'stock.why.sealed', values: { batch: 'L7', day: { day: '2026-12-01' } } },
      },
    ]);
  });
  it('are told by the day they came and the sealed life where nobody noted a day', async () => {
    const [{ revision } = { revision: 0 }] = await on.shop.read('stock.listItems', {});
    const changes = { sealedLifeDays: 90 };
    on.shop.write('stock.changeItem', { itemId: on.shelf.clay, revision, changes });
    const line = { itemId: on.shelf.clay, packs: 1, packSize: 200_000, priceMinor: 980 };
    on.shop.write('stock.receive', { supplierId: on.shelf.kestle, lines: [line] });
    const noted = { ...line, bestBefore: '2027-11-01' };
    on.shop.write('stock.receive', { supplierId: on.shelf.kestle, lines: [noted] });
    on.shop.write('stock.waste', { itemId: on.shelf.clay, amount: 310_000, why: 'used on the floor' });
    on.shop.at(NOON + 90 * DAY);
    expect((await on.board()).toThrow).toEqual([]);
    on.shop.at(NOON + 91 * DAY);
    // the one with a day of its own is good for months yet; what came without one kept to 23 February
    expect((await on.board()).toThrow).toMatchObject([
      {
        amount: 200_000,
        sentence: { key: 'stock.say.throwKept', values: { days: 90, came: { day: '2026-11-25' } } },
        why: { key: 'stock.why.kept' },
      },
    ]);
  });
});
