import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { examine } from '#core/doctor/doctor.ts';
import { ublOf } from '#core/documents/ubl.ts';
import type { InvoiceId, JobId } from '#core/shared/ids.ts';
import { PPM, type Ppm } from '#core/shared/units.ts';
import { marginRows } from '#core/views/margin.ts';
import {
  addTestJob,
  agreedJob,
  askPrepaymentInvoices,
  bookingsOf,
  issueDraft,
  quoteJob,
  refusalOf,
  stageIdsOf,
  stopWith,
  testEstimate,
} from '../../helpers/billing.ts';
import { pdfText } from '../../helpers/pdfText.ts';
import { openTestShop, TEST_NOW, type TestShop } from '../../helpers/shop.ts';

const DAY = '2026-11-25';
const PERIOD = { fromDay: DAY, toDay: DAY };
let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
});
afterEach(() => shop.close());

const read = (invoiceId: string) => shop.read('billing.readInvoice', { invoiceId });
const plan = (jobId: JobId, shares: unknown = null) =>
  shop.read('billing.readPartialPlan', { jobId, shares } as never);

/** The first stages of a job are finished. */
function finish(jobId: JobId, stages: number): void {
  const done = shop.db.raw.prepare("UPDATE job_stage SET state = 'done' WHERE id = ?");
  for (const id of stageIdsOf(shop, jobId).slice(0, stages)) done.run(id);
}
function ready(jobId: JobId): void {
  shop.db.raw.prepare("UPDATE job SET state = 'ready', ready_ms = ? WHERE id = ?").run(TEST_NOW, jobId);
}
const upTo = (sharePpm: number, lines = 6) =>
  Array.from({ length: lines }, (_, line) => ({ line, sharePpm: sharePpm as Ppm }));
/** A partial invoice of all lines up to a share, issued. */
async function billUpTo(jobId: JobId, sharePpm: number): Promise<InvoiceId> {
  const { invoiceId } = shop.write('billing.draftPartial', { jobId, shares: upTo(sharePpm) });
  await issueDraft(shop, invoiceId);
  return invoiceId;
}
async function draftRest(jobId: JobId) {
  const { invoiceId } = shop.write('billing.draftInvoice', { jobId });
  return read(invoiceId);
}
const SUM = { agreed: 90_390 };

