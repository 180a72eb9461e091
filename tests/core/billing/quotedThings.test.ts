import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { sum, totalsOf } from '#core/billing/rules/totals.ts';
import type { BillLine } from '#core/shared/bill.ts';
import type { CustomerId, InvoiceId, JobId, QuoteId } from '#core/shared/ids.ts';
import type { QuoteBasis } from '#core/shared/settings/billing.ts';
import { PLAIN_MANNER } from '#core/shared/text/manner.ts';
import { quoteLines, quoteTaxes } from '#core/shared/text/quoteLines.ts';
import { sayError } from '#core/shared/text/sayError.ts';
import type { LocalDay, Minor } from '#core/shared/units.ts';
import { jobsToBill } from '#core/views/billingLists.ts';
import {
  addTestJob,
  askPrepaymentInvoices,
  issueDraft,
  quoteJob,
  refusalOf,
  stageIdsOf,
  stopWith,
  type TestJob,
  testEstimate,
  workOn,
} from '../../helpers/billing.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';

let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
});
afterEach(() => shop.close());

type Price = Parameters<typeof shop.write<'shop.setListPrice'>>[1];
const set = (price: Price): string => shop.write('shop.setListPrice', price).id;
type Thing = { priceId: string; pieces: number; discountMinor: Minor };
const thing = (priceId: string, pieces = 1, discountMinor = 0): Thing => ({
  ...{ priceId, pieces, discountMinor: discountMinor as Minor },
});
type How = NonNullable<Parameters<typeof quoteJob>[4]>;
const linesOf = async (quoteId: QuoteId): Promise<readonly BillLine[]> =>
  (await shop.read('billing.readQuote', { quoteId })).options[0]?.bill.lines ?? [];
const agree = (quoteId: QuoteId): unknown =>
  shop.write('billing.acceptQuote', { quoteId, revision: 1, letter: 'A', name: 'Marit Vane', way: 'spoken' });

/** A job of 903.90 with what is asked for beside it, agreed. */
function agreedWith(things: readonly Thing[], how: How = {}): TestJob {
  const job = addTestJob(shop);
  agree(quoteJob(shop, job.jobId, [testEstimate(job.jobId)], '', { things: [things], ...how }));
  return job;
}
const read = (invoiceId: InvoiceId) => shop.read('billing.readInvoice', { invoiceId });
const draft = (jobId: JobId): InvoiceId => shop.write('billing.draftInvoice', { jobId }).invoiceId;

