import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { examine } from '#core/doctor/doctor.ts';
import type { JobId } from '#core/shared/ids.ts';
import { agreedJob, askPrepaymentInvoices, billJob, refusalOf } from '../../helpers/billing.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';

let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
});
afterEach(() => shop.close());

const held = async (jobId: JobId): Promise<number | null> =>
  (await shop.read('billing.readJobMoney', { jobId })).depositMinor;
const paid = async (jobId: JobId): Promise<number | null> =>
  (await shop.read('billing.readJobMoney', { jobId })).paidMinor;

describe.each(['payment', 'prepaymentInvoice'] as const)('a deposit taken as %s', (form) => {
  beforeEach(() => {
    if (form === 'prepaymentInvoice') askPrepaymentInvoices(shop);
  });
  const deposit = (jobId: JobId): void => {
    shop.write('billing.takeDeposit', { jobId, amountMinor: 18_000, way: 'card' });
  };

  it('is held for its job until the invoice takes it off', async () => {
    const { jobId } = agreedJob(shop);
    expect(await held(jobId)).toBeNull();
    deposit(jobId);
    expect(await held(jobId)).toBe(18_000);
    await billJob(shop, jobId);
    expect(await held(jobId)).toBe(0);
    expect(await paid(jobId)).toBe(18_000);
  });

  it('is no longer held once it was kept as a fee', async () => {
    const { jobId } = agreedJob(shop);
    deposit(jobId);
    shop.write('billing.settleDeposit', { jobId, outcome: 'kept', way: 'card' });
    expect(await held(jobId)).toBe(0);
    expect(await paid(jobId)).toBe(18_000);
  });

  it('is no longer held or paid once it was given back', async () => {
    const { jobId } = agreedJob(shop);
    deposit(jobId);
    shop.write('billing.settleDeposit', { jobId, outcome: 'returned', way: 'card' });
    expect([(await held(jobId)) ?? 0, await paid(jobId)]).toEqual([0, 0]);
  });

  it('moved, is held for the other job and taken off on its invoice', async () => {
    const [from, to] = [agreedJob(shop), agreedJob(shop)];
    deposit(from.jobId);
    const move = { jobId: from.jobId, outcome: 'moved', way: 'card', toJobId: to.jobId } as const;
    expect(shop.write('billing.settleDeposit', move).movedMinor).toBe(18_000);
    expect([await held(from.jobId), await paid(from.jobId)]).toEqual([0, 0]);
    expect(await held(to.jobId)).toBe(18_000);
    const invoiceId = await billJob(shop, to.jobId);
    // 903.90 less 180.00
    expect((await shop.read('billing.readInvoice', { invoiceId })).owedMinor).toBe(72_390);
    expect(await held(to.jobId)).toBe(0);
  });
});

describe('a prepayment invoice of which a part was credited and paid back', () => {
  const takenLess = (jobId: JobId): void => {
    askPrepaymentInvoices(shop);
    const { invoiceId } = shop.write('billing.takeDeposit', { jobId, amountMinor: 18_000, way: 'card' });
    if (invoiceId === null) throw new Error('no prepayment invoice');
    const lines = [{ line: 0, amountMinor: 5000 }];
    shop.write('billing.creditInvoice', { invoiceId, lines, reason: 'too much was asked' });
    shop.write('billing.refund', { from: 'invoice', id: invoiceId, amountMinor: 5000, way: 'card' });
  };

  it('is taken off by what is left of it', async () => {
    const { jobId } = agreedJob(shop);
    takenLess(jobId);
    expect(await held(jobId)).toBe(13_000);
    const invoiceId = await billJob(shop, jobId);
    // 903.90 less the 130.00 that the customer has really paid
    expect((await shop.read('billing.readInvoice', { invoiceId })).totals.toPayMinor).toBe(77_390);
  });

  it('gives back what is left of it, and no tax stays', async () => {
    const { jobId } = agreedJob(shop);
    takenLess(jobId);
    const done = shop.write('billing.settleDeposit', { jobId, outcome: 'returned', way: 'card' });
    expect(done.returnedMinor).toBe(13_000);
    const desk = await shop.read('billing.readDesk', {});
    expect([desk.depositsMinor, desk.takingsMinor, desk.ageing.owedMinor, desk.open.length]).toEqual([
      0, 0, 0, 0,
    ]);
    const period = { fromDay: '2026-11-25', toDay: '2026-11-25' };
    // 180.00, 50.00 and 130.00 with 19 %: 28.74 − 7.98 − 20.76
    expect((await shop.read('billing.readTaxReport', period)).taxMinor).toBe(0);
  });
});

