import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { InvoiceId } from '#core/shared/ids.ts';
import { addTestJob, agreedJob, quoteJob, stageIdsOf, testEstimate } from '../../helpers/billing.ts';
import { jobWith, planned } from '../../helpers/bookedJob.ts';
import { marksOf, pdfText } from '../../helpers/pdfText.ts';
import { openTestShop, TEST_NOW, type TestShop } from '../../helpers/shop.ts';

let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
  shop.db.raw.prepare("UPDATE shop SET locale = 'en-GB'").run();
});
afterEach(() => shop.close());

async function issued(more: Parameters<typeof agreedJob>[1] = {}): Promise<InvoiceId> {
  const { jobId } = agreedJob(shop, more);
  shop.write('billing.takeDeposit', { jobId, amountMinor: 18_078, way: 'card' });
  const { invoiceId } = shop.write('billing.draftInvoice', { jobId });
  shop.write('billing.issueInvoice', { invoiceId, revision: 1, aheadOfWork: true });
  return invoiceId;
}

describe('a quote on paper', () => {
  it('has both options side by side, what will not come out, its basis and its day', async () => {
    const { jobId } = addTestJob(shop, { name: 'Łucja Őszi-Žagar' });
    const quoteId = quoteJob(shop, jobId, [testEstimate(jobId), testEstimate(jobId, { labour: 114_750 })]);
    const file = await shop.read('billing.quoteFile', { quoteId });
    expect(file.fileName).toBe('quote-1-v1.pdf');
    const text = (await pdfText(file.bytes)).join(' ');
    for (const part of [
      'Quote 1',
      'Łucja Őszi-Žagar',
      'Velloy Merrin saloon',
      'good until 9 Dec 2026',
      'A · EUR',
      'B · EUR',
      '903.90',
      '1,243.90',
      'Etching on the left front door',
      'Likely refinished: right rear quarter',
      'The price is fixed',
      'Machine polishing takes clear coat',
      'Full: two steps or more',
    ])
      expect(text).toContain(part);
    expect((await marksOf(file.bytes)).alts.join()).toContain('two-step correction: bonnet');
  });

  it('for paint that nobody has seen promises no fixed price', async () => {
    const { jobId } = addTestJob(shop);
    const unseen = {
      ...testEstimate(jobId),
      limits: [{ key: 'unseen', panel: null, defect: null, data: {} } as const],
    };
    const quoteId = quoteJob(shop, jobId, [unseen]);
    const text = (await pdfText((await shop.read('billing.quoteFile', { quoteId })).bytes)).join(' ');
    expect(text).toContain('Until somebody has seen the paint these figures are an estimate');
    expect(text).not.toContain('The price is fixed');
  });

  it('promises no dates while those of the job are an inspection visit’s, and does once the work is booked', async () => {
    const { jobId } = addTestJob(shop);
    const quoteId = quoteJob(shop, jobId, [testEstimate(jobId)]);
    const { raw } = shop.db;
    raw
      .prepare('UPDATE job SET drop_off_min = ?, pick_up_min = ?, promise_ppm = 960000 WHERE id = ?')
      .run(29_700_000, 29_700_060, jobId);
    const text = async (): Promise<string> =>
      (await pdfText((await shop.read('billing.quoteFile', { quoteId })).bytes)).join(' ');
    shop.write('bookings.setStages', {
      jobId,
      basis: 'provisional',
      stages: [planned('inspection'), planned('wash')],
    });
    const [look, wash] = stageIdsOf(shop, jobId);
    raw
      .prepare(
        "INSERT INTO bay (id, name, kind, capacity, seq, started_day) VALUES ('b0000000000000000001', 'Bay 1', 'correction', 1, 1, '2016-01-01')",
      )
      .run();
    const place = (stageId: string | undefined): unknown =>
      raw
        .prepare(
          `INSERT INTO placement (job_id, stage_id, bay_id, person_id, start_min, end_min, dwell_end_min)
           VALUES (?, ?, 'b0000000000000000001', NULL, 29700000, 29700030, 29700030)`,
        )
        .run(jobId, stageId);
    place(look);
    expect(await text()).toContain('Dates are agreed when you book.');
    place(wash);
    const promised = await text();
    expect(promised).toContain('Drop-off');
    expect(promised).toContain('96 in 100 such jobs keep it');
  });

  it('says who agreed, once somebody has', async () => {
    const { jobId } = agreedJob(shop);
    const quote = await shop.read('billing.readJobQuote', { jobId });
    const file = await shop.read('billing.quoteFile', { quoteId: quote?.id ?? '' });
    expect((await pdfText(file.bytes)).join(' ')).toContain('Option A agreed by Marit Vane, in person');
  });

  it('goes on over further pages when there are forty limits, and loses none', async () => {
    const { jobId } = addTestJob(shop);
    const base = testEstimate(jobId);
    const limits = Array.from({ length: 40 }, (_, i) => ({
      key: 'override' as const,
      panel: 'bo' as const,
      defect: null,
      data: { person: `Person ${i + 1}`, reason: 'seen and agreed' },
    }));
    const quoteId = quoteJob(shop, jobId, [{ ...base, limits: limits as unknown as typeof base.limits }]);
    const pages = await pdfText((await shop.read('billing.quoteFile', { quoteId })).bytes);
    expect(pages.length).toBeGreaterThan(1);
    expect(pages.join(' ')).toContain('Person 40');
  });
});

