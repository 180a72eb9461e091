import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { QuoteView } from '#core/shared/views/billing.ts';
import { findChromium } from '../helpers/chromium.ts';
import { openShopWindow, type ShopWindow } from './shopWindow.ts';

const choice = findChromium();
const LONG = 'Care set for coated paint in a box with a ribbon, two sizes';

/** A customer who is offered two options, and something to take home with them. */
describe.skipIf(choice === null)('things of the price list on a quote', () => {
  let shop: ShopWindow;
  let jobId = '';
  const quoteNow = (): Promise<QuoteView> => shop.call<QuoteView>('billing.readJobQuote', { jobId });
  const thingsOf = ({ options }: QuoteView): readonly string[] =>
    options.map(({ bill }) =>
      bill.lines
        .flatMap((l) => (l.quoted === undefined ? [] : [`${l.quantity} ${l.text} −${l.discountMinor}`]))
        .join(', '),
    );

  beforeAll(async () => {
    if (!choice) return;
    shop = await openShopWindow(choice);
    const { id: customerId } = await shop.call<{ id: string }>('people.addCustomer', { name: 'Marit Vane' });
    const car = { customerId, body: 'saloon', makeModel: 'Velloy Merrin' };
    const { id: vehicleId } = await shop.call<{ id: string }>('people.addVehicle', car);
    const wanted = { customerId, vehicleId, purpose: 'correction', wish: '' };
    jobId = (await shop.call<{ jobId: string }>('bookings.openJob', wanted)).jobId;
    for (const wish of ['oneStage', 'full'])
      await shop.call('estimate.provisional', { jobId, wish, condition: 'worn' });
    for (const [name, priceMinor] of [
      ['Drying towel', 1490],
      [LONG, 4900],
    ] as const)
      await shop.call('shop.setListPrice', { kind: 'item', name, priceMinor });
    await shop.call('shop.setListPrice', { kind: 'panel', level: 'oneStage', priceMinor: 9500 });
  });
  afterAll(() => shop?.close());

  const add = async (name: string | RegExp): Promise<void> => {
    await shop.page.getByRole('button', { name: /^Things that go with it/ }).click();
    await shop.page.getByRole('option', { name }).click();
  };

  test('are added from the list, for one option or all; what cannot be is said in place', async () => {
    const { page } = shop;
    await shop.goTo(`/jobs/${jobId}/quote`);
    await page.getByText(/^Estimate 1,/).click();
    await add(/^Drying towel/);
    await add(/^Drying towel/);
    const towel = page.getByRole('group', { name: 'Drying towel' });
    await expect.poll(() => towel.getByLabel('How many').inputValue()).toBe('2');
    await add(/^Care set/);
    await page.getByRole('group', { name: LONG }).getByText('with version 2').click();
    const many = towel.getByLabel('How many');
    await many.fill('0');
    await many.press('Tab');
    await towel.getByText('At least 1.').waitFor();
    await many.fill('');
    await many.press('Tab');
    await towel.getByText('Say how many.').waitFor();
    await many.fill('210');
    await many.press('Tab');
    await page.getByRole('button', { name: 'Make the quote' }).click();
    await page.getByText('210 × “Drying towel” is a lot for one car').waitFor();
    await many.fill('2');
    const off = towel.getByLabel('Discount in all');
    await off.fill('30');
    await off.press('Tab');
    await page.getByRole('button', { name: 'Make the quote' }).click();
    await page.getByText('comes to €29.80, so €30.00 cannot be taken off').waitFor();
    await off.fill('3');
    await off.press('Tab');
    await towel.getByText('26.80').waitFor();
    await shop.holds();
    await shop.shot('quote-things-ask');
    await page.getByRole('button', { name: 'Make the quote' }).click();
    await page.getByText('2 × Drying towel, 14.90 each, less 3.00').waitFor();
    expect(thingsOf(await quoteNow())).toEqual(['2 Drying towel −300', `2 Drying towel −300, 1 ${LONG} −0`]);
  });

  test('come back with the next version as each option had them, and one can be taken out', async () => {
    const { page } = shop;
    await shop.call('shop.setListPrice', { kind: 'item', name: LONG, priceMinor: null });
    await page.getByRole('group', { name: LONG }).getByText('not sold any more').waitFor();
    await page.getByText(/^Estimate 1,/).click();
    await page.getByRole('button', { name: 'New version' }).click();
    await page.getByText(`“${LONG}” is not sold since`).waitFor();
    await page.getByRole('button', { name: `Take out: ${LONG}` }).click();
    await add(/by the panel/);
    await page.getByText('its hours are not in the plan').waitFor();
    await shop.holds();
    await page.getByRole('button', { name: 'New version' }).click();
    await page.getByText('One-step correction, by the panel').first().waitFor();
    const quote = await quoteNow();
    expect(quote.version).toBe(2);
    expect(new Set(thingsOf(quote))).toEqual(
      new Set(['1 One-step correction, by the panel −0, 2 Drying towel −300']),
    );
    await shop.shot('quote-things');
  });

  test('take from stock what the price list says, when the car is handed over', async () => {
    const { page } = shop;
    const opening = { amount: 2_000_000, valueMinor: 800 };
    await shop.call('stock.addItem', {
      ...{ name: 'Shampoo', material: 'shampoo', unit: 'ul', packSize: 1_000_000, packWord: 'bottle' },
      ...{ reusable: false, opening },
    });
    await shop.goTo('/shop');
    await page.getByRole('button', { name: /^Packages and surcharges/ }).click();
    await page.getByLabel('what it is called').fill('Drying towel');
    await page.getByRole('button', { name: /^taken from stock/i }).click();
    await page.getByRole('option', { name: 'Shampoo' }).click();
    await page.getByLabel('how much one of it takes').fill('500');
    await page.getByLabel('price of one').last().fill('15');
    await page.getByLabel('price of one').last().press('Tab');
    await shop.holds();
    await shop.shot('shop-list-price');
    await page.getByRole('button', { name: 'Set this price' }).click();
    await page.getByText('500 ml of Shampoo').first().waitFor();
    const quote = await quoteNow();
    const by = { letter: 'A', name: 'Marit Vane', way: 'spoken' };
    await shop.call('billing.acceptQuote', { quoteId: quote.id, revision: quote.revision, ...by });
    const record = {
      ...{
        mileage: 48_120,
        mileageUnit: 'km',
        keyCount: 2,
        belongings: '',
        damage: [],
        agreedBy: 'Marit Vane',
      },
      ...{ picturesRecord: true, picturesPublish: false, agreedWay: 'printedForm' },
    };
    await shop.call('bookings.arrive', { jobId, ...record });
    await shop.call('bookings.stopHalfWay', { jobId, reason: 'rain', shares: [] });
    await shop.goTo(`/jobs/${jobId}/hand-over`);
    await page.getByText('2 × Drying towel').waitFor();
    // Stopped before any work, so that none of them is billed: nothing leaves the stock unasked.
    await page.getByText('No work was done, so the bill has none of them.').waitFor();
    const given = page.getByRole('checkbox', { name: 'Handed over with the car', exact: true });
    expect(await given.isChecked()).toBe(false);
    await page.getByText('Handed over with the car', { exact: true }).click();
    await shop.holds();
    await shop.shot('hand-over-things');
    await page.getByText('said so', { exact: true }).click();
    await page.getByRole('button', { name: 'Handed over', exact: true }).click();
    await expect
      .poll(() => shop.rows("SELECT qty FROM stock_movement WHERE reason = 'draw'"))
      .toEqual([{ qty: -1_000_000 }]);
  });
});
