import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { newInvoice } from '#core/billing/commands/invoices.ts';
import { issueRow } from '#core/billing/commands/issue.ts';
import { collectiveBill } from '#core/billing/rules/collective.ts';
import { prepaymentBill } from '#core/billing/rules/deposit.ts';
import { agreedLine } from '#core/billing/rules/quoteLines.ts';
import { sum, totalsOf } from '#core/billing/rules/totals.ts';
import type { Bill, LineTax } from '#core/shared/bill.ts';
import type { CustomerId, InvoiceId, JobId } from '#core/shared/ids.ts';
import type { Minor } from '#core/shared/units.ts';
import { marginRows } from '#core/views/margin.ts';
import { addTestJob, agreedJob, ctxOf, issueDraft, refusalOf } from '../../helpers/billing.ts';
import { pdfText } from '../../helpers/pdfText.ts';
import { openTestShop, TEST_NOW, type TestShop } from '../../helpers/shop.ts';

const tax = (ratePpm: number): LineTax => ({
  ...{ code: 'standard', name: 'VAT', reason: '', ratePpm },
  category: ratePpm === 0 ? 'Z' : 'S',
});

it('whatever the jobs: with tax the one invoice asks for what they ask for, before tax its net is theirs', () => {
  const line = fc.record({
    amount: fc.integer({ min: 1, max: 400_000 }),
    rate: fc.constantFrom(0, 70_000, 190_000),
  });
  const jobs = fc.array(fc.array(line, { minLength: 1, maxLength: 4 }), { minLength: 1, maxLength: 8 });
  fc.assert(
    fc.property(jobs, fc.boolean(), (all, taxIncluded) => {
      const bills = all.map(
        (lines): Bill => ({
          lines: lines.map((l) => agreedLine('labour.cut', 'Cut', 60, l.amount as Minor, tax(l.rate))),
          extras: [],
          taxIncluded,
        }),
      );
      const one = totalsOf(
        collectiveBill(bills.map((bill, i) => ({ jobId: `j${i}` as JobId, text: 'job', bill }))),
      );
      const own = bills.map(totalsOf);
      if (taxIncluded) expect(one.toPayMinor).toBe(sum(own.map((t) => t.toPayMinor)));
      else expect(one.netMinor).toBe(sum(own.map((t) => t.netMinor)));
      expect(sum(one.lineNetMinor)).toBe(one.netMinor);
    }),
  );
});

let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
});
afterEach(() => shop.close());

/** Jobs of several owners that one fleet pays for, all ready. */
function fleetJobs(
  count: number,
  more: { readonly taxIncluded?: boolean } = {},
): { readonly fleet: CustomerId; readonly jobs: readonly JobId[] } {
  const { customerId: fleet } = addTestJob(shop, { name: 'Larch Haulage' });
  const jobs = Array.from({ length: count }, () => agreedJob(shop, more).jobId);
  const ready = shop.db.raw.prepare(
    "UPDATE job SET payer_id = ?, state = 'collected', ready_ms = ?, collected_ms = ? WHERE id = ?",
  );
  for (const id of jobs) ready.run(fleet, TEST_NOW, TEST_NOW, id);
  return { fleet, jobs };
}
/** A prepayment invoice of which nothing was paid: nothing is held, and yet it is to be taken off. */
function prepaymentUnpaid(jobId: JobId, customerId: CustomerId): void {
  const ctx = ctxOf(shop);
  const bill = prepaymentBill(10_000 as Minor, 'Deposit', tax(190_000));
  const totals = totalsOf(bill);
  const made = newInvoice(ctx, { kind: 'prepayment', jobId, customerId, bill, totals });
  issueRow(ctx, made, 'ask');
}
async function discount(invoiceId: InvoiceId, amountMinor: number): Promise<void> {
  const { bill, revision } = await shop.read('billing.readInvoice', { invoiceId });
  const [line] = bill.lines;
  const extras = line ? [{ text: 'Discount', amountMinor: -amountMinor, tax: line.tax }] : [];
  const said = { orderNumber: '', note: '' };
  shop.write('billing.changeDraft', { invoiceId, revision, lines: [...bill.lines], extras, ...said });
}
const asked = (jobs: readonly JobId[]) =>
  jobs.map((jobId, i) => ({ jobId, orderNumber: i === 0 ? 'PO 4711' : '' }));