describe('a job that its prepayment paid wholly', () => {
  it('is not billed twice by an invoice that asks for nothing', async () => {
    askPrepaymentInvoices(shop);
    const { jobId } = agreedJob(shop);
    shop.write('billing.takeDeposit', { jobId, amountMinor: 90_390, way: 'card' });
    await billJob(shop, jobId);
    expect(await refusalOf(shop, 'billing.draftInvoice', { jobId })).toBe('JOB_ALREADY_BILLED');
  });
});

describe('a tip taken with the payment', () => {
  it('stands beside what settled the document, with its receipt, and settles nothing', async () => {
    const { jobId } = agreedJob(shop);
    const invoiceId = await billJob(shop, jobId);
    const taken = { amountMinor: 100_000, way: 'cash', surplus: 'tip' } as const;
    const { receipt } = shop.write('billing.takePayment', { ...taken, invoiceIds: [invoiceId] });
    const { payments, beside, owedMinor } = await shop.read('billing.readInvoice', { invoiceId });
    expect(payments.map((p) => [p.receipt, p.kind, p.amountMinor])).toEqual([[receipt, 'payment', 90_390]]);
    expect(beside.map((p) => [p.receipt, p.kind, p.amountMinor])).toEqual([[receipt, 'tip', 9610]]);
    expect(owedMinor).toBe(0);
  });
});

describe('a paid document with a credit note', () => {
  it('is not open but to be paid back', async () => {
    const { jobId } = agreedJob(shop);
    const invoiceId = await billJob(shop, jobId);
    shop.write('billing.takePayment', { invoiceIds: [invoiceId], amountMinor: 90_390, way: 'card' });
    shop.write('billing.creditInvoice', {
      invoiceId,
      lines: [{ line: 0, amountMinor: 5000 }],
      reason: 'left out',
    });
    const desk = await shop.read('billing.readDesk', {});
    expect([desk.open, desk.payBack.map((r) => [r.id, r.owedMinor])]).toEqual([[], [[invoiceId, -5000]]]);
  });
});

describe('what the shop owes after a credit note', () => {
  it('can stay with the shop as credit for the next invoice: nothing is owed, the books balance', async () => {
    const { jobId, customerId } = agreedJob(shop);
    const invoiceId = await billJob(shop, jobId);
    shop.write('billing.takePayment', { invoiceIds: [invoiceId], amountMinor: 90_390, way: 'card' });
    const lines = [{ line: 0, amountMinor: 5000 }];
    const credit = shop.write('billing.creditInvoice', { invoiceId, lines, reason: 'left out' }).invoiceId;
    // said on the credit note's own page, where the person stands who wrote it
    expect((await shop.read('billing.readInvoice', { invoiceId: credit })).owedMinor).toBe(-5000);
    expect(await refusalOf(shop, 'billing.keepAsCredit', { invoiceId: credit, amountMinor: 5001 })).toBe(
      'REFUND_ABOVE_PAID',
    );
    shop.write('billing.keepAsCredit', { invoiceId: credit, amountMinor: 5000 });
    const after = await shop.read('billing.readInvoice', { invoiceId });
    expect([after.owedMinor, after.creditHeldMinor]).toEqual([0, 5000]);
    const desk = await shop.read('billing.readDesk', {});
    expect(desk.credits).toMatchObject([{ customerId, heldMinor: 5000 }]);
    // no money moved: in today is what was paid
    expect(desk.takingsMinor).toBe(90_390);
    expect(examine(shop.db)).toEqual([]);
  });
});

