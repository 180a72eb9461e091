import { afterEach, beforeEach, expect, it } from 'vitest';
import { addTestJob } from '../../helpers/billing.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';

let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
});
afterEach(() => shop.close());

it('a job says the same hours as the quote that was agreed for it', async () => {
  const { jobId } = addTestJob(shop);
  shop.write('estimate.provisional', { jobId, wish: 'full', condition: 'worn' });
  const [estimate] = await shop.read('estimate.ofJob', { jobId });
  const { quoteId } = shop.write('billing.quoteEstimates', { jobId, estimateIds: [estimate?.id ?? ''] });
  shop.write('billing.acceptQuote', { quoteId, revision: 1, letter: 'A', name: 'Marit Vane', way: 'spoken' });
  const quote = await shop.read('billing.readQuote', { quoteId });
  const hours = quote.options[0]?.hours;
  const [hand] = await shop.read('bookings.hand', { jobIds: [jobId] });
  expect(hours?.p50Min).toBeGreaterThan(0);
  expect([hand?.p20Min, hand?.p50Min, hand?.p80Min]).toEqual([hours?.p20Min, hours?.p50Min, hours?.p80Min]);
});
