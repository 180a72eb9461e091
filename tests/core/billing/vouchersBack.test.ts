import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { CustomerId, InvoiceId, JobId } from '#core/shared/ids.ts';
import type { VoucherPurpose } from '#core/shared/settings/billing.ts';
import { marginRows } from '#core/views/margin.ts';
import { vouchersOn } from '#core/views/voucherReports.ts';
import {
  addTestJob,
  agreedJob,
  askPrepaymentInvoices,
  issueDraft,
  refusalOf,
} from '../../helpers/billing.ts';
import { openTestShop, TEST_NOW, type TestShop } from '../../helpers/shop.ts';

const DAY = '2026-11-25' as never;
let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
});
afterEach(() => shop.close());

function sold(
  voucherPurpose: VoucherPurpose,
  amountMinor: number,
): { readonly number: number; readonly code: string; readonly invoiceId: InvoiceId | null } {
  shop.db.raw.prepare('UPDATE shop SET settings = ?').run(JSON.stringify({ billing: { voucherPurpose } }));
  const { customerId } = addTestJob(shop, { name: 'Odo Lund' });
  return shop.write('billing.sellVoucher', { customerId, amountMinor, way: 'cash', forName: '' });
}
const read = (invoiceId: InvoiceId) => shop.read('billing.readInvoice', { invoiceId });
const leftOf = (): readonly number[] => vouchersOn(shop.db, DAY).map((v) => v.leftMinor);
const draft = (jobId: JobId): InvoiceId => shop.write('billing.draftInvoice', { jobId }).invoiceId;

/** A job of 903.90 that another pays for. */
function insuredJob(): JobId {
  const { customerId: payerId } = addTestJob(shop, { name: 'Tallow Mutual' });
  const { jobId } = agreedJob(shop);
  shop.db.raw.prepare('UPDATE job SET payer_id = ? WHERE id = ?').run(payerId satisfies CustomerId, jobId);
  return jobId;
}

describe('a taxed voucher', () => {
  it('on one of two that were split goes back once: the half that is drafted again asks for all of it', async () => {
    const { code } = sold('single', 10_000);
    const invoiceId = draft(insuredJob());
    const part = { by: 'sum', amountMinor: 30_000 } as const;
    const { shareId } = shop.write('billing.splitDraft', { invoiceId, revision: 1, part });
    shop.write('billing.useVoucher', { code, invoiceId: shareId, amountMinor: 10_000 });
    await issueDraft(shop, invoiceId);
    await issueDraft(shop, shareId);
    expect([(await read(shareId)).totals.toPayMinor, leftOf()]).toEqual([20_000, [0]]);
    shop.write('billing.creditInvoice', { invoiceId: shareId, lines: null, reason: 'wrong name' });
    const again = draft((await read(shareId)).jobId as JobId);
    expect((await read(again)).totals.toPayMinor).toBe(30_000);
    await issueDraft(shop, again);
    expect([(await read(again)).totals.toPayMinor, leftOf()]).toEqual([30_000, [10_000]]);
  });

  it('on a draft is left out before that is split: one of two could ask for less than nothing', async () => {
    const { number, code } = sold('single', 10_000);
    const invoiceId = draft(insuredJob());
    const part = { by: 'sum', amountMinor: 30_000 } as const;
    shop.write('billing.useVoucher', { code, invoiceId, amountMinor: 10_000 });
    const split = { invoiceId, revision: (await read(invoiceId)).revision, part };
    expect(await refusalOf(shop, 'billing.splitDraft', split)).toBe('SPLIT_VOUCHER');
    shop.write('billing.leaveVoucher', { number, invoiceId });
    const { revision } = await read(invoiceId);
    expect(shop.write('billing.splitDraft', { ...split, revision })).toHaveProperty('shareId');
  });

  it('leaves the job it pays for what that brought', async () => {
    const { code } = sold('single', 11_900);
    const { jobId } = agreedJob(shop);
    const invoiceId = draft(jobId);
    shop.write('billing.useVoucher', { code, invoiceId, amountMinor: 11_900 });
    await issueDraft(shop, invoiceId);
    shop.db.raw.prepare(`UPDATE job SET collected_ms = ? WHERE id = ?`).run(TEST_NOW, jobId);
    const brought = (): unknown => marginRows(shop.db, TEST_NOW - 1, TEST_NOW + 1).map((r) => r.netMinor);
    // 903.90 at 19 %, whatever it was paid with
    expect(brought()).toEqual([75_958]);
    shop.write('billing.creditInvoice', { invoiceId, lines: null, reason: 'by mistake' });
    expect(brought()).toEqual([0]);
  });

  it('that is spent and taken back to the last unit is owed nothing in the books', async () => {
    const { code, invoiceId: sale } = sold('single', 10_000);
    const invoiceId = draft(agreedJob(shop).jobId);
    shop.write('billing.useVoucher', { code, invoiceId, amountMinor: 3333 });
    await issueDraft(shop, invoiceId);
    const lines = [{ line: 0, amountMinor: 6667 }];
    shop.write('billing.creditInvoice', {
      invoiceId: sale as InvoiceId,
      lines,
      reason: 'changed their mind',
    });
    expect(vouchersOn(shop.db, DAY)).toMatchObject([{ leftMinor: 0, owedMinor: 0 }]);
  });

  it('stays off a document of which a part was given back in money, and comes back with the rest', async () => {
    const { code } = sold('single', 73_390);
    const { jobId } = agreedJob(shop);
    const invoiceId = draft(jobId);
    shop.write('billing.useVoucher', { code, invoiceId, amountMinor: 73_390 });
    await issueDraft(shop, invoiceId);
    const lines = [{ line: 0, amountMinor: 17_000 }];
    shop.write('billing.creditInvoice', { invoiceId, lines, reason: 'a mark was left' });
    expect((await read(invoiceId)).wholeCredited).toBe(false);
    expect(await refusalOf(shop, 'billing.draftInvoice', { jobId })).toBe('JOB_ALREADY_BILLED');
    expect((await shop.read('billing.readDesk', {})).toBill).toEqual([]);
    shop.write('billing.creditInvoice', { invoiceId, lines: null, reason: 'and the rest' });
    expect([(await read(invoiceId)).wholeCredited, leftOf()]).toEqual([true, [73_390]]);
  });
});

it('a prepayment stays taken off while a part of the final invoice stands', async () => {
  askPrepaymentInvoices(shop);
  const { jobId } = agreedJob(shop);
  shop.write('billing.takeDeposit', { jobId, amountMinor: 73_390, way: 'card' });
  const invoiceId = draft(jobId);
  await issueDraft(shop, invoiceId);
  const lines = [{ line: 0, amountMinor: 17_000 }];
  shop.write('billing.creditInvoice', { invoiceId, lines, reason: 'a mark was left' });
  expect((await shop.read('billing.readDesk', {})).deposits).toEqual([]);
  expect(await refusalOf(shop, 'billing.draftInvoice', { jobId })).toBe('JOB_ALREADY_BILLED');
  shop.write('billing.creditInvoice', { invoiceId, lines: null, reason: 'and the rest' });
  expect((await shop.read('billing.readDesk', {})).deposits).toMatchObject([{ heldMinor: 73_390 }]);
});
