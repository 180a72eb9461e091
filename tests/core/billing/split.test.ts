import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { agreedLine } from '#core/billing/rules/quoteLines.ts';
import { partMinor, splitBill } from '#core/billing/rules/split.ts';
import { sum, totalsOf } from '#core/billing/rules/totals.ts';
import type { Bill, LineTax } from '#core/shared/bill.ts';
import type { CustomerId, InvoiceId, JobId } from '#core/shared/ids.ts';
import type { Minor } from '#core/shared/units.ts';
import {
  addTestJob,
  agreedJob,
  askPrepaymentInvoices,
  bookingsOf,
  issueDraft,
  refusalOf,
} from '../../helpers/billing.ts';
import { pdfText } from '../../helpers/pdfText.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';

const tax = (ratePpm: number): LineTax => ({
  ...{ code: 'standard', name: 'VAT', reason: '', ratePpm },
  category: ratePpm === 0 ? 'Z' : 'S',
});
const WORDS = { part: 'part', rest: 'rest' };

it('whatever the bill, the taxes and the part: both sum to the whole, each adds up, and tax differs by a unit a rate', () => {
  const line = fc.record({
    amount: fc.integer({ min: 1, max: 900_000 }),
    ratePpm: fc.constantFrom(0, 70_000, 88_750, 190_000, 200_000),
  });
  fc.assert(
    fc.property(
      fc.array(line, { minLength: 1, maxLength: 6 }),
      fc.integer({ min: 1, max: 999_999 }),
      fc.boolean(),
      (lines, sharePpm, taxIncluded) => {
        const bill: Bill = {
          lines: lines.map((l) => agreedLine('labour.cut', 'Cut', 60, l.amount as Minor, tax(l.ratePpm))),
          extras: [],
          taxIncluded,
        };
        const whole = totalsOf(bill);
        const asked = partMinor(whole.toPayMinor, { by: 'share', sharePpm });
        fc.pre(asked > 0 && asked < whole.toPayMinor);
        const both = Object.values(splitBill(bill, whole, asked, WORDS)).map((one) => one.totals);
        expect(sum(both.map((t) => t.toPayMinor))).toBe(whole.toPayMinor);
        for (const t of both) expect(t.netMinor + t.taxMinor + t.roundingMinor).toBe(t.toPayMinor);
        for (const t of both) expect(Math.abs(t.roundingMinor)).toBeLessThanOrEqual(2 * whole.taxes.length);
        const rates = whole.taxes.length;
        expect(Math.abs(sum(both.map((t) => t.taxMinor)) - whole.taxMinor)).toBeLessThanOrEqual(rates);
        if (!taxIncluded) expect(sum(both.map((t) => t.netMinor))).toBe(whole.netMinor);
      },
    ),
  );
});

let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
});
afterEach(() => shop.close());

/** A job of 903.90 that another pays for. */
function insuredJob(taxIncluded = true): { readonly jobId: JobId; readonly payerId: CustomerId } {
  const { customerId: payerId } = addTestJob(shop, { name: 'Tallow Mutual' });
  const { jobId } = agreedJob(shop, { taxIncluded });
  shop.db.raw.prepare('UPDATE job SET payer_id = ? WHERE id = ?').run(payerId, jobId);
  return { jobId, payerId };
}
const read = (invoiceId: string) => shop.read('billing.readInvoice', { invoiceId });
const EXCESS = { by: 'sum', amountMinor: 30_000 } as const;

/** A line that takes off what another pays. */
function shareLine({ lines }: Bill): Bill['lines'][number] {
  const [line] = lines;
  if (!line) throw new Error('no line');
  return { ...line, what: 'share', text: 'part', quantity: -1, per: 1, priceMinor: 30_000 };
}

async function splitOf(jobId: JobId) {
  const { invoiceId } = shop.write('billing.draftInvoice', { jobId });
  const { shareId } = shop.write('billing.splitDraft', { invoiceId, revision: 1, part: EXCESS });
  return { restId: invoiceId, shareId };
}

