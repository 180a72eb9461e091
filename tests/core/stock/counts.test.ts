import { describe, expect, it } from 'vitest';
import { refusal, shelfShop } from './shelf.ts';

const on = shelfShop();

describe('a count', () => {
  it('leaves draws alone that were booked while somebody counted', async () => {
    const sheet = await on.shop.read('stock.showCount', { itemId: on.shelf.clay });
    on.shop.write('stock.waste', { itemId: on.shelf.clay, amount: 50_000, why: 'dropped' });
    const done = on.shop.write('stock.count', {
      itemId: on.shelf.clay,
      counted: 300_000,
      asOfMovementId: sheet.asOfMovementId,
    });
    expect(done).toEqual({ difference: -10_000, onHand: 250_000, since: -50_000 });
    const ahead = { itemId: on.shelf.clay, counted: 1, asOfMovementId: 9999 };
    expect(refusal(() => on.shop.write('stock.count', ahead))).toBe('COUNT_AHEAD');
  });
  it('takes missing pieces out of the round, dirty ones first', async () => {
    on.shop.write('stock.padsUsed', { itemId: on.shelf.pads, pieces: 3 });
    const sheet = await on.shop.read('stock.showCount', { itemId: on.shelf.pads });
    on.shop.write('stock.count', { itemId: on.shelf.pads, counted: 7, asOfMovementId: sheet.asOfMovementId });
    expect((await on.board()).pads[0]).toMatchObject({ clean: 6, dirty: 1, retired: 2 });
    // lost is not worn out: the life stays what it was thought to be, with 3 uses that nobody wore through
    expect((await on.board()).pads[0]).toMatchObject({ learnedFrom: 0, usesPerLife: 20.8 });
  });
  it('can be asked for of everything, once', () => {
    expect(on.shop.write('stock.askCount', { all: true }).opened).toBe(3);
    expect(on.shop.write('stock.askCount', { all: true }).opened).toBe(0);
  });
});
