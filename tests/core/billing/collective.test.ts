import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { collectiveBill } from '#core/billing/rules/collective.ts';
import { agreedLine } from '#core/billing/rules/quoteLines.ts';
import { sum, totalsOf } from '#core/billing/rules/totals.ts';
import type { Bill, LineTax } from '#core/shared/bill.ts';
import type { CustomerId, JobId } from '#core/shared/ids.ts';
import type { Minor } from '#core/shared/units.ts';
import { marginRows } from '#core/views/margin.ts';
import { addTestJob, agreedJob, issueDraft, refusalOf } from '../../helpers/billing.ts';
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
function fleetJobs(count: number): { readonly fleet: CustomerId; readonly jobs: readonly JobId[] } {
  const { customerId: fleet } = addTestJob(shop, { name: 'Larch Haulage' });
  const jobs = Array.from({ length: count }, () => agreedJob(shop).jobId);
  const ready = shop.db.raw.prepare(
    "UPDATE job SET payer_id = ?, state = 'collected', ready_ms = ?, collected_ms = ? WHERE id = ?",
  );
  for (const id of jobs) ready.run(fleet, TEST_NOW, TEST_NOW, id);
  return { fleet, jobs };
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
    shop.db.raw.exec("UPDATE job SET state = 'booked'");
    const deposit = { jobId: jobs[0], amountMinor: 100, way: 'card' };
    expect(await refusalOf(shop, 'billing.takeDeposit', deposit)).toBe('DEPOSIT_BILLED');
  });
});
