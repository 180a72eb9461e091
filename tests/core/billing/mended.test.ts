import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { InvoiceId } from '#core/shared/ids.ts';
import { agreedJob } from '../../helpers/billing.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';

let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
});
afterEach(() => shop.close());

async function issue(invoiceId: InvoiceId): Promise<void> {
  const { revision } = await shop.read('billing.readInvoice', { invoiceId });
  shop.write('billing.issueInvoice', { invoiceId, revision });
}

function askPrepaymentInvoices(): void {
  shop.db.raw.prepare(`UPDATE shop SET settings = '{"billing":{"depositForm":"prepaymentInvoice"}}'`).run();
}

describe('a prepayment', () => {
  it('is free again when the invoice that took it off is wholly credited, so that nobody pays twice', async () => {
    askPrepaymentInvoices();
    const { jobId } = agreedJob(shop);
    shop.write('billing.takeDeposit', { jobId, amountMinor: 20_000, way: 'card' });
    const first = shop.write('billing.draftInvoice', { jobId }).invoiceId;
    await issue(first);
    expect((await shop.read('billing.readDesk', {})).depositsMinor).toBe(0);
    shop.write('billing.creditInvoice', { invoiceId: first, lines: null, reason: 'wrong payer' });
    expect((await shop.read('billing.readDesk', {})).depositsMinor).toBe(20_000);
    const second = shop.write('billing.draftInvoice', { jobId }).invoiceId;
    await issue(second);
    // 903.90 less the 200.00 paid before
    expect((await shop.read('billing.readInvoice', { invoiceId: second })).totals.toPayMinor).toBe(70_390);
    expect((await shop.read('billing.readDesk', {})).depositsMinor).toBe(0);
  });

  it('that pays the whole job stays taken off by an invoice that asks for nothing', async () => {
    askPrepaymentInvoices();
    const { jobId } = agreedJob(shop);
    shop.write('billing.takeDeposit', { jobId, amountMinor: 90_390, way: 'card' });
    await issue(shop.write('billing.draftInvoice', { jobId }).invoiceId);
    expect((await shop.read('billing.readDesk', {})).depositsMinor).toBe(0);
  });
});