describe('a thing on a quote', () => {
  it('stands beside the work at the price of the day, with its own tax and discount', async () => {
    shop.write('shop.setTax', { code: 'reduced', name: 'VAT', category: 'S', ratePpm: 70_000 });
    const towel = set({ kind: 'item', name: 'Drying towel', priceMinor: 1490 });
    const guide = set({ kind: 'item', name: 'Care guide', priceMinor: 800, tax: 'reduced' });
    const { jobId } = addTestJob(shop);
    const things = [thing(towel, 2, 300), thing(guide)];
    const quoteId = quoteJob(shop, jobId, [testEstimate(jobId)], '', { things: [things] });
    const twice = quoteJob(shop, jobId, [testEstimate(jobId)], '', {
      things: [[thing(guide), thing(guide)]],
    });
    const rows = quoteLines(PLAIN_MANNER, (await shop.read('billing.readQuote', { quoteId: twice })).options);
    // Two that read the same stand on a line each, as each says what one costs.
    expect(rows.filter((row) => row.label === 'Care guide').map((row) => row.cells[0]?.minor)).toEqual([
      800, 800,
    ]);
    const lines = await linesOf(quoteId);
    expect(lines.slice(-2).map((l) => [l.what, l.text, l.quantity, l.priceMinor, l.tax.ratePpm])).toEqual([
      ['goods', 'Drying towel', 2, 1490, 190_000],
      ['goods', 'Care guide', 1, 800, 70_000],
    ]);
    const { options } = await shop.read('billing.readQuote', { quoteId });
    // 903.90 of work, 29.80 less 3.00, 8.00
    expect(options[0]?.totals.toPayMinor).toBe(90_390 + 2680 + 800);
    expect(quoteLines(PLAIN_MANNER, options).map((row) => row.label)).toContain(
      '2 × Drying towel, 14.90 each, less 3.00',
    );
    expect(quoteTaxes(PLAIN_MANNER, options).map((row) => row.label)).toEqual(['VAT 19 %', 'VAT 7 %']);
  });

  it('keeps its price on an older version, and the next one has that of its own day', async () => {
    const old = set({ kind: 'item', name: 'Shampoo', priceMinor: 1200 });
    set({ kind: 'item', name: 'Shampoo', priceMinor: 1300, fromDay: '2026-11-26' });
    const { jobId } = addTestJob(shop);
    const ask = { things: [[thing(old)]] };
    const first = quoteJob(shop, jobId, [testEstimate(jobId)], '', ask);
    shop.at(shop.now() + 86_400_000);
    const second = quoteJob(shop, jobId, [testEstimate(jobId)], 'dearer', ask);
    expect((await linesOf(first)).at(-1)?.priceMinor).toBe(1200);
    expect((await linesOf(second)).at(-1)?.priceMinor).toBe(1300);
  });

  it('is no work: the least of a job and a rush are reckoned without it, a panel at its price with it', async () => {
    const day = { fromDay: '2026-11-25' as LocalDay };
    shop.write('shop.setCharge', { kind: 'minimum', amountMinor: 100_000, ...day });
    shop.write('shop.setCharge', { kind: 'rush', sharePpm: 100_000, ...day });
    const towel = set({ kind: 'item', name: 'Drying towel', priceMinor: 50_000 });
    const panel = set({ kind: 'panel', level: 'oneStage', priceMinor: 5000 });
    const { jobId } = addTestJob(shop);
    const asked = { rush: true, things: [[thing(towel), thing(panel, 1)]] };
    const quoteId = quoteJob(shop, jobId, [testEstimate(jobId)], '', asked);
    const lines = await linesOf(quoteId);
    // 903.90 + 50.00 of work lack 46.10; a tenth of 1,000.00; the towel comes on top.
    expect(lines.slice(-4).map((l) => [l.what, l.text, l.priceMinor])).toEqual([
      ['panel', 'One-step correction, by the panel', 5000],
      ['minimum', 'Up to the minimum charge of a job', 4610],
      ['rush', 'Surcharge: rush', 10_000],
      ['goods', 'Drying towel', 50_000],
    ]);
    expect((await shop.read('billing.readQuote', { quoteId })).basis).toBe('fixed');
  });
});

