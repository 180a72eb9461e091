import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { panelsTotal, pricedPanels } from '#core/shared/listPrices.ts';
import type { LocalDay } from '#core/shared/units.ts';
import { listPricesOn } from '#core/views/listPrices.ts';
import { addTestJob, billJob, quoteJob, refusalOf, testEstimate } from '../../helpers/billing.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';

const TODAY = '2026-11-25' as LocalDay;
let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
});
afterEach(() => shop.close());

type Price = Parameters<typeof shop.write<'shop.setListPrice'>>[1];
const set = (price: Price): void => void shop.write('shop.setListPrice', price);
const namesOn = (day: string): readonly string[] =>
  listPricesOn(shop.db, day as LocalDay).map(
    (row) => `${row.name}${row.level}${row.panel} ${row.priceMinor}`,
  );

describe('the price list', () => {
  it('holds each price from its day until a later one, and what ends is no longer offered', () => {
    set({ kind: 'item', name: 'Headlight, each', priceMinor: 8000 });
    set({ kind: 'item', name: 'Headlight, each', priceMinor: 8900, fromDay: '2026-12-01' });
    set({ kind: 'item', name: 'Headlight, each', priceMinor: null, fromDay: '2027-01-01' });
    expect(namesOn('2026-11-24')).toEqual([]);
    expect(namesOn(TODAY)).toEqual(['Headlight, each 8000']);
    expect(namesOn('2026-12-31')).toEqual(['Headlight, each 8900']);
    expect(namesOn('2027-01-01')).toEqual([]);
  });

  it('has nothing to end of what never had a price: a name typed alone leaves no row', async () => {
    set({ kind: 'panel', level: 'oneStage', priceMinor: 9000 });
    const ends = [
      { kind: 'item', name: 'Headlight', priceMinor: null },
      { kind: 'panel', level: 'oneStage', panel: 'ro', priceMinor: null },
    ] as const;
    for (const price of ends) expect(await refusalOf(shop, 'shop.setListPrice', price)).toBe('NOT_FOUND');
    expect(shop.db.raw.prepare('SELECT count(*) FROM list_price').pluck().get()).toBe(1);
  });

  it('is not changed for a day that is past, and only by the owner', async () => {
    const price = { kind: 'item', name: 'Headlight', priceMinor: 100, fromDay: '2026-11-24' } as const;
    expect(await refusalOf(shop, 'shop.setListPrice', price)).toBe('DAY_PAST');
    shop.as('desk');
    expect(await refusalOf(shop, 'shop.setListPrice', { ...price, fromDay: TODAY })).toBe('NOT_ALLOWED');
  });

  it('prices a panel by its own price, else by that of every panel at the level', () => {
    set({ kind: 'panel', level: 'oneStage', priceMinor: 9000 });
    set({ kind: 'panel', level: 'oneStage', panel: 'ro', priceMinor: 15_000 });
    const list = listPricesOn(shop.db, TODAY);
    const plan = (['bo', 'ro', 'lfd'] as const).map((panel) => ({ panel, level: 'oneStage' as const }));
    expect(panelsTotal(pricedPanels(plan, list))).toBe(9000 + 15_000 + 9000);
    expect(panelsTotal(pricedPanels([{ panel: 'bo', level: 'twoStage' }], list))).toBeNull();
    expect(panelsTotal(pricedPanels([{ panel: 'bo', level: 'leave' }], list))).toBeNull();
  });
});

describe('a quote by the panel', () => {
  it('asks for the panels at their prices, at a fixed price, and is billed as agreed', async () => {
    const { jobId } = addTestJob(shop);
    const estimates = [testEstimate(jobId)];
    const ask = { byPanel: [true] };
    // The estimate takes the bonnet in two stages and the roof in one.
    expect(() => quoteJob(shop, jobId, estimates, '', ask)).toThrow('PANEL_UNPRICED');
    set({ kind: 'panel', level: 'twoStage', priceMinor: 21_000 });
    set({ kind: 'panel', level: 'oneStage', priceMinor: 12_000 });
    const quoteId = quoteJob(shop, jobId, estimates, '', ask);
    const quote = await shop.read('billing.readQuote', { quoteId });
    expect(quote.basis).toBe('fixed');
    expect(quote.options[0]?.bill.lines.map((l) => [l.what, l.text, l.priceMinor])).toEqual([
      ['panel', 'two-step correction, €210.00 a panel: bonnet', 21_000],
      ['panel', 'one-step correction, €120.00 a panel: roof', 12_000],
    ]);
    const agreed = { quoteId, revision: 1, letter: 'A', name: 'Marit Vane', way: 'spoken' } as const;
    expect(shop.write('billing.acceptQuote', agreed).toPayMinor).toBe(33_000);
    // A later price of the list changes nothing that is agreed.
    set({ kind: 'panel', level: 'oneStage', priceMinor: 50_000 });
    const { totals } = await shop.read('billing.readInvoice', { invoiceId: await billJob(shop, jobId) });
    expect(totals.toPayMinor).toBe(33_000);
    expect(() => quoteJob(shop, jobId, estimates, '', { ...ask, basis: 'byTime' })).toThrow('PACKAGE_FIXED');
  });
});
