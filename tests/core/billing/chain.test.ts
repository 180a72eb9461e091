import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { InvoiceId } from '#core/shared/ids.ts';
import {
  addTestJob,
  agreedJob,
  askPrepaymentInvoices,
  billJob,
  bookingsOf,
  issueDraft,
  quoteJob,
  refusalOf,
  stopWith,
  testEstimate,
} from '../../helpers/billing.ts';
import { openTestShop, TEST_NOW, type TestShop } from '../../helpers/shop.ts';

const DAY = 86_400_000;
let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
});
afterEach(() => shop.close());

const refusal = (name: string, input: unknown): Promise<string> => refusalOf(shop, name, input);
const issue = (invoiceId: InvoiceId): Promise<number> => issueDraft(shop, invoiceId);

describe('a quote', () => {
  it('keeps its options word for word and takes lines that sum to the estimate', async () => {
    const { jobId } = addTestJob(shop);
    const quoteId = quoteJob(shop, jobId, [testEstimate(jobId), testEstimate(jobId, { labour: 114_750 })]);
    const quote = await shop.read('billing.readQuote', { quoteId });
    expect(quote).toMatchObject({ number: 1, version: 1, state: 'draft', validUntilDay: '2026-12-09' });
    const [a, b] = quote.options;
    // 807.50 labour + 96.40 material, tax included; a fifth of it as deposit (180.78)
    expect(a?.totals.toPayMinor).toBe(90_390);
    expect(a?.depositMinor).toBe(18_078);
    expect(b?.totals.toPayMinor).toBe(124_390);
    // 120 of 570 minutes: 807.50 × 120 / 570 = 170.00
    expect(a?.bill.lines[0]).toMatchObject({ what: 'labour.prepare', quantity: 120, priceMinor: 17_000 });
  });

  it('an accepted version stands until the customer agrees to the next, and its stages become the plan', async () => {
    const { jobId } = agreedJob(shop);
    const second = quoteJob(
      shop,
      jobId,
      [testEstimate(jobId, { labour: 90_000 })],
      'the test spot took longer',
    );
    expect((await shop.read('billing.readQuote', { quoteId: second })).versions).toMatchObject([
      { version: 2, state: 'draft' },
      { version: 1, state: 'accepted' },
    ]);
    expect(shop.db.raw.prepare('SELECT count(*) AS n FROM job_stage WHERE job_id = ?').get(jobId)).toEqual({
      n: 6,
    });
    expect((await shop.read('billing.readJobMoney', { jobId })).quotedMinor).toBe(90_390);
    shop.write('billing.acceptQuote', {
      quoteId: second,
      revision: 1,
      letter: 'A',
      name: 'M. Vane',
      way: 'telephone',
    });
    const after = await shop.read('billing.readQuote', { quoteId: second });
    expect(after.acceptance).toEqual({ letter: 'A', name: 'M. Vane', way: 'telephone', atMs: TEST_NOW });
    expect(after.versions).toMatchObject([{ state: 'accepted' }, { state: 'replaced' }]);
    expect((await shop.read('billing.readJobMoney', { jobId })).quotedMinor).toBe(99_640);
  });

  it('past its day is agreed only knowingly, and an unknown option not at all', async () => {
    const { jobId } = addTestJob(shop);
    const quoteId = quoteJob(shop, jobId, [testEstimate(jobId)]);
    const input = { quoteId, revision: 1, letter: 'A', name: 'Marit Vane', way: 'email' } as const;
    shop.at(TEST_NOW + 15 * DAY);
    expect(await refusal('billing.acceptQuote', input)).toBe('QUOTE_LAPSED');
    expect(await refusal('billing.acceptQuote', { ...input, letter: 'C', knowingly: true })).toBe(
      'OPTION_UNKNOWN',
    );
    expect(await refusal('billing.acceptQuote', { ...input, name: ' ' })).toBe('BAD_INPUT');
    expect(await refusal('billing.acceptQuote', { ...input, knowingly: true })).toBe('accepted');
    expect(await refusal('billing.declineQuote', { quoteId, revision: 2 })).toBe('QUOTE_STATE');
  });

  it('an agreed or quoted option cannot be changed in the database', () => {
    const { jobId } = agreedJob(shop);
    expect(() => shop.db.raw.prepare('UPDATE quote_option SET to_pay_minor = 1').run()).toThrow(
      /kept as it was/,
    );
    expect(jobId).not.toBe('');
  });
});