describe('a thing that cannot be quoted', () => {
  const said = async (things: readonly unknown[], more = {}): Promise<string> => {
    const { jobId } = addTestJob(shop);
    const { id } = await estimated(jobId);
    const input = { jobId, estimateIds: [id], things: [things], ...more };
    const reply = await shop.call('billing.quoteEstimates', input);
    return reply.ok ? 'quoted' : sayError('en', reply.error);
  };
  const estimated = async (jobId: JobId) => {
    shop.write('estimate.provisional', { jobId, wish: 'full', condition: 'worn' });
    const [made] = await shop.read('estimate.ofJob', { jobId });
    if (!made) throw new Error('no estimate');
    return made;
  };

  it('is named with why', async () => {
    const towel = set({ kind: 'item', name: 'Towel', priceMinor: 1490 });
    const later = set({ kind: 'item', name: 'Soap', priceMinor: 500, fromDay: '2026-12-24' });
    set({ kind: 'item', name: 'Wax', priceMinor: 900 });
    set({ kind: 'panel', level: 'oneStage', panel: 'ro', priceMinor: 900 });
    const gone = set({ kind: 'item', name: 'Wax', priceMinor: null });
    const panel = set({ kind: 'panel', level: 'oneStage', panel: 'ro', priceMinor: null });
    expect(await said([{ priceId: later, pieces: 1 }])).toContain('“Soap” has no price before');
    expect(await said([{ priceId: gone, pieces: 1 }])).toContain('“Wax” is not sold since');
    expect(await said([{ priceId: panel, pieces: 1 }])).toContain('“one-step correction, roof” is not sold');
    expect(await said([{ priceId: 'none', pieces: 1 }])).toContain('This price of the list is not here');
    expect(await said([{ priceId: towel, pieces: 0 }])).toBe(
      'Number of pieces in line 1 does not fit: it has to be 1 or more. Nothing was saved.',
    );
    expect(await said([{ priceId: towel, pieces: 1, discountMinor: 1491 }])).toContain('comes to €14.90, so');
    const many = [{ priceId: towel, pieces: 21 }];
    expect(await said(many)).toContain('21 × “Towel” is a lot for one car');
    expect(await said(many, { manyThings: true })).toBe('quoted');
    expect(await said([{ priceId: towel, pieces: 20 }])).toBe('quoted');
    const dear = set({ kind: 'item', name: 'Gold leaf', priceMinor: 100_000_000 });
    const gold = [{ priceId: dear, pieces: 100_000 }];
    expect(await said(gold, { manyThings: true })).toContain('“Gold leaf” comes to more than any bill');
  });

  it('is one of a list with tax beside an estimate without', async () => {
    const priceId = set({ kind: 'item', name: 'Towel', priceMinor: 1490 });
    const { jobId } = addTestJob(shop);
    const estimates = [testEstimate(jobId, { taxIncluded: false })];
    expect(() => quoteJob(shop, jobId, estimates, '', { things: [[thing(priceId)]] })).toThrow(
      'THING_OTHER_TAX',
    );
  });

  it('is no price list of what goes round, and none of an item that is not there', async () => {
    const stock = { itemId: 'none', amount: 1 };
    const price = { kind: 'item', name: 'Pad', priceMinor: 900, stock } as const;
    expect(await refusalOf(shop, 'shop.setListPrice', price)).toBe('NOT_FOUND');
  });
});

const goodsOf = (lines: readonly BillLine[]): readonly string[] =>
  lines.filter((l) => l.what === 'goods').map((l) => `${l.quantity} ${l.text} ${l.priceMinor}`);