describe('moving a deposit', () => {
  it('needs a job that is still to be done, and books nothing otherwise', async () => {
    const [from, to] = [agreedJob(shop), agreedJob(shop)];
    shop.write('billing.takeDeposit', { jobId: from.jobId, amountMinor: 18_000, way: 'card' });
    shop.db.raw.prepare("UPDATE job SET state = 'cancelled' WHERE id = ?").run(to.jobId);
    const move = { jobId: from.jobId, outcome: 'moved', way: 'card' } as const;
    expect(await refusalOf(shop, 'billing.settleDeposit', move)).toBe('DEPOSIT_WHERE_TO');
    expect(await refusalOf(shop, 'billing.settleDeposit', { ...move, toJobId: from.jobId })).toBe(
      'DEPOSIT_WHERE_TO',
    );
    expect(await refusalOf(shop, 'billing.settleDeposit', { ...move, toJobId: to.jobId })).toBe(
      'DEPOSIT_WHERE_TO',
    );
    expect(await held(from.jobId)).toBe(18_000);
  });

  it('leaves the fee behind with the job that was given up', async () => {
    const [from, to] = [agreedJob(shop), agreedJob(shop)];
    shop.write('billing.takeDeposit', { jobId: from.jobId, amountMinor: 18_000, way: 'card' });
    const move = { jobId: from.jobId, outcome: 'moved', way: 'card', toJobId: to.jobId } as const;
    shop.write('billing.settleDeposit', { ...move, feeMinor: 5000 });
    expect([await held(from.jobId), await paid(from.jobId), await held(to.jobId)]).toEqual([0, 5000, 13_000]);
  });
});

describe('money above what is owed', () => {
  it('as a credit is listed by its customer, laid on the next invoice, and the rest paid back', async () => {
    const [a, b] = [agreedJob(shop), agreedJob(shop)];
    shop.db.raw.prepare('UPDATE job SET payer_id = ?').run(a.customerId);
    const first = await billJob(shop, a.jobId);
    const second = await billJob(shop, b.jobId);
    const money = { amountMinor: 190_390, way: 'transfer', surplus: 'credit' } as const;
    shop.write('billing.takePayment', { ...money, invoiceIds: [first] });
    const credits = async (): Promise<unknown> => (await shop.read('billing.readDesk', {})).credits;
    expect(await credits()).toEqual([
      { customerId: a.customerId, customer: 'Marit Vane', heldMinor: 100_000, cashMinor: 100_000 },
    ]);
    expect((await shop.read('billing.readInvoice', { invoiceId: second })).creditHeldMinor).toBe(100_000);
    const use = { invoiceId: second, amountMinor: 90_390 };
    expect(shop.write('billing.applyCredit', use).owedMinor).toBe(0);
    expect(await credits()).toMatchObject([{ heldMinor: 9610 }]);
    const back = { from: 'credit', id: a.customerId, way: 'card' } as const;
    expect(await refusalOf(shop, 'billing.refund', { ...back, amountMinor: 9611 })).toBe('REFUND_ABOVE_PAID');
    shop.write('billing.refund', { ...back, amountMinor: 9610 });
    expect(await credits()).toEqual([]);
  });

  it('as a deposit needs a job that is still to be done', async () => {
    const { jobId } = agreedJob(shop);
    const next = agreedJob(shop);
    const invoiceIds = [await billJob(shop, jobId)];
    shop.db.raw.prepare("UPDATE job SET state = 'collected' WHERE id = ?").run(jobId);
    const money = { invoiceIds, amountMinor: 100_390, way: 'card', surplus: 'deposit' } as const;
    expect(await refusalOf(shop, 'billing.takePayment', money)).toBe('DEPOSIT_WHERE_TO');
    expect(await refusalOf(shop, 'billing.takeDeposit', { jobId, amountMinor: 100, way: 'card' })).toBe(
      'DEPOSIT_WHERE_TO',
    );
    expect(await refusalOf(shop, 'billing.takePayment', { ...money, depositJobId: next.jobId })).toBe(
      'accepted',
    );
    expect(await held(next.jobId)).toBe(10_000);
  });
});

