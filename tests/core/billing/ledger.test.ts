import { afterEach, describe, expect, it } from 'vitest';
import type { CustomerId, InvoiceId } from '#core/shared/ids.ts';
import { seeded } from '#core/shared/random.ts';
import type { InvoiceRow } from '#core/shared/views/billing.ts';
import type { StatementView } from '#core/shared/views/statement.ts';
import { depositHeldFor } from '#core/views/heldMoney.ts';
import { agreedJob, bookingsOf, type TestJob } from '../../helpers/billing.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';

const PERIOD = { fromDay: '2026-11-25', toDay: '2026-11-25' };
const shops: TestShop[] = [];
afterEach(() => {
  for (const shop of shops.splice(0)) shop.close();
});

function shopWith(form: 'payment' | 'prepaymentInvoice'): TestShop {
  const shop = openTestShop();
  shops.push(shop);
  shop.db.raw.prepare('UPDATE shop SET settings = ?').run(JSON.stringify({ billing: { depositForm: form } }));
  return shop;
}

/** Sixty things that a desk might do with five jobs, some of them refused; what was refused must leave no trace. */
async function busyDay(
  shop: TestShop,
  seed: number,
): Promise<{ readonly done: number; readonly refused: number }> {
  const random = seeded(seed);
  const pick = <T>(from: readonly T[]): T => from[Math.floor(random() * from.length)] as T;
  const jobs: TestJob[] = Array.from({ length: 5 }, () => agreedJob(shop, { taxIncluded: random() < 0.5 }));
  // Some of them are paid for by the customer of the first.
  for (const { jobId } of jobs.slice(3))
    shop.db.raw.prepare('UPDATE job SET payer_id = ? WHERE id = ?').run(jobs[0]?.customerId, jobId);
  const amount = (): number => 1 + Math.floor(random() * 60_000);
  const [surplus, way] = [['deposit', 'tip', 'credit', null] as const, ['cash', 'card', 'transfer'] as const];
  let [done, refused] = [0, 0];
  for (let i = 0; i < 60; i += 1) {
    const jobId = pick(jobs).jobId;
    const issued = (await shop.read('billing.listInvoices', { list: 'all' })).rows.filter(
      (r) => r.number !== null,
    );
    const id = issued.length > 0 ? pick(issued).id : '00000000000000000000';
    const acts: readonly (readonly [string, unknown])[] = [
      ['billing.takeDeposit', { jobId, amountMinor: amount(), way: pick(way) }],
      ['billing.draftInvoice', { jobId }],
      ['issue', jobId],
      [
        'billing.takePayment',
        { invoiceIds: [id], amountMinor: amount(), way: pick(way), surplus: pick(surplus) },
      ],
      [
        'billing.creditInvoice',
        {
          invoiceId: id,
          lines: random() < 0.5 ? null : [{ line: 0, amountMinor: 1 + Math.floor(amount() / 20) }],
          reason: 'test',
        },
      ],
      [
        'billing.refund',
        {
          from: pick(['invoice', 'deposit'] as const),
          id: random() < 0.5 ? id : jobId,
          amountMinor: Math.ceil(amount() / 10),
          way: pick(way),
        },
      ],
      [
        'billing.settleDeposit',
        {
          jobId,
          outcome: pick(['kept', 'returned', 'moved'] as const),
          feeMinor: random() < 0.5 ? null : Math.ceil(amount() / 20),
          way: pick(way),
          toJobId: pick(jobs).jobId,
        },
      ],
      [
        'split',
        {
          jobId,
          part: random() < 0.5 ? { by: 'share', sharePpm: 333_333 } : { by: 'sum', amountMinor: amount() },
        },
      ],
      ['billing.applyCredit', { invoiceId: id, amountMinor: Math.ceil(amount() / 10) }],
    ];
    const [name, input] = pick(acts);
    const reply =
      name === 'issue'
        ? await issueOf(shop, input as string)
        : name === 'split'
          ? await splitOf(shop, input as { jobId: string; part: unknown })
          : await shop.call(name, input);
    if (reply.ok) done += 1;
    else {
      expect(reply.error.code, JSON.stringify(reply.error)).not.toBe('INTERNAL');
      refused += 1;
    }
  }
  return { done, refused };
}

async function issueOf(shop: TestShop, jobId: string): ReturnType<TestShop['call']> {
  const rows = await shop.read('billing.readJobInvoices', { jobId });
  const draft = rows.find((r) => r.number === null);
  if (!draft) return shop.call('billing.issueInvoice', { invoiceId: '00000000000000000000', revision: 1 });
  const { revision } = await shop.read('billing.readInvoice', { invoiceId: draft.id });
  return shop.call('billing.issueInvoice', { invoiceId: draft.id, revision, aheadOfWork: true });
}

