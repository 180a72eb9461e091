import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it, test } from 'vitest';
import { withCharges } from '#core/billing/rules/charges.ts';
import { agreedLine } from '#core/billing/rules/quoteLines.ts';
import { sum, totalsOf } from '#core/billing/rules/totals.ts';
import type { LineTax } from '#core/shared/bill.ts';
import type { Minor, Ppm } from '#core/shared/units.ts';
import type { ChargeShares } from '#core/shared/views/shop.ts';
import {
  addTestJob,
  agreedJob,
  billJob,
  ctxOf,
  quoteJob,
  refusalOf,
  stageIdsOf,
  stopWith,
  testEstimate,
  workOn,
} from '../../helpers/billing.ts';
import { openTestShop, TEST_NOW, type TestShop } from '../../helpers/shop.ts';

const TAX: LineTax = { code: 'standard', category: 'S', ratePpm: 190_000, name: 'VAT', reason: '' };
const none = { minimumMinor: 0, rushPpm: 0, afterHoursPpm: 0 };
const charges = (some: Partial<Record<keyof ChargeShares, number>>): ChargeShares =>
  ({ ...none, ...some }) as ChargeShares;
const work = (...amounts: number[]) =>
  amounts.map((amount) => agreedLine('labour.cut', 'Cut', 60, amount as Minor, TAX));
const said = (what: string): string => what;
const amounts = (lines: ReturnType<typeof withCharges>) => lines.map((l) => [l.what, l.priceMinor]);

describe('what a job costs beside its work', () => {
  it('lifts a small job to the least that one costs, and leaves a larger one', () => {
    const least = charges({ minimumMinor: 12_000 });
    expect(amounts(withCharges(work(5000, 3000), least, TAX, said)).slice(2)).toEqual([['minimum', 4000]]);
    expect(withCharges(work(12_000), least, TAX, said)).toHaveLength(1);
  });

  it('adds each surcharge to the price as it is, the least included, and neither to the other', () => {
    const all = charges({ minimumMinor: 12_000, rushPpm: 250_000, afterHoursPpm: 100_000 });
    expect(amounts(withCharges(work(8000), all, TAX, said)).slice(1)).toEqual([
      ['minimum', 4000],
      ['rush', 3000],
      ['afterHours', 1200],
    ]);
  });

  it('rounds half a unit away from zero, and charges nothing on nothing', () => {
    expect(amounts(withCharges(work(5), charges({ rushPpm: 100_000 }), TAX, said))[1]).toEqual(['rush', 1]);
    expect(withCharges([], charges({ minimumMinor: 9000, rushPpm: 1 }), TAX, said)).toEqual([]);
  });

  it('whatever the work and the shares, lines sum to the document and it never costs less than the least', () => {
    const some = fc.record({
      minimumMinor: fc.nat(50_000),
      rushPpm: fc.nat(1_000_000),
      afterHoursPpm: fc.nat(1_000_000),
    });
    fc.assert(
      fc.property(fc.array(fc.nat(100_000), { minLength: 1, maxLength: 6 }), some, (parts, own) => {
        const lines = withCharges(work(...parts), charges(own), TAX, said);
        const { toPayMinor, lineShownMinor } = totalsOf({ lines, extras: [], taxIncluded: true });
        expect(sum(lineShownMinor)).toBe(toPayMinor);
        expect(toPayMinor).toBeGreaterThanOrEqual(Math.max(own.minimumMinor, sum(parts)));
      }),
    );
  });
});

let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
});
afterEach(() => shop.close());

const RUSH = { rush: true, afterHours: false, packageIds: [] } as const;
const linesOf = async (quoteId: string) =>
  (await shop.read('billing.readQuote', { quoteId })).options[0]?.bill.lines.map((l) => [
    l.what,
    l.priceMinor,
  ]);