describe('from deposit to paid', () => {
  it('a deposit is held, taken off the invoice, and the rest is paid in parts', async () => {
    const { jobId } = agreedJob(shop);
    shop.write('billing.takeDeposit', { jobId, amountMinor: 18_078, way: 'card' });
    expect((await shop.read('billing.readDesk', {})).depositsMinor).toBe(18_078);
    const { invoiceId } = shop.write('billing.draftInvoice', { jobId });
    expect(await issue(invoiceId)).toBe(1);
    const invoice = await shop.read('billing.readInvoice', { invoiceId });
    // 903.90 with 19 %: tax 144.32, net 759.58
    expect(invoice.totals).toMatchObject({ netMinor: 75_958, taxMinor: 14_432, toPayMinor: 90_390 });
    expect(invoice).toMatchObject({
      prepaidMinor: 18_078,
      dueMinor: 72_312,
      owedMinor: 72_312,
      dueDay: '2026-12-09',
    });
    const part = { invoiceIds: [invoiceId], way: 'cash' as const };
    expect(shop.write('billing.takePayment', { ...part, amountMinor: 50_000 }).owedMinor).toBe(22_312);
    expect(await refusal('billing.takePayment', { ...part, amountMinor: 23_000 })).toBe('MONEY_ABOVE_OWED');
    const last = shop.write('billing.takePayment', { ...part, amountMinor: 23_000, surplus: 'tip' });
    expect(last).toMatchObject({ appliedMinor: 22_312, surplusMinor: 688, owedMinor: 0 });
    const desk = await shop.read('billing.readDesk', {});
    expect(desk.takings).toEqual([
      { way: 'card', amountMinor: 18_078 },
      { way: 'cash', amountMinor: 73_000 },
    ]);
    expect(desk.ageing.owedMinor).toBe(0);
    expect(desk.depositsMinor).toBe(0);
  });

  it('one payment settles several invoices of a payer, and never those of two payers', async () => {
    const [a, b, c] = [agreedJob(shop), agreedJob(shop), agreedJob(shop)];
    shop.db.raw.prepare('UPDATE job SET payer_id = ? WHERE id IN (?, ?)').run(a.customerId, a.jobId, b.jobId);
    const ids = [a, b, c].map((j) => shop.write('billing.draftInvoice', { jobId: j.jobId }).invoiceId);
    for (const id of ids) await issue(id);
    const money = { amountMinor: 100_000, way: 'transfer' } as const;
    expect(await refusal('billing.takePayment', { ...money, invoiceIds: ids })).toBe('INVOICES_OF_SEVERAL');
    // 903.90 goes to the first, 96.10 to the second.
    expect(shop.write('billing.takePayment', { ...money, invoiceIds: ids.slice(0, 2) }).owedMinor).toBe(
      80_780,
    );
  });

  it('prices before tax: a prepayment invoice is taken off by a negative line and tax is counted once', async () => {
    const settings = JSON.stringify({
      billing: { depositForm: 'prepaymentInvoice', pricesIncludeTax: false },
    });
    shop.db.raw.prepare('UPDATE shop SET settings = ?').run(settings);
    const { jobId } = agreedJob(shop, { taxIncluded: false });
    // 903.90 + 19 % = 171.741 → 171.74: 1,075.64
    const taken = shop.write('billing.takeDeposit', { jobId, amountMinor: 21_513, way: 'card' });
    expect(taken.invoiceId).not.toBeNull();
    const invoiceId = await billJob(shop, jobId);
    const invoice = await shop.read('billing.readInvoice', { invoiceId });
    expect(invoice.totals.toPayMinor).toBe(107_564 - 21_513);
    expect(invoice.bill.lines.at(-1)).toMatchObject({ what: 'deposit', quantity: -1 });
    const report = await shop.read('billing.readTaxReport', { fromDay: '2026-11-01', toDay: '2026-11-30' });
    expect(report.taxableMinor + report.taxMinor).toBeGreaterThanOrEqual(107_562);
    expect(Math.abs(report.taxMinor - 17_174)).toBeLessThanOrEqual(1);
  });
});