describe('one invoice for the jobs of a fleet', () => {
  it('has a line for each with its order number, and leaves nothing to bill', async () => {
    const { fleet, jobs } = fleetJobs(3);
    expect((await shop.read('billing.readDesk', {})).toBill.map((j) => j.payerId)).toEqual([
      fleet,
      fleet,
      fleet,
    ]);
    const { invoiceId } = shop.write('billing.draftCollective', { customerId: fleet, jobs: asked(jobs) });
    expect((await shop.read('billing.readDesk', {})).toBill).toEqual([]);
    await issueDraft(shop, invoiceId);
    const invoice = await shop.read('billing.readInvoice', { invoiceId });
    expect([invoice.customer.name, invoice.totals.toPayMinor]).toEqual(['Larch Haulage', 3 * 90_390]);
    expect(invoice.bill.lines.map((l) => l.ofJob)).toEqual(jobs);
    const paper = (await pdfText((await shop.read('billing.invoiceFile', { invoiceId })).bytes)).join(' ');
    expect(paper.replace(/\s+/g, ' ')).toContain('order PO 4711');
    expect(paper).not.toContain('quantity');
    const rows = await shop.read('billing.readJobInvoices', { jobId: jobs[1] as JobId });
    expect(rows.map((r) => r.id)).toEqual([invoiceId]);
    expect((await shop.read('bookings.jobs', { list: 'toBill' })).rows).toEqual([]);
  });

  it('is each job’s own money: what it asks, what is paid of it, what is open', async () => {
    const { fleet, jobs } = fleetJobs(3);
    const { invoiceId } = shop.write('billing.draftCollective', { customerId: fleet, jobs: asked(jobs) });
    const moneyOf = async (jobId: JobId) => {
      const { money } = await shop.read('bookings.job', { jobId });
      return [money.invoicedMinor, money.paidMinor, money.owedMinor];
    };
    const inHand = async () => (await shop.read('bookings.hand', { jobIds: [...jobs] })).map((f) => f.money);
    const unpaid = async () =>
      (await shop.read('bookings.jobs', { list: 'unpaid' })).rows.map((r) => r.owedMinor);
    expect(await moneyOf(jobs[0] as JobId)).toEqual([null, null, null]);
    await issueDraft(shop, invoiceId);
    expect(await moneyOf(jobs[0] as JobId)).toEqual([90_390, null, 90_390]);
    expect(await inHand()).toEqual(jobs.map(() => ({ kind: 'owed', minor: 90_390 })));
    expect(await unpaid()).toEqual([90_390, 90_390, 90_390]);
    shop.write('billing.creditInvoice', {
      invoiceId,
      lines: [{ line: 0, amountMinor: 90_390 }],
      reason: 'haze',
    });
    expect(await Promise.all(jobs.map(moneyOf))).toEqual([
      [0, null, 0],
      [90_390, null, 90_390],
      [90_390, null, 90_390],
    ]);
    const pay = (amountMinor: number) =>
      shop.write('billing.takePayment', { invoiceIds: [invoiceId], amountMinor, way: 'card' });
    pay(90_390);
    expect(await Promise.all(jobs.slice(1).map(moneyOf))).toEqual([
      [90_390, 45_195, 45_195],
      [90_390, 45_195, 45_195],
    ]);
    pay(90_390);
    expect(await unpaid()).toEqual([]);
    expect((await inHand())[1]).toEqual({ kind: 'paid', minor: 90_390 });
  });

  it('is shared before tax too, and with a discount on the whole', async () => {
    const { fleet, jobs } = fleetJobs(2, { taxIncluded: false });
    const { invoiceId } = shop.write('billing.draftCollective', { customerId: fleet, jobs: asked(jobs) });
    await discount(invoiceId, 10_000);
    await issueDraft(shop, invoiceId);
    const job = await shop.read('bookings.job', { jobId: jobs[1] as JobId });
    expect(job.money.owedMinor).toBe(Math.round((90_390 - 5000) * 1.19));
  });

  it('bills a job anew once all of its own line was credited, and that job alone', async () => {
    const { fleet, jobs } = fleetJobs(2);
    const { invoiceId } = shop.write('billing.draftCollective', { customerId: fleet, jobs: asked(jobs) });
    await issueDraft(shop, invoiceId);
    const credit = (line: number, amountMinor: number) =>
      shop.write('billing.creditInvoice', { invoiceId, lines: [{ line, amountMinor }], reason: 'haze' });
    const toBill = async () => [
      (await shop.read('billing.readDesk', {})).toBill.map((j) => j.jobId),
      (await shop.read('bookings.jobs', { list: 'toBill' })).rows.map((j) => j.id),
    ];
    credit(0, 90_000);
    expect(await toBill()).toEqual([[], []]);
    credit(0, 390);
    expect(await toBill()).toEqual([[jobs[0]], [jobs[0]]]);
    expect(await refusalOf(shop, 'billing.draftInvoice', { jobId: jobs[1] })).toBe('JOB_ALREADY_BILLED');
    const own = shop.write('billing.draftCollective', { customerId: fleet, jobs: asked(jobs.slice(0, 1)) });
    expect(own.invoiceId).not.toBe(invoiceId);
    shop.write('billing.dropDraft', { invoiceId: own.invoiceId, revision: 1 });
    const { invoiceId: ownId } = shop.write('billing.draftInvoice', { jobId: jobs[0] as JobId });
    await issueDraft(shop, ownId);
    expect(await toBill()).toEqual([[], []]);
  });

  it('keeps the line of each job while it is a draft; a discount, number and note may be written', async () => {
    const { fleet, jobs } = fleetJobs(2);
    const { invoiceId } = shop.write('billing.draftCollective', { customerId: fleet, jobs: asked(jobs) });
    const { bill, revision } = await shop.read('billing.readInvoice', { invoiceId });
    const change = { invoiceId, revision, extras: [], orderNumber: '', note: '' };
    const moved = bill.lines.map((line) => ({ ...line, ofJob: jobs[0] }));
    for (const lines of [bill.lines.slice(1), moved])
      expect(await refusalOf(shop, 'billing.changeDraft', { ...change, lines })).toBe('COLLECTIVE_LINES');
    await discount(invoiceId, 10_000);
    const own = shop.write('billing.draftInvoice', { jobId: agreedJob(shop).jobId });
    const other = { ...change, invoiceId: own.invoiceId, revision: 1, lines: [...bill.lines] };
    expect(await refusalOf(shop, 'billing.changeDraft', other)).toBe('COLLECTIVE_LINES');
  });

  it('spreads a discount on the whole over its jobs in their margins', async () => {
    const { fleet, jobs } = fleetJobs(3);
    const { invoiceId } = shop.write('billing.draftCollective', { customerId: fleet, jobs: asked(jobs) });
    await discount(invoiceId, 10_000);
    await issueDraft(shop, invoiceId);
    const { totals } = await shop.read('billing.readInvoice', { invoiceId });
    const nets = marginRows(shop.db, TEST_NOW, TEST_NOW + 1).map((row) => row.netMinor);
    expect(sum(nets)).toBe(totals.netMinor);
    expect(Math.max(...nets) - Math.min(...nets)).toBeLessThanOrEqual(2);
  });

  it('counts in the margin of each job by its own net, also where one line is credited', async () => {
    const { fleet, jobs } = fleetJobs(2);
    const { invoiceId } = shop.write('billing.draftCollective', { customerId: fleet, jobs: asked(jobs) });
    await issueDraft(shop, invoiceId);
    const nets = () => marginRows(shop.db, TEST_NOW, TEST_NOW + 1).map((row) => row.netMinor);
    const whole = Math.round((2 * 90_390) / 1.19);
    expect(sum(nets())).toBe(whole);
    shop.write('billing.creditInvoice', {
      invoiceId,
      lines: [{ line: 0, amountMinor: 11_900 }],
      reason: 'haze',
    });
    expect(sum(nets())).toBe(whole - 10_000);
    expect(nets()[0]).toBeLessThan(nets()[1] ?? 0);
  });

  it('refuses a job of another payer, one that is billed or drafted, and one with a deposit', async () => {
    const { fleet, jobs } = fleetJobs(2);
    const refused = (ids: readonly JobId[]) =>
      refusalOf(shop, 'billing.draftCollective', { customerId: fleet, jobs: asked(ids) });
    expect(await refused([agreedJob(shop).jobId])).toBe('COLLECTIVE_OTHER_PAYER');
    const [first, second] = jobs as [JobId, JobId];
    const own = shop.write('billing.draftInvoice', { jobId: first });
    expect(await refused(jobs)).toBe('COLLECTIVE_DRAFTED');
    await issueDraft(shop, own.invoiceId);
    expect(await refused(jobs)).toBe('JOB_ALREADY_BILLED');
    shop.db.raw.prepare("UPDATE job SET state = 'booked' WHERE id = ?").run(second);
    shop.write('billing.takeDeposit', { jobId: second, amountMinor: 100, way: 'card' });
    expect(await refused([second])).toBe('COLLECTIVE_DEPOSIT');
    const unpaid = fleetJobs(1);
    const [third] = unpaid.jobs as [JobId];
    prepaymentUnpaid(third, unpaid.fleet);
    expect(
      await refusalOf(shop, 'billing.draftCollective', { customerId: unpaid.fleet, jobs: asked([third]) }),
    ).toBe('COLLECTIVE_DEPOSIT');
  });

  it('is where a job’s own draft leads while it is a draft, and once it is removed the jobs are to be billed again', async () => {
    const { fleet, jobs } = fleetJobs(2);
    const { invoiceId } = shop.write('billing.draftCollective', { customerId: fleet, jobs: asked(jobs) });
    expect(shop.write('billing.draftInvoice', { jobId: jobs[0] as JobId }).invoiceId).toBe(invoiceId);
    shop.write('billing.dropDraft', { invoiceId, revision: 1 });
    expect((await shop.read('billing.readDesk', {})).toBill).toHaveLength(2);
  });

  it('issued it keeps its jobs, and no deposit is taken for them any more', async () => {
    const { fleet, jobs } = fleetJobs(1);
    const { invoiceId } = shop.write('billing.draftCollective', { customerId: fleet, jobs: asked(jobs) });
    await issueDraft(shop, invoiceId);
    expect(() => shop.db.raw.exec('DELETE FROM billed_job')).toThrow('an issued document never changes');
    const { jobId: late } = agreedJob(shop);
    expect(() =>
      shop.db.raw.prepare('INSERT INTO billed_job (invoice_id, job_id) VALUES (?, ?)').run(invoiceId, late),
    ).toThrow('an issued document never changes');
    shop.db.raw.exec("UPDATE job SET state = 'booked'");
    const deposit = { jobId: jobs[0], amountMinor: 100, way: 'card' };
    expect(await refusalOf(shop, 'billing.takeDeposit', deposit)).toBe('DEPOSIT_BILLED');
  });
});