describe('the job card on paper', () => {
  it('writes figures as the shop does, like every other paper', async () => {
    const { jobId } = jobWith(shop, ['wash', 'cut']);
    const text = async (): Promise<string> =>
      (await pdfText((await shop.read('bookings.cardFile', { jobId })).bytes)).join(' ').replace(/\s+/g, ' ');
    expect(await text()).toContain('1.0 h');
    shop.db.raw.prepare("UPDATE shop SET locale = 'en-DE'").run();
    expect(await text()).toContain('1,0 h');
    expect(await text()).not.toMatch(/\d\.\d h/);
  });
});

describe('an invoice on paper', () => {
  it('has number, dates, tax by rate, the deposit taken off and what is left', async () => {
    const file = await shop.read('billing.invoiceFile', { invoiceId: await issued() });
    expect(file.fileName).toBe('invoice-1.pdf');
    const text = (await pdfText(file.bytes)).join(' ');
    for (const part of [
      'Invoice 1',
      '25 Nov 2026',
      'VAT 19 % on 759.58',
      '144.32',
      '€903.90',
      '−180.78',
      '€723.12',
    ])
      expect(text.replaceAll(' ', ' ')).toContain(part);
  });

  it('has a column of prices only where a line has a price', async () => {
    const text = async (invoiceId: InvoiceId): Promise<string> =>
      (await pdfText((await shop.read('billing.invoiceFile', { invoiceId })).bytes)).join(' ');
    const words = (t: string): boolean => /quantity\s+price/.test(t);
    const agreed = await issued();
    expect(words(await text(agreed))).toBe(false);
    const { customerId } = addTestJob(shop);
    const lines = [{ text: 'Drying towel', quantity: 2, priceMinor: 1500 }];
    expect(words(await text(shop.write('billing.draftOther', { customerId, lines }).invoiceId))).toBe(true);
  });

  it('as a draft says that it is not an invoice', async () => {
    const { jobId } = agreedJob(shop);
    const { invoiceId } = shop.write('billing.draftInvoice', { jobId });
    const file = await shop.read('billing.invoiceFile', { invoiceId });
    expect((await pdfText(file.bytes)).join(' ')).toContain('Draft, not an invoice');
  });

  it('as a credit note names the document it corrects', async () => {
    const invoiceId = await issued();
    const credit = shop.write('billing.creditInvoice', { invoiceId, lines: null, reason: 'wrong payer' });
    const text = (
      await pdfText((await shop.read('billing.invoiceFile', { invoiceId: credit.invoiceId })).bytes)
    ).join(' ');
    expect(text).toContain('Credit note 2');
    expect(text).toContain('Corrects document 1');
    expect(text).toContain('−€903.90');
  });

  it('has the same bytes each time it is printed', async () => {
    const invoiceId = await issued();
    const [a, b] = [
      await shop.read('billing.invoiceFile', { invoiceId }),
      await shop.read('billing.invoiceFile', { invoiceId }),
    ];
    expect(Buffer.from(a.bytes).equals(Buffer.from(b.bytes))).toBe(true);
  });
});

