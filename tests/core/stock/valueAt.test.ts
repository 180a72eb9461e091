import { expect, it } from 'vitest';
import { shelfShop } from './shelf.ts';

const on = shelfShop();
const DAY = 86_400_000;
const worth = async (day: string) => (await on.shop.read('stock.valueAt', { day })).valueMinor;

it('says what all stock was worth at the end of a day, whatever moved since', async () => {
  // 25.54 of compound, 15.19 of clay and 99.00 of pads from the start; half the clay goes two days later
  on.shop.at(Date.parse('2026-11-27T22:59:00Z'));
  on.shop.write('stock.waste', { itemId: on.shelf.clay, amount: 155_000, why: 'dropped' });
  expect(await worth('2026-11-24')).toBe(0);
  expect(await worth('2026-11-25')).toBe(2554 + 1519 + 9900);
  expect(await worth('2026-11-26')).toBe(2554 + 1519 + 9900);
  // a minute before midnight in the shop's zone
  expect(await worth('2026-11-27')).toBe(2554 + 1519 + 9900 - 760);
  on.shop.at(Date.parse('2026-11-27T23:00:00Z') + DAY);
  expect(await worth('2026-11-28')).toBe((await on.board()).valueMinor);
});