describe('a quote', () => {
  it('asks for the least a job costs, and for rush where that was asked for', async () => {
    shop.write('shop.setCharge', { kind: 'minimum', amountMinor: 15_000 });
    shop.write('shop.setCharge', { kind: 'rush', sharePpm: 200_000 });
    const { jobId } = addTestJob(shop);
    const small = testEstimate(jobId, { labour: 9000, materials: 1000 });
    expect((await linesOf(quoteJob(shop, jobId, [small])))?.slice(-2)).toEqual([
      ['materials', 1000],
      ['minimum', 5000],
    ]);
    const quoteId = quoteJob(shop, jobId, [small], '', RUSH);
    expect((await linesOf(quoteId))?.slice(-2)).toEqual([
      ['minimum', 5000],
      ['rush', 3000],
    ]);
    const { options } = await shop.read('billing.readQuote', { quoteId });
    // 150.00 and a fifth on it
    expect(options[0]?.totals.toPayMinor).toBe(18_000);
  });

  it('keeps what stood on its day, whatever is set later, to the invoice', async () => {
    shop.write('shop.setCharge', { kind: 'minimum', amountMinor: 200_000 });
    const { jobId } = agreedJob(shop);
    shop.write('shop.setCharge', { kind: 'minimum', amountMinor: 0, fromDay: '2026-11-26' });
    shop.at(TEST_NOW + 2 * 86_400_000);
    const invoice = await shop.read('billing.readInvoice', { invoiceId: await billJob(shop, jobId) });
    expect(invoice.totals.toPayMinor).toBe(200_000);
    const other = addTestJob(shop);
    const later = await linesOf(quoteJob(shop, other.jobId, [testEstimate(other.jobId)]));
    expect(later?.map(([what]) => what)).not.toContain('minimum');
  });

  it('by time has the surcharge on the time that it took', async () => {
    shop.write('shop.setCharge', { kind: 'rush', sharePpm: 200_000 });
    const { jobId } = addTestJob(shop);
    const quoteId = quoteJob(shop, jobId, [testEstimate(jobId)], '', RUSH);
    shop.write('billing.acceptQuote', {
      quoteId,
      revision: 1,
      letter: 'A',
      name: 'Marit Vane',
      way: 'spoken',
    });
    shop.db.raw.prepare("UPDATE quote SET basis = 'byTime' WHERE job_id = ?").run(jobId);
    workOn(shop, stageIdsOf(shop, jobId)[0], 0, 60);
    const { invoiceId } = shop.write('billing.draftInvoice', { jobId });
    const { totals } = await shop.read('billing.readInvoice', { invoiceId });
    // an hour at 85.00 and 96.40 of material, a fifth on both
    expect(totals.toPayMinor).toBe(Math.round((8500 + 9640) * 1.2));
  });

  it('stopped half way has it on what was done, and no least', async () => {
    shop.write('shop.setCharge', { kind: 'minimum', amountMinor: 100_000 });
    shop.write('shop.setCharge', { kind: 'rush', sharePpm: 200_000 });
    const { jobId } = addTestJob(shop);
    const quoteId = quoteJob(shop, jobId, [testEstimate(jobId)], '', RUSH);
    shop.write('billing.acceptQuote', {
      quoteId,
      revision: 1,
      letter: 'A',
      name: 'Marit Vane',
      way: 'spoken',
    });
    stopWith(shop, jobId, [1_000_000, 0, 0]);
    const { invoiceId } = shop.write('billing.draftInvoice', { jobId });
    const { bill, totals } = await shop.read('billing.readInvoice', { invoiceId });
    const done = sum(bill.lines.filter((l) => l.what !== 'rush').map((l) => l.priceMinor));
    expect(bill.lines.map((l) => l.what)).toEqual(['labour.prepare', 'materials', 'rush']);
    expect(totals.toPayMinor).toBe(done + Math.round(done * 0.2));
  });
});

const PACKAGE = {
  name: 'Two steps and sealant',
  wish: 'twoStage' as const,
  protection: 'sealant' as const,
  bodies: ['saloon' as const, 'hatch' as const],
  priceMinor: 79_000,
};

describe('a package', () => {
  const quoteWith = (packageId: string) => {
    const { jobId } = addTestJob(shop);
    const how = { ...RUSH, rush: false, packageIds: [packageId] };
    return { jobId, quoteId: quoteJob(shop, jobId, [testEstimate(jobId)], '', how) };
  };

  it('is one line at its price with all hours of the estimate, billed as agreed', async () => {
    const { id } = shop.write('shop.setPackage', PACKAGE);
    const { jobId, quoteId } = quoteWith(id);
    expect(await linesOf(quoteId)).toEqual([['package', 79_000]]);
    shop.write('billing.acceptQuote', {
      quoteId,
      revision: 1,
      letter: 'A',
      name: 'Marit Vane',
      way: 'spoken',
    });
    const invoice = await shop.read('billing.readInvoice', { invoiceId: await billJob(shop, jobId) });
    expect([invoice.totals.toPayMinor, invoice.bill.lines[0]?.text]).toEqual([79_000, PACKAGE.name]);
    expect(await refusalOf(shop, 'billing.draftInvoice', { jobId })).toBe('JOB_ALREADY_BILLED');
    expect((await shop.read('billing.readDesk', {})).toBill).toEqual([]);
  });

  it('stopped half way is billed by its share of the work', async () => {
    const { id } = shop.write('shop.setPackage', PACKAGE);
    const { jobId, quoteId } = quoteWith(id);
    shop.write('billing.acceptQuote', {
      quoteId,
      revision: 1,
      letter: 'A',
      name: 'Marit Vane',
      way: 'spoken',
    });
    stopWith(shop, jobId, [1_000_000]);
    const { invoiceId } = shop.write('billing.draftInvoice', { jobId });
    // The wash is 60 of the 570 minutes that the package stands for.
    const { totals } = await shop.read('billing.readInvoice', { invoiceId });
    expect(totals.toPayMinor).toBe(Math.round((79_000 * 60) / 570));
  });

  it('is refused for other work, for a price by time, and once it is no longer offered', async () => {
    const { id: clean } = shop.write('shop.setPackage', { ...PACKAGE, name: 'Clean', wish: 'clean' });
    const { id: vans } = shop.write('shop.setPackage', { ...PACKAGE, name: 'Vans', bodies: ['van'] });
    const { id } = shop.write('shop.setPackage', PACKAGE);
    expect(() => quoteWith(clean)).toThrow('PACKAGE_OTHER_WORK');
    expect(() => quoteWith(vans)).toThrow('PACKAGE_OTHER_WORK');
    const { jobId } = addTestJob(shop);
    const byTime = { ...RUSH, packageIds: [id], basis: 'byTime' } as const;
    expect(() => quoteJob(shop, jobId, [testEstimate(jobId)], '', byTime)).toThrow('PACKAGE_FIXED');
    const later = shop.write('shop.setPackage', { ...PACKAGE, name: 'From tomorrow', fromDay: '2026-11-26' });
    expect(() => quoteWith(later.id)).toThrow(
      expect.objectContaining({ code: 'PACKAGE_NOT_OFFERED', data: { name: 'From tomorrow' } }),
    );
    shop.write('shop.setPackage', { ...PACKAGE, priceMinor: null, fromDay: '2026-11-26' });
    shop.at(TEST_NOW + 86_400_000);
    expect(() => quoteWith(id)).toThrow('PACKAGE_NOT_OFFERED');
  });

  it('keeps its price in a quote when it costs more from the next day on', async () => {
    const { id } = shop.write('shop.setPackage', PACKAGE);
    const { quoteId } = quoteWith(id);
    shop.write('shop.setPackage', { ...PACKAGE, priceMinor: 89_000, fromDay: '2026-11-26' });
    shop.at(TEST_NOW + 86_400_000);
    expect(await linesOf(quoteId)).toEqual([['package', 79_000]]);
    expect(await linesOf(quoteWith(id).quoteId)).toEqual([['package', 89_000]]);
  });
});