describe('a bill that two pay', () => {
  it('is two invoices with numbers of their own, that sum to what was agreed', async () => {
    const { restId, shareId } = await splitOf(insuredJob().jobId);
    expect(await issueDraft(shop, shareId)).toBe(1);
    expect(await issueDraft(shop, restId)).toBe(2);
    const [rest, share] = [await read(restId), await read(shareId)];
    expect([rest.customer.name, share.customer.name]).toEqual(['Tallow Mutual', 'Marit Vane']);
    // 807.50 of labour and 96.40 of material, of which the owner pays 300.00
    expect([rest.owedMinor, share.owedMinor]).toEqual([60_390, 30_000]);
    expect(rest.split).toMatchObject({ number: 1, customer: 'Marit Vane', toPayMinor: 30_000 });
    const books = bookingsOf(
      (await shop.read('billing.journalFile', { fromDay: '2026-11-25', toDay: '2026-11-25' })).bytes,
    );
    expect(sum(books.map((b) => b.debitMinor - b.creditMinor))).toBe(0);
    expect((await shop.read('billing.readDesk', {})).toBill).toEqual([]);
  });

  it('is exact before tax too, and its UBL has the owner’s part at a quantity below zero', async () => {
    shop.write('shop.update', { revision: 1, country: 'DE', taxNumber: 'DE000000000' });
    const { restId, shareId } = await splitOf(insuredJob(false).jobId);
    await issueDraft(shop, restId);
    await issueDraft(shop, shareId);
    const [rest, share] = [await read(restId), await read(shareId)];
    expect(rest.totals.netMinor + share.totals.netMinor).toBe(90_390);
    expect(rest.totals.toPayMinor + share.totals.toPayMinor).toBe(Math.round(90_390 * 1.19));
    expect(share.totals.toPayMinor).toBe(30_000);
    const ubl = new TextDecoder().decode((await shop.read('billing.ublFile', { invoiceId: restId })).bytes);
    expect(ubl).toMatch(/<cbc:InvoicedQuantity unitCode="\w+">-1<\/cbc:InvoicedQuantity>/);
    const pdf = await shop.read('billing.invoiceFile', { invoiceId: restId });
    expect((await pdfText(pdf.bytes)).join(' ')).toContain('Part paid by Marit Vane');
  });

  it('takes a deposit off the owner’s part alone, whichever is issued first; what is above it can be given back', async () => {
    for (const restFirst of [true, false]) {
      const { jobId } = insuredJob();
      shop.write('billing.takeDeposit', { jobId, amountMinor: 35_000, way: 'card' });
      const { restId, shareId } = await splitOf(jobId);
      for (const id of restFirst ? [restId, shareId] : [shareId, restId]) await issueDraft(shop, id);
      expect([(await read(restId)).prepaidMinor, (await read(shareId)).prepaidMinor]).toEqual([0, 30_000]);
      expect([(await read(restId)).owedMinor, (await read(shareId)).owedMinor]).toEqual([60_390, 0]);
      const held = (await shop.read('billing.readDesk', {})).deposits;
      const own = held.find((one) => one.jobId === jobId);
      expect([own?.heldMinor, own?.over]).toEqual([5000, true]);
    }
  });

  it('holds a deposit for the owner’s part while that is a draft, though the rest is issued', async () => {
    const { jobId } = insuredJob();
    const { restId, shareId } = await splitOf(jobId);
    await issueDraft(shop, restId);
    shop.write('billing.takeDeposit', { jobId, amountMinor: 10_000, way: 'card' });
    const held = (await shop.read('billing.readDesk', {})).deposits;
    expect(held.map((one) => one.over)).toEqual([false]);
    await issueDraft(shop, shareId);
    expect((await read(shareId)).prepaidMinor).toBe(10_000);
    const more = { jobId, amountMinor: 100, way: 'card' };
    expect(await refusalOf(shop, 'billing.takeDeposit', more)).toBe('DEPOSIT_BILLED');
  });

  it('takes no deposit invoice while a half is a draft, and none may wait when a half is issued', async () => {
    const { jobId } = insuredJob();
    const { restId, shareId } = await splitOf(jobId);
    askPrepaymentInvoices(shop);
    const deposit = { jobId, amountMinor: 70_000, way: 'card' };
    expect(await refusalOf(shop, 'billing.takeDeposit', deposit)).toBe('DEPOSIT_SPLIT');
    shop.write('billing.dropDraft', { invoiceId: shareId, revision: 1 });
    shop.write('billing.takeDeposit', { jobId, amountMinor: 70_000, way: 'card' });
    // As a copy of the shop from before the rule may hold it.
    const stored = await read(restId);
    const lines = [...stored.bill.lines.filter((l) => l.what !== 'deposit'), shareLine(stored.bill)];
    shop.db.raw
      .prepare('UPDATE invoice SET bill = ? WHERE id = ?')
      .run(JSON.stringify({ ...stored.bill, lines }), restId);
    const { revision, totals } = await read(restId);
    expect(totals.toPayMinor).toBeGreaterThan(0);
    expect(
      await refusalOf(shop, 'billing.issueInvoice', { invoiceId: restId, revision, aheadOfWork: true }),
    ).toBe('SPLIT_PREPAID');
  });

  it('is one bill again when the owner’s draft is removed, and none when the other is', async () => {
    const { jobId } = insuredJob();
    const { restId, shareId } = await splitOf(jobId);
    shop.write('billing.dropDraft', { invoiceId: shareId, revision: 1 });
    expect((await read(restId)).totals.toPayMinor).toBe(90_390);
    const again = shop.write('billing.splitDraft', { invoiceId: restId, revision: 3, part: EXCESS });
    shop.write('billing.dropDraft', { invoiceId: restId, revision: 4 });
    expect(await refusalOf(shop, 'billing.readInvoice', { invoiceId: again.shareId })).toBe('NOT_FOUND');
  });

  it('keeps its lines while it is split, and its order number may still be written', async () => {
    const { restId } = await splitOf(insuredJob().jobId);
    const { bill, revision } = await read(restId);
    const change = { invoiceId: restId, revision, lines: [...bill.lines], extras: [...bill.extras] };
    const fewer = { ...change, lines: change.lines.slice(1) };
    expect(await refusalOf(shop, 'billing.changeDraft', fewer)).toBe('INVOICE_SPLIT');
    shop.write('billing.changeDraft', { ...change, orderNumber: 'CLAIM 88' });
    expect((await read(restId)).orderNumber).toBe('CLAIM 88');
  });

  const credit = (invoiceId: InvoiceId) =>
    shop.write('billing.creditInvoice', { invoiceId, lines: null, reason: 'wrong payer' });
  const draftAgain = (jobId: JobId) => shop.write('billing.draftInvoice', { jobId }).invoiceId;
  const toBill = async () => [
    (await shop.read('billing.readDesk', {})).toBill.length,
    (await shop.read('bookings.jobs', { list: 'toBill' })).rows.length,
  ];

  it.each(['rest', 'part'] as const)('asks for the %s again where that alone was credited', async (which) => {
    const { jobId, payerId } = insuredJob();
    shop.db.raw.prepare("UPDATE job SET state = 'collected' WHERE id = ?").run(jobId);
    const { restId, shareId } = await splitOf(jobId);
    await issueDraft(shop, restId);
    await issueDraft(shop, shareId);
    expect(await toBill()).toEqual([0, 0]);
    expect(await refusalOf(shop, 'billing.draftInvoice', { jobId })).toBe('JOB_ALREADY_BILLED');
    const [gone, other] = which === 'rest' ? [restId, shareId] : [shareId, restId];
    credit(gone);
    expect(await toBill()).toEqual([1, 1]);
    const dropped = draftAgain(jobId);
    expect(draftAgain(jobId)).toBe(dropped);
    shop.write('billing.dropDraft', { invoiceId: dropped, revision: 1 });
    const again = draftAgain(jobId);
    await issueDraft(shop, again);
    expect(await toBill()).toEqual([0, 0]);
    const [made, stays] = [await read(again), await read(other)];
    expect(made.customer.id === payerId).toBe(which === 'rest');
    expect(made.totals.toPayMinor + stays.totals.toPayMinor).toBe(90_390);
    expect([made.split?.id, stays.split?.id]).toEqual([other, again]);
    expect(await refusalOf(shop, 'billing.draftInvoice', { jobId })).toBe('JOB_ALREADY_BILLED');
    for (const id of [other, again]) credit(id);
    expect((await read(draftAgain(jobId))).totals.toPayMinor).toBe(90_390);
  });

  it('lets the draft beside a credited half go, whichever it is, and then bills the whole', async () => {
    for (const first of ['rest', 'part'] as const) {
      const { jobId } = insuredJob();
      const { restId, shareId } = await splitOf(jobId);
      const [gone, draft] = first === 'rest' ? [restId, shareId] : [shareId, restId];
      await issueDraft(shop, gone);
      const { revision } = await read(draft);
      const drop = { invoiceId: draft, revision };
      expect(await refusalOf(shop, 'billing.dropDraft', drop)).toBe('INVOICE_SPLIT');
      credit(gone);
      expect(draftAgain(jobId)).toBe(draft);
      const { bill } = await read(draft);
      const again = { ...drop, part: EXCESS };
      expect(await refusalOf(shop, 'billing.splitDraft', again)).toBe('INVOICE_SPLIT');
      const changed = { ...drop, lines: bill.lines.slice(0, 1), extras: [], orderNumber: '', note: '' };
      expect(await refusalOf(shop, 'billing.changeDraft', changed)).toBe('accepted');
      shop.write('billing.dropDraft', { ...drop, revision: revision + 1 });
      expect((await read(draftAgain(jobId))).totals.toPayMinor).toBe(90_390);
    }
  });

  it('is refused for one payer, for all or more, twice, and with a deposit invoice still to be taken off', async () => {
    const alone = agreedJob(shop);
    const own = shop.write('billing.draftInvoice', { jobId: alone.jobId });
    const split = (invoiceId: string, revision: number, amountMinor: number) =>
      refusalOf(shop, 'billing.splitDraft', { invoiceId, revision, part: { by: 'sum', amountMinor } });
    expect(await split(own.invoiceId, 1, 100)).toBe('SPLIT_ONE_PAYER');
    const { jobId } = insuredJob();
    const { invoiceId } = shop.write('billing.draftInvoice', { jobId });
    expect(await split(invoiceId, 1, 90_390)).toBe('SPLIT_ABOVE');
    const all = { invoiceId, revision: 1, part: { by: 'share', sharePpm: 1_000_000 } };
    expect(await refusalOf(shop, 'billing.splitDraft', all)).toBe('SPLIT_ABOVE');
    expect(await split(invoiceId, 1, 100)).toBe('accepted');
    expect(await split(invoiceId, 2, 100)).toBe('INVOICE_SPLIT');
    shop.db.raw
      .prepare('UPDATE shop SET settings = ?')
      .run(JSON.stringify({ billing: { depositForm: 'prepaymentInvoice' } }));
    const third = insuredJob();
    shop.write('billing.takeDeposit', { jobId: third.jobId, amountMinor: 1000, way: 'card' });
    const draft = shop.write('billing.draftInvoice', { jobId: third.jobId });
    expect(await split(draft.invoiceId, 1, 100)).toBe('SPLIT_PREPAID');
  });
});