async function splitOf(
  shop: TestShop,
  { jobId, part }: { readonly jobId: string; readonly part: unknown },
): ReturnType<TestShop['call']> {
  const rows = await shop.read('billing.readJobInvoices', { jobId });
  const draft = rows.find((r) => r.number === null);
  const revision = draft ? (await shop.read('billing.readInvoice', { invoiceId: draft.id })).revision : 1;
  return shop.call('billing.splitDraft', { invoiceId: draft?.id ?? '00000000000000000000', revision, part });
}

type Balance = Readonly<Record<string, number>>;

/** Debit less credit of each account, from the file the accountant gets. */
async function balances(shop: TestShop): Promise<Balance> {
  const file = await shop.read('billing.journalFile', PERIOD);
  const found: Record<string, number> = {};
  for (const { account, debitMinor, creditMinor } of bookingsOf(file.bytes))
    found[account] = (found[account] ?? 0) + debitMinor - creditMinor;
  return found;
}

/** The account of every customer, who all came that day. */
async function statements(shop: TestShop): Promise<readonly StatementView[]> {
  const ids = shop.db.raw.prepare('SELECT id FROM customer').pluck().all() as CustomerId[];
  return Promise.all(ids.map((customerId) => shop.read('billing.readStatement', { customerId, ...PERIOD })));
}

async function allRows(shop: TestShop): Promise<readonly InvoiceRow[]> {
  return (await shop.read('billing.listInvoices', { list: 'all', limit: 500 })).rows;
}

const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);

describe.each(['payment', 'prepaymentInvoice'] as const)('any day’s work with deposits as %s', (form) => {
  it.each([1, 2, 3, 4, 5, 6])('leaves books that balance and views that agree (day %i)', async (seed) => {
    const shop = shopWith(form);
    const { done, refused } = await busyDay(shop, seed * 7919);
    expect(done).toBeGreaterThan(10);
    expect(refused).toBeGreaterThan(0);
    const books = await balances(shop);
    const rows = await allRows(shop);
    const desk = await shop.read('billing.readDesk', {});
    expect(sum(Object.values(books))).toBe(0);
    expect(books['receivables'] ?? 0).toBe(sum(rows.map((r) => r.owedMinor)));
    expect(-(books['creditsHeld'] ?? 0) || 0).toBe(desk.creditsMinor);
    expect((books['cash'] ?? 0) + (books['card'] ?? 0) + (books['bank'] ?? 0)).toBe(desk.takingsMinor);
    expect(-(books['taxOwed'] ?? 0) || 0).toBe((await shop.read('billing.readTaxReport', PERIOD)).taxMinor);
    expect(desk.ageing.owedMinor).toBe(sum(rows.map((r) => Math.max(0, r.owedMinor))));
    const accounts = await statements(shop);
    const held = (books['depositsHeld'] ?? 0) + (books['creditsHeld'] ?? 0);
    expect(sum(accounts.map((a) => a.closingMinor))).toBe((books['receivables'] ?? 0) + held);
    for (const account of accounts)
      expect(account.openingMinor + sum(account.entries.map((e) => e.amountMinor))).toBe(
        account.closingMinor,
      );
    const numbers = rows.flatMap((r) => (r.number === null ? [] : [r.number])).sort((a, b) => a - b);
    expect(numbers).toEqual(numbers.map((_, i) => i + 1));
  });

  it('holds as deposits what the journal says is held', async () => {
    const shop = shopWith(form);
    const { jobId } = agreedJob(shop);
    shop.write('billing.takeDeposit', { jobId, amountMinor: 5000, way: 'card' });
    const held = depositHeldFor(shop.db, jobId);
    expect(held).toBe(5000);
    const books = await balances(shop);
    // A prepayment invoice is revenue with tax at once, a plain deposit is owed to the customer.
    expect(-(books['depositsHeld'] ?? 0) || 0).toBe(form === 'payment' ? 5000 : 0);
    expect(-(books['revenue'] ?? 0) || 0).toBe(form === 'payment' ? 0 : 4202);
  });
});

describe('a read of what is not there', () => {
  it('is refused by name', async () => {
    const shop = shopWith('payment');
    const reply = await shop.call('billing.readInvoice', { invoiceId: 'x'.repeat(20) as InvoiceId });
    expect(reply).toMatchObject({ ok: false, error: { code: 'NOT_FOUND' } });
  });
});