describe('an agreed thing', () => {
  const towels = (): readonly Thing[] => [
    thing(set({ kind: 'item', name: 'Drying towel', priceMinor: 1490 }), 2),
  ];
  const TOWELS = ['2 Drying towel 1490'];

  it('is drafted with the work, once, at the agreed price, and is billed also alone', async () => {
    const { jobId } = agreedWith(towels());
    set({ kind: 'item', name: 'Drying towel', priceMinor: 9900 });
    const invoiceId = draft(jobId);
    const { bill, revision } = await read(invoiceId);
    expect(goodsOf(bill.lines)).toEqual(TOWELS);
    const lines = bill.lines.filter((l) => l.what === 'goods');
    shop.write('billing.changeDraft', { invoiceId, revision, lines: [...lines] });
    // The work was taken off the draft, and still it is the job's invoice.
    expect(draft(jobId)).toBe(invoiceId);
    await issueDraft(shop, invoiceId);
    expect(await refusalOf(shop, 'billing.draftInvoice', { jobId })).toBe('JOB_ALREADY_BILLED');
    shop.db.raw.prepare("UPDATE job SET state = 'ready' WHERE id = ?").run(jobId);
    expect(jobsToBill(shop.db).map((row) => row.jobId)).not.toContain(jobId);
  });

  it('stays whole where the job is stopped half way, and is left out where no work was done', async () => {
    const half = agreedWith(towels());
    stopWith(shop, half.jobId, [1_000_000, 500_000]);
    expect(goodsOf((await read(draft(half.jobId))).bill.lines)).toEqual(TOWELS);
    const none = agreedWith(towels());
    stopWith(shop, none.jobId, [0]);
    expect(await refusalOf(shop, 'billing.draftInvoice', { jobId: none.jobId })).toBe('NOTHING_TO_BILL');
  });

  it('is no part of the time: by time it is added, and “not above” compares work with work', async () => {
    for (const basis of ['byTime', 'notAbove'] as const) {
      const { jobId } = agreedWith(towels(), { basis });
      workOn(shop, stageIdsOf(shop, jobId)[0], 0, 60);
      const { bill } = await read(draft(jobId));
      expect(bill.lines.map((l) => l.what)).toEqual(['labour.prepare', 'materials', 'goods']);
    }
    // As long as agreed, the time costs no more with the towels than it does without.
    const { jobId } = agreedWith(towels(), { basis: 'notAbove' });
    workOn(shop, stageIdsOf(shop, jobId)[0], 0, 600);
    const { bill, totals } = await read(draft(jobId));
    expect(totals.toPayMinor).toBe(90_390 + 2980);
    expect(goodsOf(bill.lines)).toEqual(TOWELS);
  });

  it('stands on a collective invoice within its job', async () => {
    const { jobId, customerId } = agreedWith(towels());
    const { invoiceId } = shop.write('billing.draftCollective', { customerId, jobs: [{ jobId }] });
    expect((await read(invoiceId)).totals.toPayMinor).toBe(90_390 + 2980);
    await issueDraft(shop, invoiceId);
    expect(await refusalOf(shop, 'billing.draftInvoice', { jobId })).toBe('JOB_ALREADY_BILLED');
  });
});