/** What the paper says that is attached to a message. */
async function attachedText(mail: Uint8Array): Promise<string> {
  const found = /application\/pdf[\s\S]*?\r\n\r\n([A-Za-z0-9+/=\r\n]+)/.exec(new TextDecoder().decode(mail));
  return (await pdfText(new Uint8Array(Buffer.from(found?.[1] ?? '', 'base64')))).join(' ');
}

describe('a document printed again', () => {
  it('says so from the second time on, when and by whom, and each print is kept', async () => {
    const { jobId } = agreedJob(shop);
    const { invoiceId } = shop.write('billing.draftInvoice', { jobId });
    expect(await refusalOf(shop, 'billing.notePrint', { invoiceId })).toBe('INVOICE_NOT_ISSUED');
    await issueDraft(shop, invoiceId);
    const paper = async () =>
      (await pdfText((await shop.read('billing.invoiceFile', { invoiceId })).bytes)).join(' ');
    expect(await paper()).not.toContain('Copy');
    expect(await paper()).not.toContain('Copy');
    expect(shop.write('billing.notePrint', { invoiceId }).times).toBe(1);
    expect((await paper()).replace(/\s+/g, ' ')).toMatch(/Copy, printed again .*25.* by The owner/);
    expect(shop.write('billing.notePrint', { invoiceId }).times).toBe(2);
    const { bytes: mail } = await shop.read('billing.emailDraft', { of: 'invoice', invoiceId });
    expect(await attachedText(mail)).toContain('Invoice 1');
    expect(await attachedText(mail)).not.toContain('Copy');
    expect((await read(invoiceId)).prints.map((p) => p.by)).toEqual(['The owner', 'The owner']);
    expect(() => shop.db.raw.exec('DELETE FROM paper_print')).toThrow('prints are append-only');
  });
});