describe('the same name again', () => {
  const SEAL = {
    name: 'Wash and seal',
    wish: 'protect',
    interior: true,
    bodies: ['hatch'],
    priceMinor: 24_000,
  };
  const rows = async () =>
    (await shop.read('shop.page', {})).packages.map(({ wish, interior, bodies, priceMinor, holds }) => ({
      ...{ wish, interior, bodies, priceMinor, holds },
    }));
  const work = { wish: 'protect', interior: true, bodies: ['hatch'] };

  it('sets a new price of the same work, today or later', async () => {
    shop.write('shop.setPackage', SEAL as never);
    shop.write('shop.setPackage', { name: ' Wash  and seal', priceMinor: 26_000, fromDay: '2026-11-26' });
    expect(await rows()).toEqual([
      { ...work, priceMinor: 26_000, holds: false },
      { ...work, priceMinor: 24_000, holds: true },
    ]);
    shop.write('shop.setPackage', { name: 'Wash and seal', priceMinor: 25_000 });
    expect((await rows())[1]).toEqual({ ...work, priceMinor: 25_000, holds: true });
  });

  it('changes the part of its work that is said, and ends with all of it kept', async () => {
    shop.write('shop.setPackage', SEAL as never);
    shop.write('shop.setPackage', { name: 'Wash and seal', bodies: ['hatch', 'saloon'], priceMinor: 25_000 });
    const wider = { ...work, bodies: ['hatch', 'saloon'] };
    expect(await rows()).toEqual([{ ...wider, priceMinor: 25_000, holds: true }]);
    shop.write('shop.setPackage', { name: 'Wash and seal', wish: 'twoStage', bodies: [], priceMinor: null });
    expect(await rows()).toEqual([{ ...wider, priceMinor: null, holds: true }]);
  });

  it('asks what work it is where there is none of the name', async () => {
    const none = { name: 'Wash and steal', priceMinor: 26_000 };
    expect(await refusalOf(shop, 'shop.setPackage', none)).toBe('PACKAGE_WORK_MISSING');
    const ended = { ...none, wish: 'protect', priceMinor: null };
    expect(await refusalOf(shop, 'shop.setPackage', ended)).toBe('PACKAGE_WORK_MISSING');
  });
});

test('charges and packages are never of a day that is past, and never removed', async () => {
  const past = { kind: 'minimum', amountMinor: 1, fromDay: '2026-11-24' };
  expect(await refusalOf(shop, 'shop.setCharge', past)).toBe('DAY_PAST');
  shop.write('shop.setCharge', { kind: 'minimum', amountMinor: 100 });
  shop.write('shop.setPackage', PACKAGE);
  expect(() => ctxOf(shop).db.raw.exec('DELETE FROM charge')).toThrow('charges are kept');
  expect(() => ctxOf(shop).db.raw.exec('DELETE FROM package_price')).toThrow('packages are kept');
  const page = await shop.read('shop.page', {});
  expect([page.charges[0]?.holds, page.packages[0]?.priceMinor]).toEqual([true, 79_000 as Minor]);
  expect(page.charges[0]?.sharePpm).toBe(0 as Ppm);
});