describe('whatever is agreed beside the work', () => {
  const ask = fc.record({
    of: fc.integer({ min: 0, max: 3 }),
    pieces: fc.integer({ min: 1, max: 20 }),
    off: fc.integer({ min: 0, max: 400 }),
  });
  const priced = [
    { kind: 'item', name: 'Towel', priceMinor: 1490 },
    { kind: 'item', name: 'Soap', priceMinor: 999, tax: 'reduced' },
    { kind: 'item', name: 'Book', priceMinor: 333, tax: 'zero' },
    { kind: 'panel', level: 'oneStage', priceMinor: 4567 },
  ] as const;
  const way = fc.constantFrom('plain', 'again', 'split', 'collective', 'prepaid', 'halfWay', 'inParts');

  it('the lines of each view sum to its total, and every thing is billed exactly once', async () => {
    shop.write('shop.setTax', { code: 'reduced', name: 'VAT', category: 'S', ratePpm: 70_000 });
    shop.write('shop.setTax', { code: 'zero', name: 'VAT', category: 'Z', ratePpm: 0 });
    const ids = priced.map((price) => set(price));
    askPrepaymentInvoices(shop);
    const asks = fc.array(ask, { minLength: 1, maxLength: 4 });
    const bases = fc.constantFrom<QuoteBasis>('fixed', 'notAbove', 'byTime');
    await fc.assert(
      fc.asyncProperty(asks, asks, way, bases, async (a, b, how, basis) => {
        const things = [a, b].map((all) =>
          all.map((t) => thing(ids[t.of] ?? '', t.pieces, Math.min(t.off, 300))),
        );
        const panels = [...a, ...b].some((t) => t.of === 3);
        const job = addTestJob(shop);
        const estimates = [testEstimate(job.jobId), testEstimate(job.jobId, { labour: 60_001 })];
        const quoteId = quoteJob(shop, job.jobId, estimates, '', { things, ...(panels ? {} : { basis }) });
        const { options } = await shop.read('billing.readQuote', { quoteId });
        options.forEach((option, i) => {
          const shown = quoteLines(PLAIN_MANNER, options).map((row) => row.cells[i]?.minor ?? 0);
          expect(sum(shown)).toBe(option.totals.toPayMinor);
          const own = quoteLines(PLAIN_MANNER, options).filter(
            (row) => /^(goods|panel) /.test(row.key) && row.cells[i],
          );
          expect(own).toHaveLength(option.bill.lines.filter((l) => l.quoted !== undefined).length);
          const taxes = quoteTaxes(PLAIN_MANNER, options).map((row) => row.minors[i] ?? 0);
          const { netMinor, roundingMinor, toPayMinor } = option.totals;
          expect(netMinor + sum(taxes) + roundingMinor).toBe(toPayMinor);
        });
        agree(quoteId);
        const agreed = goodsOf(options[0]?.bill.lines ?? []);
        workOn(shop, stageIdsOf(shop, job.jobId)[0], 0, 90);
        const bills = await billed(job, how);
        expect(bills.goods).toEqual(how === 'collective' ? [] : agreed);
        expect(await refusalOf(shop, 'billing.draftInvoice', { jobId: job.jobId })).toBe(
          'JOB_ALREADY_BILLED',
        );
      }),
      { numRuns: 30 },
    );
  });

  /** Bills a job the way that is named; the goods that stand on its documents in the end, those credited taken off. */
  async function billed({ jobId }: TestJob, how: string): Promise<{ readonly goods: readonly string[] }> {
    if (how === 'prepaid') shop.write('billing.takeDeposit', { jobId, amountMinor: 10_000, way: 'card' });
    if (how === 'inParts') {
      // A tenth of every line, things too: the invoice of the rest takes it off, so that each is billed once.
      const { lines } = await shop.read('billing.readPartialPlan', { jobId, shares: null });
      const shares = lines.filter((l) => l.asked).map(({ line }) => ({ line, sharePpm: 100_000 }));
      await issueDraft(shop, shop.write('billing.draftPartial', { jobId, shares }).invoiceId);
    }
    if (how === 'halfWay') stopWith(shop, jobId, [1_000_000, 1_000_000, 400_000]);
    const { customerId: payerId } = addTestJob(shop, { name: 'Tallow Mutual' });
    if (how === 'split' || how === 'collective')
      shop.db.raw.prepare('UPDATE job SET payer_id = ? WHERE id = ?').run(payerId, jobId);
    const documents = await documentsOf(jobId, payerId, how);
    const standing = await Promise.all(documents.map(read));
    for (const { bill, totals } of standing)
      expect(totals.toPayMinor).toBe(sum(totals.lineShownMinor) + (bill.taxIncluded ? 0 : totals.taxMinor));
    for (const { bill, totals } of standing) expect(totalsOf(bill).netMinor).toBe(totals.netMinor);
    return { goods: standing.flatMap(({ bill }) => goodsOf(bill.lines)) };
  }

  async function documentsOf(jobId: JobId, payerId: CustomerId, how: string): Promise<readonly InvoiceId[]> {
    if (how === 'collective') {
      const { invoiceId } = shop.write('billing.draftCollective', { customerId: payerId, jobs: [{ jobId }] });
      await issueDraft(shop, invoiceId);
      return [invoiceId];
    }
    const invoiceId = draft(jobId);
    if (how === 'split') {
      const { revision } = await read(invoiceId);
      const part = { by: 'share', sharePpm: 300_000 } as const;
      const { shareId } = shop.write('billing.splitDraft', { invoiceId, revision, part });
      await issueDraft(shop, invoiceId);
      await issueDraft(shop, shareId);
      return [invoiceId, shareId];
    }
    await issueDraft(shop, invoiceId);
    if (how !== 'again') return [invoiceId];
    shop.write('billing.creditInvoice', { invoiceId, lines: null, reason: 'wrong name' });
    const second = draft(jobId);
    await issueDraft(shop, second);
    return [second];
  }
});
