import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { examine } from '#core/doctor/doctor.ts';
import type { InvoiceId, JobId } from '#core/shared/ids.ts';
import {
  addTestJob,
  agreedJob,
  askPrepaymentInvoices,
  billJob,
  issueDraft,
  refusalOf,
  stageIdsOf,
  stopWith,
  workOn,
} from '../../helpers/billing.ts';
import { openTestShop, TEST_NOW, type TestShop } from '../../helpers/shop.ts';

let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
});
afterEach(() => shop.close());

describe('a prepayment', () => {
  it('is free again when the invoice that took it off is wholly credited, so that nobody pays twice', async () => {
    askPrepaymentInvoices(shop);
    const { jobId } = agreedJob(shop);
    shop.write('billing.takeDeposit', { jobId, amountMinor: 20_000, way: 'card' });
    const first = await billJob(shop, jobId);
    expect((await shop.read('billing.readDesk', {})).depositsMinor).toBe(0);
    shop.write('billing.creditInvoice', { invoiceId: first, lines: null, reason: 'wrong payer' });
    expect((await shop.read('billing.readDesk', {})).depositsMinor).toBe(20_000);
    const second = await billJob(shop, jobId);
    // 903.90 less the 200.00 paid before
    expect((await shop.read('billing.readInvoice', { invoiceId: second })).totals.toPayMinor).toBe(70_390);
    expect((await shop.read('billing.readDesk', {})).depositsMinor).toBe(0);
  });

  it('that pays the whole job stays taken off by an invoice that asks for nothing', async () => {
    askPrepaymentInvoices(shop);
    const { jobId } = agreedJob(shop);
    shop.write('billing.takeDeposit', { jobId, amountMinor: 90_390, way: 'card' });
    await billJob(shop, jobId);
    expect((await shop.read('billing.readDesk', {})).depositsMinor).toBe(0);
  });
});

describe('goods billed beside the work', () => {
  it('take off neither a held deposit nor a prepayment invoice', async () => {
    const { jobId, customerId } = agreedJob(shop);
    shop.write('billing.takeDeposit', { jobId, amountMinor: 18_078, way: 'card' });
    askPrepaymentInvoices(shop);
    shop.write('billing.takeDeposit', { jobId, amountMinor: 20_000, way: 'card' });
    const lines = [{ text: 'Drying towel', quantity: 1, priceMinor: 1500 }];
    const goods = shop.write('billing.draftOther', { customerId, jobId, lines }).invoiceId;
    await issueDraft(shop, goods);
    expect(await shop.read('billing.readInvoice', { invoiceId: goods })).toMatchObject({
      prepaidMinor: 0,
      owedMinor: 1500,
    });
    const work = await billJob(shop, jobId);
    // 903.90 less 200.00 invoiced before and 180.78 held
    expect((await shop.read('billing.readInvoice', { invoiceId: work })).dueMinor).toBe(52_312);
  });
});

describe('credit notes for the same line', () => {
  it('together give back no more than the line has', async () => {
    const { jobId } = agreedJob(shop);
    const invoiceId = await billJob(shop, jobId);
    const credit = (...lines: { line: number; amountMinor: number }[]): Promise<unknown> =>
      shop.call('billing.creditInvoice', { invoiceId, lines, reason: 'left out' });
    // the first line is 170.00 of 903.90
    expect(await credit({ line: 0, amountMinor: 10_000 }, { line: 0, amountMinor: 7001 })).toMatchObject({
      error: { code: 'CREDIT_ABOVE_LINE' },
    });
    expect(await credit({ line: 0, amountMinor: 10_000 })).toMatchObject({ ok: true });
    expect(await credit({ line: 0, amountMinor: 7001 })).toMatchObject({
      error: { code: 'CREDIT_ABOVE_LINE', data: { lineMinor: 7000, askedMinor: 7001 } },
    });
    expect(await credit({ line: 0, amountMinor: 7000 }, { line: 1, amountMinor: 100 })).toMatchObject({
      ok: true,
    });
  });

  it('do not count for another line that reads the same', async () => {
    const { customerId } = agreedJob(shop);
    const towel = { text: 'Drying towel', quantity: 1, priceMinor: 1500 };
    const { invoiceId } = shop.write('billing.draftOther', { customerId, lines: [towel, towel] });
    await issueDraft(shop, invoiceId);
    const credit = (line: number): Promise<unknown> =>
      shop.call('billing.creditInvoice', {
        invoiceId,
        lines: [{ line, amountMinor: 1500 }],
        reason: 'brought back',
      });
    expect(await credit(0)).toMatchObject({ ok: true });
    expect(await credit(0)).toMatchObject({ error: { code: 'CREDIT_ABOVE_LINE' } });
    expect(await credit(1)).toMatchObject({ ok: true });
  });
});

