import { afterEach, beforeEach, expect, test } from 'vitest';
import type { CustomerId } from '#core/shared/ids.ts';
import { agreedJob, billJob } from '../../helpers/billing.ts';
import { CAR_RECORD } from '../../helpers/bookedJob.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';

let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
});
afterEach(() => shop.close());

type Content = Readonly<Record<string, readonly Readonly<Record<string, unknown>>[]>>;
async function fileOf(customerId: CustomerId): Promise<Content> {
  const file = await shop.read('people.customerFile', { customerId });
  expect(file).toMatchObject({ mime: 'application/json', fileName: `customer-${customerId}.json` });
  return JSON.parse(new TextDecoder().decode(file.bytes)) as Content;
}

/** Tables that lead to a customer by their keys and still say nothing about one, and why. */
const ABOUT_THE_WORK: Readonly<Record<string, string>> = {
  job_material: 'what the shop plans to use',
  job_override: 'a rule that somebody of the shop set aside',
  stage_work: 'working times of the people of the shop',
  stay: 'the plan of the bays',
  placement: 'the plan of the people of the shop',
  stock_movement: 'the stock ledger',
  draw_without_item: 'what the shop used of things it keeps no item for',
  draw_settled: 'what became of that',
  pad_event: 'wear of the shop’s pads',
  document_rest: 'what the documents and payments in the file leave to pay',
  billed_share: 'which documents in the file bill the work',
  job_unbilled: 'that a job in the file has no invoice yet',
  collective_net: 'parts of the documents in the file',
  job_sum: 'sums of documents, the stock ledger and pads',
  job_hand: 'working times of the people of the shop',
};

test('a customer’s data is one file with all that was said, seen, agreed and paid, and nobody else’s', async () => {
  const { jobId, customerId, vehicleId } = agreedJob(shop);
  const other = agreedJob(shop);
  shop.write('people.changeCustomer', { customerId: other.customerId, revision: 1, name: 'Bo Dray' });
  shop.write('bookings.arrive', { jobId, ...CAR_RECORD, note: 'left door sticks' });
  const base64 = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 1, 2, 3, 4]).toString('base64');
  shop.write('paint.addPicture', { jobId, panel: 'bo', phase: 'before', consent: 'record', base64 });
  shop.write('billing.takeDeposit', { jobId, amountMinor: 18_078, way: 'card' });
  const invoiceId = await billJob(shop, jobId);
  const content = await fileOf(customerId);
  expect(content['customer']).toMatchObject([{ name: 'Marit Vane', address: '11 Sluice Lane\nEmberwick' }]);
  expect(content['vehicle']).toMatchObject([{ id: vehicleId, plate: 'EW 41 TRN' }]);
  expect(content['job']).toMatchObject([{ wish: 'make it look good' }]);
  expect(content['car_record']).toMatchObject([
    { note: 'left door sticks', damage: [{ panel: 'fb', note: 'stone chips' }] },
  ]);
  expect(content['picture']).toMatchObject([{ panel: 'bo', base64 }]);
  expect(content['quote']).toMatchObject([{ accepted_name: 'Marit Vane' }]);
  expect(content['invoice']).toMatchObject([{ id: invoiceId, to_pay_minor: 90_390, prepaid_minor: 18_078 }]);
  expect(content['payment']).toMatchObject([{ amount_minor: 18_078, kind: 'deposit' }]);
  expect(JSON.stringify(content)).not.toContain('Bo Dray');
  expect(JSON.stringify(content)).not.toContain(shop.people.owner);
});

test('every table that leads to a customer is in the file or is named as being about the work', async () => {
  const { raw } = shop.db;
  const tables = raw.prepare("SELECT name FROM sqlite_master WHERE type = 'table'").pluck().all() as string[];
  const parents = (table: string): readonly string[] =>
    (raw.pragma(`foreign_key_list(${table})`) as { table: string }[]).map((key) => key.table);
  const leading = new Set(['customer']);
  for (let before = 0; before !== leading.size; ) {
    before = leading.size;
    for (const table of tables) if (parents(table).some((p) => leading.has(p))) leading.add(table);
  }
  const content = await fileOf(agreedJob(shop).customerId);
  const missing = [...leading].filter((table) => !(table in content) && !(table in ABOUT_THE_WORK));
  expect(missing).toEqual([]);
  expect(leading.size).toBeGreaterThan(20);
});

test('a technician may not take a customer’s data away, and of an erased one there is none', async () => {
  const { id: customerId } = shop.write('people.addCustomer', { name: 'Bo Dray' });
  shop.as('technician');
  expect(await shop.call('people.customerFile', { customerId })).toMatchObject({
    error: { code: 'NOT_ALLOWED' },
  });
  shop.as('owner');
  shop.write('people.eraseCustomer', { customerId, revision: 1 });
  expect(await shop.call('people.customerFile', { customerId })).toMatchObject({
    error: { code: 'CUSTOMER_ERASED' },
  });
});