describe('a partial invoice', () => {
  it('is proposed by the stages finished, bills each once, and the final one bills the rest', async () => {
    const { jobId } = agreedJob(shop);
    expect((await plan(jobId)).nowMinor).toBe(0);
    expect(await refusalOf(shop, 'billing.draftPartial', { jobId })).toBe('PARTIAL_NOTHING');
    finish(jobId, 3);
    // 807.50 over 9.5 h: 2 h of washing and clay are 170.00, half an hour of masking 42.50; 212.50 of 807.50 of the material.
    const proposed = await plan(jobId);
    expect(proposed.lines.map((l) => l.nowMinor)).toEqual([17_000, 4250, 0, 0, 0, 2537]);
    expect([proposed.nowMinor, proposed.restMinor, proposed.aheadOfWork]).toEqual([23_787, 66_603, false]);
    const { invoiceId } = shop.write('billing.draftPartial', { jobId });
    expect(await refusalOf(shop, 'billing.draftPartial', { jobId })).toBe('PARTIAL_DRAFTED');
    expect(await refusalOf(shop, 'billing.issueInvoice', { invoiceId, revision: 1 })).toBe('accepted');
    const first = await read(invoiceId);
    expect(first).toMatchObject({ kind: 'partial', number: 1, suppliedDay: DAY, dueDay: '2026-12-09' });
    expect(first.progress).toEqual({ nth: 1, wholeMinor: SUM.agreed, restMinor: 66_603 });
    expect(await refusalOf(shop, 'billing.draftPartial', { jobId })).toBe('PARTIAL_NOTHING');
    finish(jobId, 4);
    const second = await billUpTo(jobId, 500_000);
    expect((await read(second)).before).toEqual([{ id: invoiceId, number: 1, day: DAY, toPayMinor: 23_787 }]);
    ready(jobId);
    expect((await shop.read('billing.readDesk', {})).toBill).toMatchObject([
      { agreedMinor: SUM.agreed, partlyMinor: 23_787 + (await read(second)).totals.toPayMinor },
    ]);
    const rest = await draftRest(jobId);
    await issueDraft(shop, rest.id);
    const last = await read(rest.id);
    const all = [first, await read(second), last];
    expect(all.reduce((t, d) => t + d.totals.toPayMinor, 0)).toBe(SUM.agreed);
    expect(all.reduce((t, d) => t + d.totals.taxMinor, 0)).toBe(14_432);
    expect(all.reduce((t, d) => t + d.totals.netMinor, 0)).toBe(75_958);
    expect(last.before.map((b) => b.number)).toEqual([1, 2]);
    expect((await shop.read('billing.readDesk', {})).toBill).toEqual([]);
    expect(await refusalOf(shop, 'billing.draftPartial', { jobId })).toBe('JOB_ALREADY_BILLED');
    const report = await shop.read('billing.readTaxReport', { ...PERIOD, basis: 'invoice' });
    expect(report.rows).toMatchObject([{ taxableMinor: 75_958, taxMinor: 14_432 }]);
    const books = bookingsOf((await shop.read('billing.journalFile', PERIOD)).bytes);
    const on = (account: string) =>
      books.filter((b) => b.account === account).reduce((t, b) => t + b.debitMinor - b.creditMinor, 0);
    expect([on('receivables'), on('revenue'), on('taxOwed')]).toEqual([SUM.agreed, -75_958, -14_432]);
    expect(
      examine(shop.db)
        .map((f) => f.check)
        .filter((check) => check !== 'job.dates'),
    ).toEqual([]);
    // The margin of the job counts its net once.
    shop.db.raw
      .prepare("UPDATE job SET state = 'collected', collected_ms = ? WHERE id = ?")
      .run(TEST_NOW, jobId);
    expect(marginRows(shop.db, 0, TEST_NOW + 1)).toMatchObject([{ netMinor: 75_958 }]);
  });

  it('asks before it bills a line further than its stages are finished', async () => {
    const { jobId } = agreedJob(shop);
    finish(jobId, 2);
    const shares = [
      { line: 0, sharePpm: PPM as Ppm },
      { line: 2, sharePpm: 100_000 as Ppm },
    ];
    expect((await plan(jobId, shares)).aheadOfWork).toBe(true);
    const { invoiceId } = shop.write('billing.draftPartial', { jobId, shares });
    const input = { invoiceId, revision: 1 };
    expect(await refusalOf(shop, 'billing.issueInvoice', input)).toBe('PARTIAL_AHEAD_OF_WORK');
    finish(jobId, 4);
    expect(await refusalOf(shop, 'billing.issueInvoice', input)).toBe('accepted');
  });

  it('keeps its lines, and is not issued once another quote was agreed or the rest is billed', async () => {
    const { jobId } = agreedJob(shop);
    const { invoiceId } = shop.write('billing.draftPartial', { jobId, shares: upTo(300_000) });
    const { bill } = await read(invoiceId);
    const bare = bill.lines.map(({ ofPart: _, ...line }) => line);
    const change = { invoiceId, revision: 1, lines: bare, orderNumber: 'PO 7', note: 'as agreed' };
    expect(await refusalOf(shop, 'billing.changeDraft', { ...change, lines: bare.slice(1) })).toBe(
      'PARTIAL_LINES',
    );
    expect(await refusalOf(shop, 'billing.changeDraft', change)).toBe('accepted');
    expect((await read(invoiceId)).orderNumber).toBe('PO 7');
    const quoteId = quoteJob(shop, jobId, [testEstimate(jobId, { labour: 90_000 })], 'more');
    const yes = { quoteId, revision: 1, letter: 'A', name: 'Marit Vane', way: 'spoken' } as const;
    shop.write('billing.acceptQuote', yes);
    const issue = { invoiceId, revision: 2, aheadOfWork: true };
    expect(await refusalOf(shop, 'billing.issueInvoice', issue)).toBe('PARTIAL_REQUOTED');
    shop.write('billing.dropDraft', { invoiceId, revision: 2 });
    const again = shop.write('billing.draftPartial', { jobId, shares: upTo(300_000) });
    await issueDraft(shop, (await draftRest(jobId)).id);
    const late = { invoiceId: again.invoiceId, revision: 1, aheadOfWork: true };
    expect(await refusalOf(shop, 'billing.issueInvoice', late)).toBe('JOB_ALREADY_BILLED');
  });

  it('counts on the lines of a new version of the quote', async () => {
    const { jobId } = agreedJob(shop);
    await billUpTo(jobId, 500_000);
    const quoteId = quoteJob(shop, jobId, [testEstimate(jobId, { labour: 100_000 })], 'more');
    const yes = { quoteId, revision: 1, letter: 'A', name: 'Marit Vane', way: 'spoken' } as const;
    shop.write('billing.acceptQuote', yes);
    const again = await plan(jobId, upTo(PPM));
    expect([again.wholeMinor, again.nowMinor, again.restMinor]).toEqual([109_640, 109_640 - 45_195, 0]);
    expect((await draftRest(jobId)).totals.toPayMinor).toBe(109_640 - 45_195);
  });

  it('is for a job with an agreed quote, and one that is not billed with others', async () => {
    const { jobId } = addTestJob(shop);
    expect(await refusalOf(shop, 'billing.draftPartial', { jobId })).toBe('PARTIAL_NOT_AGREED');
    const agreed = agreedJob(shop);
    await billUpTo(agreed.jobId, 500_000);
    const { customerId } = agreed;
    const collective = { customerId, jobs: [{ jobId: agreed.jobId }] };
    expect(await refusalOf(shop, 'billing.draftCollective', collective)).toBe('COLLECTIVE_PARTIAL');
  });
});

