import { describe, expect, it } from 'vitest';
import type { LocalDay, Minor } from '#core/shared/units.ts';
import { orderQuantity, packPrice } from '#core/stock/rules/quantity.ts';
import { inventoryPosition, orderToday } from '#core/stock/rules/reorder.ts';
import {
  arrivalDay,
  learnLead,
  nextOpen,
  openDaysBetween,
  orderByDay,
} from '#core/stock/rules/supplierDays.ts';

describe('when and how much', () => {
  const week = { leadDays: 2, openWeekdays: [1, 2, 3, 4, 5], closedDays: ['2026-12-07', '2026-12-08'] };
  it('counts the supplier’s open days', () => {
    // Wed 25 Nov 2026 + 2 working days = Fri 27; Fri 4 Dec + 2 skips the weekend and two shut days: Thu 10
    expect(arrivalDay('2026-11-25' as LocalDay, week)).toBe('2026-11-27');
    expect(arrivalDay('2026-12-04' as LocalDay, week)).toBe('2026-12-10');
    expect(nextOpen('2026-11-28' as LocalDay, week)).toBe('2026-11-30');
    expect(openDaysBetween('2026-12-04' as LocalDay, '2026-12-10' as LocalDay, week)).toBe(2);
    expect(learnLead([2, 3])).toBeNull();
    expect(learnLead([2, 3, 4])).toEqual({ meanDays: 3, sdDays: 1, n: 3 });
  });
  it('names the last day to order for it to come before it is needed', () => {
    // needed Thu 10 Dec: shut on 7 and 8 Dec, so an order of Fri 4 comes on the very day, one of Thu 3 on Wed 9
    expect(orderByDay('2026-11-25' as LocalDay, '2026-12-10' as LocalDay, week)).toBe('2026-12-03');
    // needed Mon 30 Nov: an order of Wed 25 comes on Fri 27, one of Thu 26 on Monday itself
    expect(orderByDay('2026-11-25' as LocalDay, '2026-11-30' as LocalDay, week)).toBe('2026-11-25');
    // too late as it is: today
    expect(orderByDay('2026-11-25' as LocalDay, '2026-11-26' as LocalDay, week)).toBe('2026-11-25');
    expect(orderByDay('2026-11-25' as LocalDay, '2026-12-01' as LocalDay, week)).toBe('2026-11-26');
  });
  it('looks at the position, not at the shelf', () => {
    expect(inventoryPosition(620, 0, 1140)).toBe(-520);
  });
  it('waits while a later order still comes in time, and not when the supplier shuts', () => {
    const level = [100, 90, 80, 70, 60, 50, 40, 30];
    const q = { level, safety: 35 };
    expect(orderToday({ ...q, arrivesNext: 3 })).toEqual({ order: false, below: 7 });
    expect(orderToday({ ...q, arrivesNext: 7 }).order).toBe(true);
  });
  const base = {
    shortfall: 1500,
    expectedUse: (days: number) => (12_000 / 365) * days,
    steady: true,
    positionThen: 0,
    packSize: 1000,
    priceMinor: 4000,
    breaks: [],
    orderCostMinor: 0,
    holdingShare: 0.2,
    sealedLifeDays: null,
    openedLifeDays: null,
    shelfPacks: null,
  };
  it('covers the shortfall in whole packs', () => {
    expect(orderQuantity(base).packs).toBe(2);
  });
  it('takes the economic quantity when it is larger', () => {
    // √(2·12000·1000/(0.2·4)) = 5477 → 5 packs
    expect(orderQuantity({ ...base, orderCostMinor: 1000 }).packs).toBe(5);
  });
  it('orders the need alone while the use is not known as a rate, however cheap a pack is beside an order', () => {
    const cheap = {
      ...base,
      orderCostMinor: 1000,
      priceMinor: 40,
      breaks: [{ fromPacks: 10, priceMinor: 20 as Minor }],
    };
    // the year's use caps what would be √(2·12000·1000/(0.2·0.04)) = 54772
    expect(orderQuantity(cheap).packs).toBe(12);
    expect(orderQuantity({ ...cheap, steady: false })).toMatchObject({
      packs: 2,
      economic: null,
      breakUsed: false,
    });
    expect(orderQuantity({ ...cheap, steady: false, shelfPacks: 1 })).toMatchObject({
      packs: 1,
      conflicts: ['shelf'],
    });
  });
  it('stays within shelf and life and says when the need does not fit', () => {
    const shelf = orderQuantity({ ...base, shelfPacks: 1 });
    expect(shelf).toMatchObject({ packs: 1, conflicts: ['shelf'] });
    // 12000 a year is 32.9 a day; 30 days use 986: not one pack
    const life = orderQuantity({ ...base, sealedLifeDays: 30 });
    expect(life).toMatchObject({ packs: 1, conflicts: ['life'] });
    const opened = orderQuantity({ ...base, openedLifeDays: 10 });
    expect(opened.conflicts).toEqual(['opened']);
  });
  it('goes up to a price break when the year gets cheaper', () => {
    const breaks = [{ fromPacks: 4, priceMinor: 3500 as Minor }];
    expect(orderQuantity({ ...base, breaks }).packs).toBe(4);
    expect(orderQuantity({ ...base, breaks, shelfPacks: 3 }).packs).toBe(2);
    expect(packPrice(3, 4000, breaks)).toBe(4000);
    expect(packPrice(4, 4000, breaks)).toBe(3500);
  });
});
