import { afterEach, beforeEach, expect, it } from 'vitest';
import type { JobId } from '#core/shared/ids.ts';
import type { EpochMs } from '#core/shared/units.ts';
import { CAR_RECORD, jobWith } from '#tests/helpers/bookedJob.ts';
import { openTestShop, TEST_NOW, type TestShop } from '#tests/helpers/shop.ts';

let shop: TestShop;
let jobId: JobId;
beforeEach(() => {
  shop = openTestShop();
  const job = jobWith(shop, ['wash']);
  jobId = job.jobId;
  shop.write('people.changeCustomer', {
    customerId: job.customerId,
    revision: 1,
    name: 'Anna Weiß',
    phone: '+49 (0)30 5550 178',
  });
  shop.write('people.changeVehicle', { vehicleId: job.vehicleId, revision: 1, plate: 'MÜ-AB 12' });
});
afterEach(() => shop.close());

const total = async (search: string): Promise<number> =>
  (await shop.read('bookings.jobs', { list: null, search })).total;

it('finds a job by its plate, its customer and their telephone, however they are written', async () => {
  for (const search of ['MÜ-AB 12', 'müab12', 'ab 12', 'weiss', 'Weiß', '5550 178', '0 5550'])
    expect([search, await total(search)]).toEqual([search, 1]);
  for (const search of ['MÜ-AB 13', 'weis anna', '5550 179', '555 x'])
    expect([search, await total(search)]).toEqual([search, 0]);
});

it('counts a job as to be billed as the money page does: nothing done is nothing to bill', async () => {
  const toBill = async () => [
    (await shop.read('bookings.jobs', { list: 'toBill', search: '' })).total,
    (await shop.read('billing.readDesk', {})).toBill.length,
  ];
  shop.write('bookings.arrive', { jobId, ...CAR_RECORD });
  const [wash] = (await shop.read('bookings.job', { jobId })).stages;
  if (!wash) throw new Error('no stage');
  shop.write('bookings.dropStage', { stageId: wash.id, reason: 'not wanted after all' });
  shop.write('bookings.markReady', { jobId });
  expect(await toBill()).toEqual([0, 0]);
  shop.at(TEST_NOW + 3_600_000);
  const worked = {
    personId: shop.people.technician,
    startMs: TEST_NOW,
    endMs: (TEST_NOW + 600_000) as EpochMs,
  };
  shop.write('bookings.typeTime', { stageId: wash.id, ...worked });
  expect(await toBill()).toEqual([1, 1]);
});

it('refuses a handover before the car came', async () => {
  shop.write('bookings.arrive', { jobId, ...CAR_RECORD });
  shop.at(TEST_NOW + 3_600_000);
  shop.write('bookings.dropStage', {
    stageId: ((await shop.read('bookings.job', { jobId })).stages[0]?.id ?? '') as never,
    reason: 'not wanted',
  });
  shop.write('bookings.markReady', { jobId });
  const atMs = (TEST_NOW - 1) as EpochMs;
  const reply = await shop.call('bookings.handOver', { jobId, ...CAR_RECORD, atMs });
  expect(reply).toMatchObject({ ok: false, error: { code: 'HANDOVER_BEFORE_ARRIVAL' } });
});

it('finds a paper by its payer and vehicle whatever their case and accents, and nothing by a joker', async () => {
  shop.write('people.changeVehicle', {
    ...{ vehicleId: (await shop.read('bookings.job', { jobId })).vehicle.id, revision: 2 },
    makeModel: 'Härlow Éstra',
  });
  shop.write('bookings.arrive', { jobId, ...CAR_RECORD });
  const stageId = (await shop.read('bookings.job', { jobId })).stages[0]?.id as never;
  shop.write('bookings.startStage', { stageId, personId: shop.people.technician });
  shop.at(TEST_NOW + 3_600_000);
  shop.write('bookings.finishStage', { stageId });
  shop.write('billing.draftInvoice', { jobId });
  const found = async (search: string) =>
    (await shop.read('billing.listInvoices', { list: 'all', search })).total;
  expect(await found('')).toBe(1);
  for (const search of ['ANNA WEISS', 'weiß', 'éstra', 'HÄRLOW'])
    expect([search, await found(search)]).toEqual([search, 1]);
  for (const search of ['%', 'an_a', 'marit']) expect([search, await found(search)]).toEqual([search, 0]);
});