describe('in the file', () => {
  it('no part of a line is billed twice, and the invoice of the rest takes every partial one off', async () => {
    const { jobId } = agreedJob(shop);
    const invoiceId = await billUpTo(jobId, 900_000);
    const copy = shop.db.raw.prepare(
      `INSERT INTO partial_line (invoice_id, partial_id, quote_id, letter, line, amount_minor)
       SELECT ?, partial_id, quote_id, letter, line, ? FROM partial_line WHERE line = 0 AND invoice_id = ?`,
    );
    const { id: rest } = await draftRest(jobId);
    // 170.00 of washing, of which 153.00 is billed
    expect(() => copy.run(rest, 1701, invoiceId)).toThrow('no part of a line is billed twice');
    expect(() => copy.run(rest, -15_301, invoiceId)).toThrow('no part of a line is billed twice');
    expect(() => shop.db.raw.exec('DELETE FROM partial_line')).toThrow('never changes');
    const issue = `UPDATE invoice SET number = 2, issued_ms = 0, issued_day = '2026-11-25', due_day = '2026-11-25',
      parties = '{}' WHERE id = ?`;
    expect(() => shop.db.raw.prepare(issue).run(rest)).toThrow('takes off what was billed before');
    expect(
      await refusalOf(shop, 'billing.issueInvoice', { invoiceId: rest, revision: 1, aheadOfWork: true }),
    ).toBe('accepted');
  });
});