describe('issued documents', () => {
  it('never change, in the program or in the database', async () => {
    const { jobId } = agreedJob(shop);
    const invoiceId = await billJob(shop, jobId);
    const change = { invoiceId, revision: 2, lines: [] };
    expect(await refusal('billing.changeDraft', change)).toBe('INVOICE_ISSUED');
    expect(await refusal('billing.dropDraft', { invoiceId, revision: 2 })).toBe('INVOICE_ISSUED');
    expect(await refusal('billing.issueInvoice', { invoiceId, revision: 2, aheadOfWork: true })).toBe(
      'INVOICE_ISSUED',
    );
    const raw = shop.db.raw;
    expect(() => raw.prepare('UPDATE invoice SET to_pay_minor = 1').run()).toThrow(/never changes/);
    expect(() => raw.prepare('DELETE FROM invoice').run()).toThrow(/kept/);
    expect(() => raw.prepare('UPDATE invoice_tax SET tax_minor = 0').run()).toThrow(/never changes/);
    shop.write('billing.takePayment', { invoiceIds: [invoiceId], amountMinor: 100, way: 'cash' });
    expect(() => raw.prepare('UPDATE payment SET amount_minor = 1').run()).toThrow(/append-only/);
    expect(() => raw.prepare('DELETE FROM allocation').run()).toThrow(/append-only/);
  });

  it('have numbers without gaps even when somebody writes past the program', async () => {
    const { jobId } = agreedJob(shop);
    const { invoiceId } = shop.write('billing.draftInvoice', { jobId });
    expect(() =>
      shop.db.raw
        .prepare(
          `UPDATE invoice SET number = 7, issued_ms = 1, issued_day = '2026-11-25', due_day = '2026-11-25', parties = '{}'`,
        )
        .run(),
    ).toThrow(/no gaps/);
    expect(await issue(invoiceId)).toBe(1);
  });

  it('are corrected by credit notes, after which money is paid back and not more', async () => {
    const { jobId } = agreedJob(shop);
    const invoiceId = await billJob(shop, jobId);
    shop.write('billing.takePayment', { invoiceIds: [invoiceId], amountMinor: 90_390, way: 'card' });
    const credit = { invoiceId, lines: [{ line: 0, amountMinor: 7000 }], reason: 'one panel left out' };
    expect(shop.write('billing.creditInvoice', credit).number).toBe(2);
    expect((await shop.read('billing.readInvoice', { invoiceId })).owedMinor).toBe(-7000);
    const back = { from: 'invoice', id: invoiceId, way: 'card' } as const;
    expect(await refusal('billing.refund', { ...back, amountMinor: 7001 })).toBe('REFUND_ABOVE_PAID');
    shop.write('billing.refund', { ...back, amountMinor: 7000 });
    expect((await shop.read('billing.readInvoice', { invoiceId })).owedMinor).toBe(0);
    shop.write('billing.creditInvoice', { ...credit, lines: null });
    expect((await shop.read('billing.readInvoice', { invoiceId })).owedMinor).toBe(-83_390);
    expect(await refusal('billing.creditInvoice', { ...credit, lines: null })).toBe('NOTHING_TO_CREDIT');
  });

  it('a whole credit note leaves nothing of the tax', async () => {
    const { jobId } = agreedJob(shop);
    const invoiceId = await billJob(shop, jobId);
    shop.write('billing.creditInvoice', { invoiceId, lines: null, reason: 'wrong payer' });
    const period = { fromDay: '2026-11-25', toDay: '2026-11-25' };
    expect(await shop.read('billing.readTaxReport', period)).toMatchObject({ taxableMinor: 0, taxMinor: 0 });
    expect(shop.write('billing.draftInvoice', { jobId }).invoiceId).not.toBe(invoiceId);
  });

  it('a clock behind the last document, or far ahead of it, stops and asks', async () => {
    const [a, b] = [agreedJob(shop), agreedJob(shop)];
    await issue(shop.write('billing.draftInvoice', { jobId: a.jobId }).invoiceId);
    const { invoiceId } = shop.write('billing.draftInvoice', { jobId: b.jobId });
    const input = { invoiceId, revision: 1, aheadOfWork: true };
    shop.at(TEST_NOW - 2 * DAY);
    expect(await refusal('billing.issueInvoice', input)).toBe('ISSUE_DATE_BEHIND');
    shop.at(TEST_NOW + 8 * DAY);
    expect(await refusal('billing.issueInvoice', input)).toBe('ISSUE_DATE_AHEAD');
    expect(shop.write('billing.issueInvoice', { ...input, date: 'today' })).toMatchObject({
      number: 2,
      issuedDay: '2026-12-03',
    });
  });

  it('after a restore the number goes on from the last paper', async () => {
    const { jobId } = agreedJob(shop);
    const { invoiceId } = shop.write('billing.draftInvoice', { jobId });
    shop.db.raw.prepare('UPDATE issue_check SET ask = 1').run();
    expect(await refusal('billing.issueInvoice', { invoiceId, revision: 1, aheadOfWork: true })).toBe(
      'NUMBER_TO_CONFIRM',
    );
    expect(shop.write('billing.confirmNumber', { lastOnPaper: 417 }).next).toBe(418);
    expect(await issue(invoiceId)).toBe(418);
    expect(await refusal('billing.confirmNumber', { lastOnPaper: 417 })).toBe('PAPER_NUMBER_TOO_LOW');
  });
});

