import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { agreedJob, billJob, bookingsOf } from '../../helpers/billing.ts';
import { openTestShop, TEST_NOW, type TestShop } from '../../helpers/shop.ts';

const hasUnzip = spawnSync('unzip', ['-v']).status === 0;
const YEAR = { fromDay: '2026-01-01', toDay: '2026-12-31' };
let shop: TestShop;
let dir: string;
beforeEach(() => {
  shop = openTestShop();
  dir = mkdtempSync(path.join(os.tmpdir(), 'rakelight-year-'));
});
afterEach(() => {
  shop.close();
  rmSync(dir, { recursive: true, force: true });
});

/** Unpacks the folder by a program that is not ours. */
async function unpacked(year: { fromDay: string; toDay: string }): Promise<(name: string) => string> {
  const file = await shop.read('billing.yearFile', year);
  const at = path.join(dir, file.fileName);
  writeFileSync(at, file.bytes);
  execFileSync('unzip', ['-qo', at, '-d', dir]);
  return (name) => readFileSync(path.join(dir, name), 'utf8');
}

describe.skipIf(!hasUnzip)('everything an accountant asks for, as one folder (needs unzip)', () => {
  it('has the books, the papers and the lists, and a checksum of each that is right', async () => {
    const paid = await billJob(shop, agreedJob(shop).jobId);
    shop.write('billing.takePayment', { invoiceIds: [paid], amountMinor: 90_390, way: 'card' });
    const part = await billJob(shop, agreedJob(shop).jobId);
    shop.write('billing.takePayment', { invoiceIds: [part], amountMinor: 40_000, way: 'transfer' });
    shop.write('billing.creditInvoice', {
      invoiceId: part,
      lines: [{ line: 0, amountMinor: 390 }],
      reason: 'haze',
    });
    const text = await unpacked(YEAR);
    expect(readdirSync(path.join(dir, 'documents')).sort()).toEqual([
      ...['credit-note-3.pdf', 'credit-note-3.xml', 'invoice-1.pdf', 'invoice-1.xml'],
      ...['invoice-2.pdf', 'invoice-2.xml'],
    ]);
    // 903.90 less 3.90 credited and 400.00 paid
    expect(text('open-items.csv')).toContain('\r\n2,Marit Vane,2026-11-25,2026-12-09,903.90,500.00\r\n');
    const proof = text('proof.csv');
    expect(proof).toMatch(/,difference,0.00,/);
    expect(proof).toContain(',first and last number,1,3\r\n');
    expect(proof).toContain(',missing numbers,none,');
    const lines = text('checksums.sha256').trim().split('\n');
    expect(lines).toHaveLength(6 + 6);
    expect(execFileSync('sha256sum', ['-c', '--quiet', 'checksums.sha256'], { cwd: dir }).toString()).toBe(
      '',
    );
  });

  it('lists as open what the journal says customers owe, as it stood on the last day', async () => {
    const paid = await billJob(shop, agreedJob(shop).jobId);
    shop.at(TEST_NOW + 3 * 86_400_000);
    shop.write('billing.takePayment', { invoiceIds: [paid], amountMinor: 50_000, way: 'card' });
    const before = { ...YEAR, toDay: '2026-11-26' };
    expect((await unpacked(before))('open-items.csv')).toContain(',903.90,903.90\r\n');
    const after = await unpacked(YEAR);
    expect(after('open-items.csv')).toContain(',903.90,403.90\r\n');
    const owed = bookingsOf(new TextEncoder().encode(after('journal.csv')))
      .filter((b) => b.account === 'receivables')
      .reduce((sum, b) => sum + b.debitMinor - b.creditMinor, 0);
    expect(owed).toBe(40_390);
  });

  it('says which document has no form for machines, and why', async () => {
    shop.write('shop.update', { revision: 1, taxNumber: '' });
    await billJob(shop, agreedJob(shop).jobId);
    const text = await unpacked(YEAR);
    expect(readdirSync(path.join(dir, 'documents'))).toEqual(['invoice-1.pdf']);
    expect(text('without-e-invoice.csv')).toMatch(/\n1,.*needs more about the shop/);
  });
});