describe('what comes off and what goes back', () => {
  it('a credit note releases what it takes: all of it, or of one line', async () => {
    const { jobId } = agreedJob(shop);
    const invoiceId = await billUpTo(jobId, 500_000);
    shop.write('billing.creditInvoice', {
      invoiceId,
      lines: [{ line: 0, amountMinor: 2500 }],
      reason: 'less',
    });
    const billed = (await plan(jobId, upTo(0))).lines.map((l) => l.billedMinor);
    expect(billed[0]).toBe(6000);
    expect((await draftRest(jobId)).totals.toPayMinor).toBe(90_390 - 45_195 + 2500);
    shop.write('billing.creditInvoice', { invoiceId, lines: null, reason: 'wrong' });
    expect((await plan(jobId, upTo(0))).lines.every((l) => l.billedMinor === 0)).toBe(true);
    expect((await draftRest(jobId)).totals.toPayMinor).toBe(90_390);
    await billUpTo(jobId, PPM);
    const rest = await draftRest(jobId);
    expect(rest.totals.toPayMinor).toBe(0);
    await issueDraft(shop, rest.id);
    // The final one credited, what it took off is open again and the next takes it off.
    shop.write('billing.creditInvoice', { invoiceId: rest.id, lines: null, reason: 'wrong payer' });
    const again = await draftRest(jobId);
    expect([again.id === rest.id, again.totals.toPayMinor]).toEqual([false, 0]);
    await issueDraft(shop, again.id);
    expect(
      examine(shop.db)
        .map((f) => f.check)
        .filter((check) => check !== 'job.dates'),
    ).toEqual([]);
  });

  it('where the work was stopped and comes to less, a credit note is proposed and nothing is issued below zero', async () => {
    const { jobId } = agreedJob(shop);
    const early = await billUpTo(jobId, 300_000);
    const late = await billUpTo(jobId, 800_000);
    stopWith(shop, jobId, [PPM, PPM, PPM]);
    ready(jobId);
    const rest = await draftRest(jobId);
    // Of 723.12 billed 485.25 were not done: cutting, refining, protecting, and their part of the material.
    expect(rest.billedAbove?.aboveMinor).toBe(72_312 - 23_787);
    expect(rest.billedAbove?.credits.map((c) => c.invoiceId)).toEqual([late, early]);
    expect(rest.billedAbove?.credits.flatMap((c) => c.lines.map((l) => l.line)).includes(0)).toBe(false);
    const issue = { invoiceId: rest.id, revision: 1 };
    expect(await shop.call('billing.issueInvoice', issue)).toMatchObject({
      error: { code: 'PARTIALS_ABOVE', data: { number: 2, aboveMinor: rest.billedAbove?.aboveMinor } },
    });
    for (const { invoiceId, lines } of rest.billedAbove?.credits ?? [])
      shop.write('billing.creditInvoice', { invoiceId, lines, reason: 'stopped half way' } as never);
    const after = await read(rest.id);
    expect([after.billedAbove, after.totals.toPayMinor]).toEqual([null, 0]);
    expect(await refusalOf(shop, 'billing.issueInvoice', issue)).toBe('accepted');
    // 170.00, 42.50 and 25.37 of the material are done of it.
    const money = await shop.read('billing.readJobMoney', { jobId });
    expect([money.invoicedMinor, money.partlyMinor]).toEqual([23_787, null]);
  });

  it('a deposit above all that is left for the final invoice comes off the partial one', async () => {
    const { jobId } = agreedJob(shop);
    shop.write('billing.takeDeposit', { jobId, amountMinor: 20_000, way: 'card' });
    const most = await read(await billUpTo(jobId, 900_000));
    // 90.39 is left for the final one: 109.61 of the deposit is above it.
    expect([most.totals.toPayMinor, most.prepaidMinor, most.owedMinor]).toEqual([81_351, 10_961, 70_390]);
    const rest = await draftRest(jobId);
    expect([rest.totals.toPayMinor, rest.prepaidMinor, rest.dueMinor]).toEqual([9039, 9039, 0]);
    askPrepaymentInvoices(shop);
    const other = agreedJob(shop).jobId;
    shop.write('billing.takeDeposit', { jobId: other, amountMinor: 20_000, way: 'card' });
    const ask = { jobId: other, shares: upTo(900_000) };
    expect(await refusalOf(shop, 'billing.draftPartial', ask)).toBe('PARTIAL_PREPAID');
  });

  it.each(['payment', 'prepaymentInvoice'] as const)(
    'a deposit as %s comes off the final one beside it',
    async (form) => {
      if (form === 'prepaymentInvoice') askPrepaymentInvoices(shop);
      const { jobId } = agreedJob(shop);
      shop.write('billing.takeDeposit', { jobId, amountMinor: 20_000, way: 'card' });
      await billUpTo(jobId, 500_000);
      const rest = await draftRest(jobId);
      expect(rest.dueMinor).toBe(90_390 - 45_195 - 20_000);
      await issueDraft(shop, rest.id);
      expect((await read(rest.id)).owedMinor).toBe(25_195);
    },
  );

  it('of a split bill the payer’s rest takes it off, and a half credited is made again as it was', async () => {
    const { customerId: payerId } = addTestJob(shop, { name: 'Tallow Mutual' });
    const { jobId } = agreedJob(shop);
    shop.db.raw.prepare('UPDATE job SET payer_id = ? WHERE id = ?').run(payerId, jobId);
    const partial = await billUpTo(jobId, 500_000);
    expect((await read(partial)).customer.name).toBe('Tallow Mutual');
    const { invoiceId } = shop.write('billing.draftInvoice', { jobId });
    const split = (amountMinor: number) => ({ invoiceId, revision: 1, part: { by: 'sum', amountMinor } });
    expect(await refusalOf(shop, 'billing.splitDraft', split(45_195))).toBe('SPLIT_ABOVE');
    const { shareId } = shop.write('billing.splitDraft', split(30_000) as never);
    await issueDraft(shop, shareId);
    await issueDraft(shop, invoiceId);
    expect([(await read(invoiceId)).totals.toPayMinor, (await read(shareId)).totals.toPayMinor]).toEqual([
      15_195, 30_000,
    ]);
    shop.write('billing.creditInvoice', { invoiceId, lines: null, reason: 'address' });
    const again = await draftRest(jobId);
    expect(again.totals.toPayMinor).toBe(15_195);
    await issueDraft(shop, again.id);
  });
});