describe('a cancelled job', () => {
  it('keeps its deposit as a fee with an invoice of its own', async () => {
    const { jobId } = agreedJob(shop);
    shop.write('billing.takeDeposit', { jobId, amountMinor: 18_078, way: 'card' });
    const done = shop.write('billing.settleDeposit', { jobId, outcome: 'kept', way: 'card' });
    expect(done).toMatchObject({ feeMinor: 18_078, returnedMinor: 0 });
    const invoiceId = done.feeInvoiceId as InvoiceId;
    expect(await shop.read('billing.readInvoice', { invoiceId })).toMatchObject({
      dueMinor: 0,
      owedMinor: 0,
    });
    expect(await refusal('billing.settleDeposit', { jobId, outcome: 'kept', way: 'card' })).toBe(
      'NO_DEPOSIT_HELD',
    );
  });

  it('gives it back less a fee, or moves it to another job', async () => {
    const { jobId } = agreedJob(shop);
    const other = agreedJob(shop);
    shop.write('billing.takeDeposit', { jobId, amountMinor: 18_000, way: 'cash' });
    shop.write('billing.settleDeposit', {
      jobId,
      outcome: 'moved',
      feeMinor: 3000,
      way: 'cash',
      toJobId: other.jobId,
    });
    const { deposits } = await shop.read('billing.readDesk', {});
    expect(deposits).toMatchObject([{ jobId: other.jobId, heldMinor: 15_000 }]);
    shop.write('billing.settleDeposit', { jobId: other.jobId, outcome: 'returned', way: 'cash' });
    expect((await shop.read('billing.readDesk', {})).depositsMinor).toBe(0);
  });

  it('credits a prepayment invoice before its money goes back, so that no tax is left', async () => {
    askPrepaymentInvoices(shop);
    const { jobId } = agreedJob(shop);
    shop.write('billing.takeDeposit', { jobId, amountMinor: 18_000, way: 'card' });
    shop.write('billing.settleDeposit', { jobId, outcome: 'returned', way: 'card' });
    const desk = await shop.read('billing.readDesk', {});
    expect([desk.depositsMinor, desk.ageing.owedMinor, desk.takingsMinor]).toEqual([0, 0, 0]);
    const period = { fromDay: '2026-11-25', toDay: '2026-11-25' };
    expect((await shop.read('billing.readTaxReport', period)).taxMinor).toBe(0);
  });
});