describe.each(['payment', 'prepaymentInvoice'] as const)(
  'a deposit as %s for a job that is billed',
  (form) => {
    beforeEach(() => {
      if (form === 'prepaymentInvoice') askPrepaymentInvoices(shop);
    });

    it('is refused while the invoice stands, however it is taken', async () => {
      const [billed, other] = [agreedJob(shop), agreedJob(shop)];
      const invoiceId = await billJob(shop, billed.jobId);
      const deposit = { jobId: billed.jobId, amountMinor: 5000, way: 'card' } as const;
      expect(await shop.call('billing.takeDeposit', deposit)).toMatchObject({
        error: { code: 'DEPOSIT_BILLED', data: { number: 1 } },
      });
      const above = {
        invoiceIds: [invoiceId],
        amountMinor: 95_390,
        way: 'card',
        surplus: 'deposit',
      } as const;
      expect(await refusalOf(shop, 'billing.takePayment', above)).toBe('DEPOSIT_BILLED');
      shop.write('billing.takeDeposit', { ...deposit, jobId: other.jobId });
      const move = { jobId: other.jobId, outcome: 'moved', way: 'card', toJobId: billed.jobId } as const;
      expect(await refusalOf(shop, 'billing.settleDeposit', move)).toBe('DEPOSIT_BILLED');
      expect([await held(billed.jobId), await held(other.jobId)]).toEqual([null, 5000]);
    });

    it('is taken again once the invoice is wholly credited', async () => {
      const { jobId } = agreedJob(shop);
      const invoiceId = await billJob(shop, jobId);
      shop.write('billing.creditInvoice', { invoiceId, lines: null, reason: 'wrong payer' });
      shop.write('billing.takeDeposit', { jobId, amountMinor: 5000, way: 'card' });
      const next = await billJob(shop, jobId);
      // 903.90 less 50.00
      expect((await shop.read('billing.readInvoice', { invoiceId: next })).owedMinor).toBe(85_390);
    });
  },
);

describe('one payment for the invoices of two jobs', () => {
  it('counts on each job what was laid on its own invoice', async () => {
    const [a, b] = [agreedJob(shop), agreedJob(shop)];
    shop.db.raw.prepare('UPDATE job SET payer_id = ?').run(a.customerId);
    const invoiceIds = [await billJob(shop, a.jobId), await billJob(shop, b.jobId)];
    shop.write('billing.takePayment', { invoiceIds, amountMinor: 100_000, way: 'transfer' });
    // 903.90 on the first, the remaining 96.10 on the second
    expect([await paid(a.jobId), await paid(b.jobId)]).toEqual([90_390, 9610]);
  });
});

describe('a job whose invoice was wholly credited', () => {
  it('is to be billed again', async () => {
    const { jobId } = agreedJob(shop);
    shop.db.raw.prepare("UPDATE job SET state = 'ready' WHERE id = ?").run(jobId);
    const toBill = async (): Promise<readonly JobId[]> =>
      (await shop.read('billing.readDesk', {})).toBill.map((row) => row.jobId);
    const invoiceId = await billJob(shop, jobId);
    expect(await toBill()).toEqual([]);
    const credit = { invoiceId, reason: 'wrong payer' };
    shop.write('billing.creditInvoice', { ...credit, lines: [{ line: 0, amountMinor: 100 }] });
    expect(await toBill()).toEqual([]);
    shop.write('billing.creditInvoice', {
      ...credit,
      lines: [16_900, 4250, 25_500, 21_250, 12_750, 9640].map((amountMinor, line) => ({ line, amountMinor })),
    });
    expect(await toBill()).toEqual([jobId]);
    await billJob(shop, jobId);
    expect(await toBill()).toEqual([]);
  });
});
