import { existsSync, readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { CustomerId, JobId } from '#core/shared/ids.ts';
import { sayError } from '#core/shared/text/sayError.ts';
import { agreedJob, billJob, refusalOf } from '../../helpers/billing.ts';
import { CAR_RECORD, jobWith } from '../../helpers/bookedJob.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';

let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
});
afterEach(() => shop.close());

/** The beginning of a PNG; the last byte makes it another picture. */
const pixel = (last: number): string =>
  Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13, last]).toString('base64');
const files = (): readonly string[] => {
  const folder = path.join(shop.dir, 'pictures');
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => entry.name);
};
async function erase(customerId: CustomerId): Promise<string> {
  const { customer } = await shop.read('people.customerPage', { customerId });
  return refusalOf(shop, 'people.eraseCustomer', { customerId, revision: customer.revision });
}
async function sentence(customerId: CustomerId): Promise<string> {
  const { customer } = await shop.read('people.customerPage', { customerId });
  const reply = await shop.call('people.eraseCustomer', { customerId, revision: customer.revision });
  return reply.ok ? 'erased' : sayError('en', reply.error);
}
const end = (jobId: JobId): void => {
  shop.db.raw.prepare("UPDATE job SET state = 'collected' WHERE id = ?").run(jobId);
};

test('erasing a customer empties what names them in jobs, records, vehicles and quotes, and no other customer’s', async () => {
  const { jobId, customerId } = jobWith(shop, ['wash']);
  const other = agreedJob(shop);
  const strokes = [
    [
      [10, 20],
      [30, 40],
    ],
  ] as never;
  shop.write('bookings.arrive', {
    ...{ jobId, ...CAR_RECORD, agreedWay: 'signature', strokes },
    note: 'Jörg will call from Ößterling’s office',
  });
  shop.write('bookings.cancelJob', { jobId, reason: 'Jörg changed his mind', deposit: null });
  const theirs = shop.db.raw.prepare('UPDATE vehicle SET vin = ?, note = ? WHERE customer_id = ?');
  theirs.run('ZZ9TERN43M1041882', 'kept at Ößterling’s office', customerId);
  expect(await erase(customerId)).toBe('accepted');
  expect(shop.db.raw.prepare('SELECT agreed_by, belongings, strokes, note FROM car_record').all()).toEqual([
    { agreed_by: '–', belongings: '', strokes: '[]', note: '' },
    { agreed_by: '–', belongings: '', strokes: '[]', note: '' },
  ]);
  const of = (sql: string): unknown => shop.db.raw.prepare(sql).get(customerId);
  expect(of('SELECT wish, end_reason FROM job WHERE customer_id = ?')).toEqual({ wish: '', end_reason: '' });
  expect(of('SELECT plate, plate_key, vin, note, make_model FROM vehicle WHERE customer_id = ?')).toEqual({
    ...{ plate: '', plate_key: '', vin: '', note: '', make_model: 'Velloy Merrin' },
  });
  const kept = shop.db.raw.prepare('SELECT wish FROM job WHERE id = ?').pluck().get(other.jobId);
  expect(kept).toBe('make it look good');
  const agreed = shop.db.raw.prepare('SELECT accepted_name FROM quote').pluck().all();
  expect(agreed).toEqual(['Marit Vane']);
});

test('no table still holds a word of an erased customer but the issued documents', async () => {
  const { jobId, customerId } = agreedJob(shop);
  shop.db.raw.prepare("UPDATE vehicle SET vin = 'ZZ9TERN43M1041882'").run();
  const invoiceId = await billJob(shop, jobId);
  shop.write('billing.takePayment', { invoiceIds: [invoiceId], amountMinor: 90_390, way: 'card' });
  end(jobId);
  expect(await erase(customerId)).toBe('accepted');
  const tables = shop.db.raw
    .prepare("SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%'")
    .pluck()
    .all() as string[];
  const naming = tables.filter((table) => {
    const text = JSON.stringify(shop.db.raw.prepare(`SELECT * FROM ${table}`).all());
    return ['Marit', 'Vane', 'Sluice Lane', 'EW 41 TRN', 'EW41TRN', 'ZZ9TERN', 'make it look good'].some(
      (word) => text.includes(word),
    );
  });
  expect(naming).toEqual(['invoice']);
  const invoice = await shop.read('billing.readInvoice', { invoiceId });
  expect(invoice.customer).toMatchObject({ name: 'Marit Vane', address: '11 Sluice Lane\nEmberwick' });
});

test('pictures go with their files, but not one that another customer’s job shares', async () => {
  const mine = jobWith(shop, ['wash']);
  const other = agreedJob(shop);
  shop.write('bookings.arrive', { jobId: mine.jobId, ...CAR_RECORD });
  shop.db.raw.exec(
    `INSERT INTO car_record SELECT 'r0000000000000000002', '${other.jobId}', kind, at_ms, late_min, mileage, mileage_unit, key_count,
      belongings, damage, pictures_record, pictures_publish, agreed_by, agreed_way, strokes, note, locale, person_id FROM car_record`,
  );
  const add = (jobId: JobId, last: number): void => {
    const shared = { panel: null, phase: 'before', consent: 'record' } as const;
    shop.write('paint.addPicture', { jobId, ...shared, base64: pixel(last) });
  };
  add(mine.jobId, 1);
  add(mine.jobId, 2);
  add(other.jobId, 2);
  expect(files()).toHaveLength(2);
  end(mine.jobId);
  expect(await erase(mine.customerId)).toBe('accepted');
  expect(files()).toHaveLength(1);
  const left = await shop.read('paint.pictures', { jobId: other.jobId });
  expect(left.pictures).toHaveLength(1);
  expect((await shop.read('paint.pictures', { jobId: mine.jobId })).pictures).toEqual([]);
});