describe('what is sent', () => {
  it('a receipt names money, way and who took it', async () => {
    const { jobId } = agreedJob(shop);
    const { receipt } = shop.write('billing.takeDeposit', { jobId, amountMinor: 18_078, way: 'cash' });
    const text = (await pdfText((await shop.read('billing.receiptFile', { receipt })).bytes)).join(' ');
    for (const part of ['Receipt 1', 'Deposit, job 1', 'cash', '€180.78', 'Received by The owner'])
      expect(text).toContain(part);
  });

  it('a reminder names what is late and is refused where nothing is', async () => {
    const invoiceId = await issued();
    const early = await shop.call('billing.reminderFile', { invoiceId, level: 1 });
    expect(early).toMatchObject({ ok: false, error: { code: 'NOT_OVERDUE' } });
    shop.at(TEST_NOW + 20 * 86_400_000);
    const text = (
      await pdfText((await shop.read('billing.reminderFile', { invoiceId, level: 2 })).bytes)
    ).join(' ');
    for (const part of ['Reminder 2', 'invoice 1', '9 Dec 2026', '6 days late', '€723.12'])
      expect(text).toContain(part);
  });

  it('an invoice of free lines counts pieces', async () => {
    const { customerId } = addTestJob(shop);
    const lines = [{ text: 'Drying cloth', quantity: 3, priceMinor: 999 }];
    const { invoiceId } = shop.write('billing.draftOther', { customerId, lines });
    shop.write('billing.issueInvoice', { invoiceId, revision: 1, aheadOfWork: true });
    const invoice = await shop.read('billing.readInvoice', { invoiceId });
    expect(invoice.totals.toPayMinor).toBe(2997);
    const text = (await pdfText((await shop.read('billing.invoiceFile', { invoiceId })).bytes)).join(' ');
    expect(text).toContain('Drying cloth 3 9.99 29.97');
  });

  it('a message is unsent, addressed, and carries the very PDF', async () => {
    const invoiceId = await issued();
    const mail = await shop.read('billing.emailDraft', { of: 'invoice', invoiceId });
    const pdf = await shop.read('billing.invoiceFile', { invoiceId });
    const [head = '', ...rest] = new TextDecoder().decode(mail.bytes).split('\r\n\r\n');
    expect(head).toContain('X-Unsent: 1');
    expect(head).toContain('To: marit.vane@example.org');
    expect(head).toContain('Subject: Invoice 1');
    expect(head.split('\r\n').every((line) => line.length <= 998)).toBe(true);
    const attached = Buffer.from(rest.at(-1)?.split('\r\n--')[0] ?? '', 'base64');
    expect(attached.equals(Buffer.from(pdf.bytes))).toBe(true);
  });

  it('a message to nobody has no To, and a name with umlauts and line breaks cannot add headers', async () => {
    shop.db.raw
      .prepare(
        "UPDATE shop SET name = 'Käfer' || char(13) || char(10) || 'Bcc: all@example.org', email = 'desk@example.org'",
      )
      .run();
    const { jobId } = addTestJob(shop, { email: '' });
    const quoteId = quoteJob(shop, jobId, [testEstimate(jobId)]);
    const mail = await shop.read('billing.emailDraft', { of: 'quote', quoteId });
    const head = new TextDecoder().decode(mail.bytes).split('\r\n\r\n')[0] ?? '';
    expect(head).not.toMatch(/^To:/m);
    expect(head).not.toMatch(/^Bcc:/m);
    expect(head).toMatch(/^From: =\?utf-8\?B\?/m);
  });
});