describe('a job stopped half way', () => {
  it('is billed by the named share of each stage', async () => {
    const { jobId } = agreedJob(shop);
    stopWith(shop, jobId, [1_000_000, 1_000_000, 1_000_000, 500_000]);
    const { invoiceId } = shop.write('billing.draftInvoice', { jobId });
    const { bill } = await shop.read('billing.readInvoice', { invoiceId });
    // 85.00 an hour: 2 h, 0.5 h, half of 3 h; material 96.40 × 340.00 / 807.50 = 40.59
    expect(bill.lines.map((l) => [l.what, l.priceMinor])).toEqual([
      ['labour.prepare', 17_000],
      ['labour.mask', 4250],
      ['labour.cut', 12_750],
      ['materials', 4059],
    ]);
  });
});

describe('the journal and the tax report', () => {
  it('balance to the cent over every kind of booking, and agree with each other', async () => {
    const [a, b, c] = [agreedJob(shop), agreedJob(shop), agreedJob(shop)];
    shop.write('billing.takeDeposit', { jobId: a.jobId, amountMinor: 18_078, way: 'card' });
    const first = await billJob(shop, a.jobId);
    shop.write('billing.takePayment', {
      invoiceIds: [first],
      amountMinor: 80_000,
      way: 'cash',
      surplus: 'credit',
    });
    const second = await billJob(shop, b.jobId);
    shop.write('billing.creditInvoice', { invoiceId: second, lines: null, reason: 'not done' });
    shop.write('billing.takeDeposit', { jobId: c.jobId, amountMinor: 10_000, way: 'transfer' });
    shop.write('billing.settleDeposit', {
      jobId: c.jobId,
      outcome: 'returned',
      feeMinor: 2500,
      way: 'transfer',
    });
    const file = await shop.read('billing.journalFile', { fromDay: '2026-11-25', toDay: '2026-11-25' });
    const rows = bookingsOf(file.bytes);
    const debits = rows.reduce((t, r) => t + r.debitMinor, 0);
    expect(rows.length).toBeGreaterThan(10);
    expect(debits).toBe(rows.reduce((t, r) => t + r.creditMinor, 0));
    const taxOwed = rows.filter((r) => r.account === 'taxOwed');
    const booked = taxOwed.reduce((t, r) => t + r.creditMinor - r.debitMinor, 0);
    const report = await shop.read('billing.readTaxReport', { fromDay: '2026-11-25', toDay: '2026-11-25' });
    expect(booked).toBe(report.taxMinor);
    const paid = await shop.read('billing.readTaxReport', {
      fromDay: '2026-11-25',
      toDay: '2026-11-25',
      basis: 'payment',
    });
    // What was invoiced and not credited is paid: 144.32 on 903.90 and 3.99 on the fee of 25.00.
    expect([paid.taxMinor, report.taxMinor]).toEqual([14_831, 14_831]);
    expect(await refusal('billing.readTaxReport', { fromDay: '2026-12-01', toDay: '2026-11-01' })).toBe(
      'PERIOD_REVERSED',
    );
  });
});
