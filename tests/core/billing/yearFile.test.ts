import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { agreedJob, billJob, bookingsOf } from '../../helpers/billing.ts';
import { pdfText } from '../../helpers/pdfText.ts';
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
  it('has each document as the original, also where it was printed before', async () => {
    const invoiceId = await billJob(shop, agreedJob(shop).jobId);
    shop.write('billing.notePrint', { invoiceId });
    shop.write('billing.notePrint', { invoiceId });
    await unpacked(YEAR);
    const paper = await pdfText(new Uint8Array(readFileSync(path.join(dir, 'documents/invoice-1.pdf'))));
    expect(paper.join(' ')).toContain('Invoice 1');
    expect(paper.join(' ')).not.toContain('Copy');
  });

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
    expect(lines).toHaveLength(8 + 6);
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

  it('lists whose money was held, in all what the journal then owes for deposits and credits', async () => {
    const [a, b, c] = [agreedJob(shop), agreedJob(shop), agreedJob(shop)];
    shop.write('billing.takeDeposit', { jobId: a.jobId, amountMinor: 18_000, way: 'card' });
    shop.write('billing.takeDeposit', { jobId: b.jobId, amountMinor: 20_000, way: 'cash' });
    const paid = await billJob(shop, c.jobId);
    shop.write('billing.takePayment', { invoiceIds: [paid], amountMinor: 90_390, way: 'card' });
    const lines = [{ line: 0, amountMinor: 5000 }];
    shop.write('billing.creditInvoice', { invoiceId: paid, lines, reason: 'haze' });
    shop.write('billing.keepAsCredit', { invoiceId: paid, amountMinor: 5000 });
    shop.at(TEST_NOW + 3 * 86_400_000);
    await billJob(shop, a.jobId);
    shop.write('billing.settleDeposit', { jobId: b.jobId, outcome: 'returned', feeMinor: 3000, way: 'cash' });
    for (const toDay of ['2026-11-26', '2026-12-31']) {
      const text = await unpacked({ ...YEAR, toDay });
      const owed = bookingsOf(new TextEncoder().encode(text('journal.csv')))
        .filter((x) => x.account === 'depositsHeld' || x.account === 'creditsHeld')
        .reduce((sum, x) => sum + x.creditMinor - x.debitMinor, 0);
      const rows = text('held-money.csv').trim().split('\r\n').slice(1);
      const held = rows.reduce((sum, row) => sum + Math.round(100 * Number(row.split(',').at(-1))), 0);
      expect(held).toBe(owed);
      expect(rows[0] ?? '').toMatch(
        toDay < '2026-12' ? /^deposits held,Marit Vane,1,2026-11-25,1,180.00,180.00$/ : /^credits/,
      );
      expect(rows).toHaveLength(toDay < '2026-12' ? 3 : 1);
    }
  });

  it('values stock as the shop chose, in the units of lists, and writes what is below zero as a figure', async () => {
    const { itemId } = shop.write('stock.addItem', {
      ...{ name: 'Compound', unit: 'ul', packSize: 1_000_000 },
      opening: { amount: 620_000, valueMinor: 2000 },
    });
    const { itemId: cloth } = shop.write('stock.addItem', { name: 'Cloths', unit: 'piece', packSize: 1 });
    const moved = (id: string, qty: number, valueMinor: number): unknown =>
      shop.db.raw
        .prepare(
          `INSERT INTO stock_movement (item_id, qty, value_minor, reason, at_ms, note)
           VALUES (?, ?, ?, 'delivery', ?, '')`,
        )
        .run(id, qty, valueMinor, TEST_NOW);
    // a dearer bottle came, then one bottle's worth went at the average of 6.00 for 1240 ml
    moved(itemId, 620_000, 4000);
    moved(itemId, -620_000, -3000);
    moved(cloth, -250, 0);
    const average = (await unpacked(YEAR))('stock.csv');
    expect(average).toBe(
      'item,amount,unit,worth at the moving average\r\nCloths,-250,piece,0.00\r\nCompound,620,ml,30.00\r\n',
    );
    shop.db.raw.prepare(`UPDATE shop SET settings = '{"stock":{"costing":"fifo"}}'`).run();
    const fifo = (await unpacked(YEAR))('stock.csv');
    expect(fifo).toBe(
      'item,amount,unit,"worth, first in first out"\r\nCloths,-250,piece,0.00\r\nCompound,620,ml,40.00\r\n',
    );
  });

  it('names the numbers that are missing before those of the period, not those of other years', async () => {
    await billJob(shop, agreedJob(shop).jobId);
    const { jobId } = agreedJob(shop);
    shop.at(TEST_NOW + 3 * 86_400_000);
    // a copy was put back: papers up to 4 are known of
    shop.db.raw.prepare('UPDATE issue_check SET ask = 1').run();
    shop.write('billing.confirmNumber', { lastOnPaper: 4 });
    await billJob(shop, jobId);
    const proof = async (fromDay: string, toDay: string): Promise<string> =>
      (await unpacked({ fromDay, toDay }))('proof.csv');
    expect(await proof('2026-01-01', '2026-12-31')).toContain(',missing numbers,none,');
    // as if nothing had been read from paper
    shop.db.raw.prepare(`UPDATE issue_check SET read_nos = '[]'`).run();
    expect(await proof('2026-01-01', '2026-11-26')).toContain(',missing numbers,none,');
    expect(await proof('2026-01-01', '2026-12-31')).toContain(',missing numbers,2–4,');
    expect(await proof('2026-11-27', '2026-12-31')).toContain(',missing numbers,2–4,');
  });

  it('says which document has no form for machines, and why', async () => {
    shop.write('shop.update', { revision: 1, taxNumber: '' });
    await billJob(shop, agreedJob(shop).jobId);
    const text = await unpacked(YEAR);
    expect(readdirSync(path.join(dir, 'documents'))).toEqual(['invoice-1.pdf']);
    expect(text('without-e-invoice.csv')).toMatch(/\n1,.*needs more about the shop/);
  });
});