describe('a job stopped half way that was quoted by time', () => {
  it('is billed by its time, and materials by the share that is done', async () => {
    const { jobId } = agreedJob(shop);
    const { raw } = shop.db;
    raw.prepare("UPDATE quote SET basis = 'byTime' WHERE job_id = ?").run(jobId);
    stopWith(shop, jobId, [1_000_000]);
    workOn(shop, stageIdsOf(shop, jobId)[0], 0, 90);
    const { invoiceId } = shop.write('billing.draftInvoice', { jobId });
    const { bill, totals } = await shop.read('billing.readInvoice', { invoiceId });
    // 90 min at 85.00 = 127.50; a wash of 85.00 of 807.50 is done: 96.40 × 85.00 / 807.50 = 10.15
    expect(bill.lines.map((l) => l.what)).toEqual(['labour.prepare', 'materials']);
    expect(totals.lineShownMinor).toEqual([12_750, 1015]);
  });
});

describe('the check of document numbers', () => {
  const problems = (): unknown => examine(shop.db).filter((f) => f.check === 'invoice.numbers');
  const restored = (): unknown => shop.db.raw.prepare('UPDATE issue_check SET ask = 1').run();
  it('knows the gaps that numbers read from paper leave, each of them', async () => {
    const one = (): InvoiceId =>
      shop.write('billing.draftInvoice', { jobId: agreedJob(shop).jobId }).invoiceId;
    await issueDraft(shop, one());
    restored();
    shop.write('billing.confirmNumber', { lastOnPaper: 417 });
    await issueDraft(shop, one());
    restored();
    shop.write('billing.confirmNumber', { lastOnPaper: 500 });
    await issueDraft(shop, one());
    expect(problems()).toEqual([]);
  });

  it('lets nobody move the series while nothing about it is in doubt', async () => {
    const confirm = (lastOnPaper: number) => refusalOf(shop, 'billing.confirmNumber', { lastOnPaper });
    // Before the first document, to go on from another program's papers; a slip is put right until one is issued.
    expect([await confirm(70), await confirm(7)]).toEqual(['accepted', 'accepted']);
    await billJob(shop, agreedJob(shop).jobId);
    expect(await confirm(900)).toBe('NUMBER_CERTAIN');
    restored();
    expect([await confirm(8), await confirm(900)]).toEqual(['accepted', 'NUMBER_CERTAIN']);
  });

  it('lets somebody look at the last paper where it finds a gap', async () => {
    const confirm = (lastOnPaper: number) => refusalOf(shop, 'billing.confirmNumber', { lastOnPaper });
    await billJob(shop, agreedJob(shop).jobId);
    restored();
    await confirm(20);
    await billJob(shop, agreedJob(shop).jobId);
    expect(await confirm(30)).toBe('NUMBER_CERTAIN');
    shop.db.raw.prepare("UPDATE issue_check SET read_nos = '[]'").run();
    expect(problems()).toMatchObject([{ values: { document: '21' } }]);
    expect(await confirm(30)).toBe('accepted');
  });
});