describe('erasing is refused, in words that say what is open,', () => {
  test('while a job is open', async () => {
    const { customerId } = agreedJob(shop);
    expect(await sentence(customerId)).toBe(
      'Something is still open with Marit Vane: one job is not finished. Finish that first, then the details can be removed. Nothing was removed.',
    );
  });

  test('while a deposit is held, also for a cancelled job, and when it was paid by another', async () => {
    const { jobId, customerId } = agreedJob(shop);
    const payer = shop.write('people.addCustomer', { name: 'Harbour Fleet' }).id;
    shop.db.raw.prepare('UPDATE job SET payer_id = ? WHERE id = ?').run(payer, jobId);
    shop.write('billing.takeDeposit', { jobId, amountMinor: 18_000, way: 'card' });
    shop.write('bookings.cancelJob', { jobId, reason: 'sold the car', deposit: null });
    for (const id of [customerId, payer])
      expect(await sentence(id)).toContain('€180.00 is held as a deposit');
    shop.write('billing.settleDeposit', { jobId, outcome: 'returned', way: 'card' });
    expect(await sentence(customerId)).toBe('erased');
    expect(await sentence(payer)).toBe('erased');
  });

  test('while a credit is held, a document is a draft, or either side owes', async () => {
    const { jobId, customerId } = agreedJob(shop);
    const draft = shop.write('billing.draftInvoice', { jobId });
    end(jobId);
    expect(await sentence(customerId)).toContain('One document is still a draft.');
    shop.write('billing.dropDraft', { ...draft, revision: 1 });
    const invoiceId = await billJob(shop, jobId);
    expect(await sentence(customerId)).toContain('One document is not settled.');
    const money = { amountMinor: 91_390, way: 'card', surplus: 'credit' } as const;
    shop.write('billing.takePayment', { ...money, invoiceIds: [invoiceId] });
    expect(await sentence(customerId)).toContain('€10.00 is held as a deposit or credit.');
    shop.write('billing.refund', { from: 'credit', id: customerId, amountMinor: 1000, way: 'card' });
    const lines = [{ line: 0, amountMinor: 500 }];
    shop.write('billing.creditInvoice', { invoiceId, lines, reason: 'left out' });
    expect(await sentence(customerId)).toContain('One document is not settled.');
    shop.write('billing.refund', { from: 'invoice', id: invoiceId, amountMinor: 500, way: 'card' });
    expect(await sentence(customerId)).toBe('erased');
  });
});

test('a record of a car can lose its note but not change it', () => {
  const { jobId } = jobWith(shop, ['wash']);
  shop.write('bookings.arrive', { jobId, ...CAR_RECORD, note: 'left door sticks' });
  expect(() => shop.db.raw.prepare("UPDATE car_record SET note = 'nothing'").run()).toThrow(
    /kept as written/,
  );
});

test('what was erased is overwritten in the shop’s file as well', () => {
  const note = 'Ask for Xanthe Quillfeather, never before nine';
  const { id: customerId } = shop.write('people.addCustomer', { name: 'Xanthe Quillfeather', note });
  const bytes = (): Buffer => {
    shop.db.raw.pragma('wal_checkpoint(TRUNCATE)');
    return readFileSync(path.join(shop.dir, 'rakelight.sqlite'));
  };
  expect(bytes().includes('Quillfeather')).toBe(true);
  shop.write('people.eraseCustomer', { customerId, revision: 1 });
  expect(bytes().includes('Quillfeather')).toBe(false);
});

test('a picture keeps its file when the erasure does not come through', async () => {
  const { jobId, customerId } = jobWith(shop, ['wash']);
  shop.write('bookings.arrive', { jobId, ...CAR_RECORD });
  shop.write('paint.addPicture', {
    ...{ jobId, panel: null, phase: 'before', consent: 'record', base64: pixel(1) },
  });
  end(jobId);
  shop.db.raw.exec(
    "CREATE TEMP TRIGGER no_entry BEFORE INSERT ON main.journal BEGIN SELECT RAISE(ABORT, 'disk is full'); END",
  );
  expect(await erase(customerId)).not.toBe('accepted');
  expect(files()).toHaveLength(1);
  shop.db.raw.exec('DROP TRIGGER no_entry');
  expect(await erase(customerId)).toBe('accepted');
  expect(files()).toHaveLength(0);
});

test('erasing a customer takes their name out of replies kept for repeats, and nothing else', async () => {
  const { jobId, customerId } = agreedJob(shop);
  end(jobId);
  const keep = shop.db.raw.prepare("INSERT INTO answered VALUES (?, 'test.said', 1, ?)");
  const reply = (who: string): string => JSON.stringify({ ok: true, value: [{ who }, 7], touches: ['jobs'] });
  keep.run('c1', reply('for Marit Vane'));
  keep.run('c2', reply('for Marit Vanegard'));
  shop.db.raw
    .prepare("UPDATE customer SET email = 'vane-marit+car@example.org' WHERE id = ?")
    .run(customerId);
  keep.run('c3', reply('for vane-marit+car@example.org'));
  expect(await erase(customerId)).toBe('accepted');
  const kept = shop.db.raw.prepare("SELECT reply FROM answered WHERE name = 'test.said' ORDER BY command_id");
  expect(kept.pluck().all()).toEqual([reply('for –'), reply('for Marit Vanegard'), reply('for –')]);
});