describe('on paper', () => {
  it('it says which one it is, what was billed before and what remains; the last one is the final invoice', async () => {
    shop.write('shop.update', { revision: 1, country: 'DE', taxNumber: 'DE000000000' });
    const { jobId, customerId } = agreedJob(shop, { taxIncluded: false });
    shop.db.raw.prepare("UPDATE customer SET country = 'DE' WHERE id = ?").run(customerId);
    await billUpTo(jobId, 250_000);
    const second = await billUpTo(jobId, 600_000);
    const paper = async (id: InvoiceId): Promise<string> => {
      const { bytes, fileName } = await shop.read('billing.invoiceFile', { invoiceId: id });
      return `${fileName} ${(await pdfText(bytes)).join(' ').replace(/\s+/g, ' ')}`;
    };
    const text = await paper(second);
    for (const said of [
      'partial-2.pdf',
      'Partial invoice 2',
      'Partial invoice no. 2 of this job',
      'Cut: 60',
      '25',
    ])
      expect(text).toContain(said);
    for (const said of ['Agreed in all', 'partial invoice 1 of', 'Still to be billed'])
      expect(text).toContain(said);
    const rest = await draftRest(jobId);
    await issueDraft(shop, rest.id);
    expect(await paper(rest.id)).toContain('Final invoice 3');
    expect(await paper(rest.id)).toContain('Billed before, partial invoice 1 of');
    expect(ublOf(await read(second))).toContain('<cbc:InvoiceTypeCode>326</cbc:InvoiceTypeCode>');
    const xml = ublOf(await read(rest.id));
    expect(xml).toContain('<cbc:InvoiceTypeCode>380</cbc:InvoiceTypeCode>');
    expect(xml.match(/<cac:BillingReference>/g)).toHaveLength(2);
    expect(xml).toContain(`<cbc:ID>1</cbc:ID><cbc:IssueDate>${DAY}</cbc:IssueDate>`);
    const statement = await shop.read('billing.readStatement', { customerId, ...PERIOD });
    expect(statement.entries.map((e) => e.what)).toEqual(['invoice', 'partial', 'partial']);
    expect(statement.closingMinor).toBe(107_564);
  });
});