describe('a deposit on a day that is in doubt', () => {
  const DAY = 86_400_000;
  it('asks for the date of its prepayment invoice and takes the answer', async () => {
    askPrepaymentInvoices(shop);
    const { jobId } = agreedJob(shop);
    const taken = { jobId, amountMinor: 10_000, way: 'card' } as const;
    shop.write('billing.takeDeposit', taken);
    shop.at(TEST_NOW + 8 * DAY);
    expect(await shop.call('billing.takeDeposit', taken)).toMatchObject({
      error: { code: 'ISSUE_DATE_AHEAD' },
    });
    const invoiceId = shop.write('billing.takeDeposit', { ...taken, date: 'today' }).invoiceId as InvoiceId;
    expect((await shop.read('billing.readInvoice', { invoiceId })).issuedDay).toBe('2026-12-03');
  });

  it('ends with the last document’s day when the clock is behind, also with the job', async () => {
    askPrepaymentInvoices(shop);
    const [a, b] = [agreedJob(shop), agreedJob(shop)];
    for (const { jobId } of [a, b])
      shop.write('billing.takeDeposit', { jobId, amountMinor: 10_000, way: 'card' });
    shop.at(TEST_NOW - 2 * DAY);
    const how = { outcome: 'kept', way: 'card' } as const;
    expect(await shop.call('billing.settleDeposit', { jobId: a.jobId, ...how })).toMatchObject({
      error: { code: 'ISSUE_DATE_BEHIND' },
    });
    const fee = shop.write('billing.settleDeposit', { jobId: a.jobId, ...how, date: 'lastDay' });
    const invoiceId = fee.feeInvoiceId as InvoiceId;
    expect((await shop.read('billing.readInvoice', { invoiceId })).issuedDay).toBe('2026-11-25');
    const end = { jobId: b.jobId, reason: 'sold the car' };
    expect(await shop.call('bookings.cancelJob', { ...end, deposit: how })).toMatchObject({
      error: { code: 'ISSUE_DATE_BEHIND' },
    });
    shop.write('bookings.cancelJob', { ...end, deposit: { ...how, date: 'lastDay' } });
    expect((await shop.read('billing.readDesk', {})).depositsMinor).toBe(0);
  });
});

describe('hours at more than one rate', () => {
  // 2 h of washing and clay at 40.00, 7.5 h of the rest at 100.00: 80.00 + 750.00
  const twoRates = { labour: 83_000, rates: { wash: 4000, clay: 4000 }, rate: 10_000 } as const;
  const draft = async (jobId: JobId) => {
    const { invoiceId } = shop.write('billing.draftInvoice', { jobId });
    return shop.read('billing.readInvoice', { invoiceId });
  };

  it('are quoted line by line at the rate of each stage', async () => {
    const { jobId } = agreedJob(shop, twoRates);
    const { bill } = await draft(jobId);
    expect(bill.lines.map((l) => [l.what, l.priceMinor])).toEqual([
      ['labour.prepare', 8000],
      ['labour.mask', 5000],
      ['labour.cut', 30_000],
      ['labour.refine', 25_000],
      ['labour.finish', 15_000],
      ['materials', 9640],
    ]);
  });

  it('are billed half way by the money of what was done', async () => {
    const { jobId } = agreedJob(shop, twoRates);
    stopWith(shop, jobId, [1_000_000, 1_000_000]);
    // material 96.40 × 80.00 / 830.00 = 9.29
    expect((await draft(jobId)).totals.lineShownMinor).toEqual([8000, 929]);
  });

  it('are billed by time at the rate of each stage', async () => {
    const { jobId } = agreedJob(shop, twoRates);
    shop.db.raw.prepare("UPDATE quote SET basis = 'byTime' WHERE job_id = ?").run(jobId);
    const [wash, , , cut] = stageIdsOf(shop, jobId);
    workOn(shop, wash, 0, 90);
    workOn(shop, cut, 90, 150);
    // 90 min at 40.00, 60 min at 100.00
    expect((await draft(jobId)).totals.lineShownMinor).toEqual([6000, 10_000, 9640]);
  });

  it('are kept with the estimate as they stood on its day', async () => {
    shop.write('shop.setRate', { for: { applies: 'skill', skill: 'wash' }, hourMinor: 4000 });
    const { jobId } = addTestJob(shop);
    shop.write('estimate.provisional', { jobId, wish: 'full', condition: 'worn' });
    const [estimate] = await shop.read('estimate.ofJob', { jobId });
    expect(estimate?.price.rates).toMatchObject({ wash: 4000, cut: 8500 });
  });
});
