import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { isAheadOfWork } from '#core/billing/rules/workDone.ts';
import { ublOf } from '#core/documents/ubl.ts';
import type { Bill } from '#core/shared/bill.ts';
import { JOB_STATES } from '#core/shared/vocabulary.ts';
import { agreedJob, refusalOf } from '../../helpers/billing.ts';
import { openTestShop, TEST_NOW, type TestShop } from '../../helpers/shop.ts';

let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
});
afterEach(() => shop.close());

const billOf = (...what: readonly string[]): Bill => ({ lines: what.map((w) => ({ what: w })) }) as never;

describe('the bill of work that is not done', () => {
  it('is asked about, and says no day of work where it is issued all the same', async () => {
    const { jobId } = agreedJob(shop);
    const input = { ...shop.write('billing.draftInvoice', { jobId }), revision: 1 };
    expect(await refusalOf(shop, 'billing.issueInvoice', input)).toBe('BILL_AHEAD_OF_WORK');
    expect(await shop.read('billing.readInvoice', { invoiceId: input.invoiceId })).toMatchObject({
      number: null,
    });
    shop.write('billing.issueInvoice', { ...input, aheadOfWork: true });
    const issued = await shop.read('billing.readInvoice', { invoiceId: input.invoiceId });
    expect(issued).toMatchObject({ number: 1, suppliedDay: null });
    expect(ublOf(issued)).not.toContain('Delivery');
  });

  it('is not asked about once the car is ready, and says the day it was', async () => {
    const { jobId } = agreedJob(shop);
    shop.db.raw
      .prepare(`UPDATE job SET state = 'ready', ready_ms = ? WHERE id = ?`)
      .run(TEST_NOW - 86_400_000, jobId);
    const { invoiceId } = shop.write('billing.draftInvoice', { jobId });
    shop.write('billing.issueInvoice', { invoiceId, revision: 1 });
    expect(await shop.read('billing.readInvoice', { invoiceId })).toMatchObject({
      suppliedDay: '2026-11-24',
    });
  });

  it.each(JOB_STATES)(
    'of a job that is %s: goods and fees never wait for it, nor work that was stopped',
    (state) => {
      const waits = ['enquiry', 'quoted', 'booked', 'here', 'inWork'].includes(state);
      expect(isAheadOfWork(billOf('labour.correct'), state, false)).toBe(waits);
      expect(isAheadOfWork(billOf('labour.correct'), state, true)).toBe(false);
      expect(isAheadOfWork(billOf('share'), state, false)).toBe(waits);
      expect(isAheadOfWork(billOf('goods', 'fee'), state, false)).toBe(false);
    },
  );
});
