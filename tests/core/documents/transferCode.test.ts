import fc from 'fast-check';
import { decodeQR } from 'qr/decode.js';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Modules } from '#core/documents/barcode.ts';
import { transferCode, transferLines } from '#core/documents/transferCode.ts';
import { isBic, isIban, plainIban, printedIban } from '#core/shared/iban.ts';
import { agreedJob, billJob, refusalOf } from '../../helpers/billing.ts';
import { filledRects, marksOf, pdfText } from '../../helpers/pdfText.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';

/** The examples of the registry of account numbers that ISO 13616 names; they belong to nobody. */
const PUBLISHED = ['DE89 3704 0044 0532 0130 00', 'GB29 NWBK 6016 1331 9268 19', 'NO93 8601 1117 947'];
const BANK = { holder: 'Lackpflege Müller & Söhne €', iban: 'DE89370400440532013000', bic: '' };

describe('an account number', () => {
  it('is right for the published examples, written with blanks or without', () => {
    for (const iban of PUBLISHED) {
      expect(isIban(plainIban(iban))).toBe(true);
      expect(printedIban(plainIban(iban))).toBe(iban);
    }
  });

  it('is wrong with any one figure changed, or two neighbours swapped', () => {
    const right = 'DE89370400440532013000';
    fc.assert(
      fc.property(fc.integer({ min: 2, max: 21 }), fc.integer({ min: 1, max: 9 }), (at, by) => {
        const other = (Number(right[at]) + by) % 10;
        expect(isIban(`${right.slice(0, at)}${other}${right.slice(at + 1)}`)).toBe(false);
        const [a = '', b = ''] = [right[at - 1], right[at]];
        if (at > 4 && a !== b)
          expect(isIban(`${right.slice(0, at - 1)}${b}${a}${right.slice(at + 1)}`)).toBe(false);
      }),
    );
  });

  it('and a bank’s code are told from what is none by their form', () => {
    for (const wrong of ['', 'DE89', 'de89370400440532013000', '8937DE0400440532013000'])
      expect(isIban(wrong)).toBe(false);
    expect(['ABCDDEFF', 'ABCDDEFFXXX', 'ABCDDEF', '', 'ABCDDEFFXX'].map(isBic)).toEqual([
      true,
      true,
      false,
      false,
      false,
    ]);
  });
});

describe('the lines of a transfer', () => {
  const whole = { bank: BANK, amountMinor: 108_468, currency: 'EUR', text: 'Invoice 42' };

  it('are those of the published form, in its order', () => {
    // By hand after EPC069-12: tag, version, UTF-8, transfer, bank, name, account, amount, purpose, reference, text.
    expect(transferLines(whole)?.split('\n')).toEqual([
      ...['BCD', '002', '1', 'SCT', '', BANK.holder, BANK.iban, 'EUR1084.68', '', '', 'Invoice 42'],
    ]);
    expect(transferLines({ ...whole, bank: { ...BANK, bic: 'ABCDDEFFXXX' } })?.split('\n')[4]).toBe(
      'ABCDDEFFXXX',
    );
  });

  it('leave out what is empty at the end', () => {
    expect(transferLines({ ...whole, text: '' })).toMatch(/EUR1084\.68$/);
  });

  it('are none in another currency, without an amount, above the most, or where more is said than fits', () => {
    expect(transferLines({ ...whole, currency: 'CHF' })).toBeNull();
    expect(transferLines({ ...whole, amountMinor: 0 })).toBeNull();
    expect(transferLines({ ...whole, amountMinor: 100_000_000_000 })).toBeNull();
    expect(transferLines({ ...whole, amountMinor: 99_999_999_999 })).toContain('EUR999999999.99');
    expect(
      transferLines({ ...whole, bank: { ...BANK, holder: '€'.repeat(70) }, text: '€'.repeat(140) }),
    ).toBeNull();
  });

  it('come back sign for sign from the code, whatever name, amount and text', () => {
    const words = fc.string({ unit: fc.constantFrom(...'aZ09äßŁ€ &-.'), minLength: 1, maxLength: 70 });
    fc.assert(
      fc.property(words, words, fc.integer({ min: 1, max: 99_999_999_999 }), (holder, text, amountMinor) => {
        const transfer = { ...whole, bank: { ...BANK, holder }, text, amountMinor };
        const lines = transferLines(transfer);
        const code = transferCode(transfer);
        expect(code === null).toBe(lines === null);
        if (code && lines) expect(read(darkOf(code), 1)).toBe(lines);
      }),
      { numRuns: 60 },
    );
  });
});

function darkOf(code: Modules): { x: number; y: number; width: number; height: number }[] {
  const edge = Array.from({ length: code.size }, (_, i) => i);
  const places = edge.flatMap((y) => edge.map((x) => ({ x, y, width: 1, height: 1 })));
  return places.filter(({ x, y }) => code.isDark(y, x));
}

/** What a reader that had no part in drawing makes of filled rectangles; `module` is the edge of the smallest. */
function read(
  rects: readonly { x: number; y: number; width: number; height: number }[],
  module: number,
): string {
  const [left, top] = [Math.min(...rects.map((r) => r.x)), Math.min(...rects.map((r) => r.y))];
  const per = 4;
  const at = (value: number): number => Math.round((value / module) * per);
  const edge = at(Math.max(...rects.map((r) => r.x + r.width)) - left) + 8 * per;
  const data = new Uint8ClampedArray(edge * edge * 4).fill(255);
  for (const r of rects)
    for (let y = at(r.y - top); y < at(r.y - top + r.height); y += 1)
      for (let x = at(r.x - left); x < at(r.x - left + r.width); x += 1)
        data.fill(0, ((y + 4 * per) * edge + x + 4 * per) * 4, ((y + 4 * per) * edge + x + 4 * per) * 4 + 3);
  return decodeQR({ width: edge, height: edge, data });
}

describe('an invoice in euro', () => {
  let shop: TestShop;
  beforeEach(() => {
    shop = openTestShop();
    shop.db.raw.prepare("UPDATE shop SET locale = 'en-GB'").run();
  });
  afterEach(() => shop.close());

  function set(setting: string, value: string): Promise<string> {
    const revision = shop.db.raw.prepare('SELECT revision FROM shop').pluck().get();
    return refusalOf(shop, 'shop.changeSettings', { revision, changes: [{ setting, value }] });
  }

  it('carries a code that says what is still to pay and where to, and the same in words', async () => {
    expect(await set('billing.iban', 'de89 3704 0044 0532 0130 00')).toBe('accepted');
    const invoiceId = await billJob(shop, agreedJob(shop).jobId);
    shop.write('billing.takePayment', { invoiceIds: [invoiceId], amountMinor: 390, way: 'cash' });
    const { bytes } = await shop.read('billing.invoiceFile', { invoiceId });
    expect((await pdfText(bytes)).join(' ')).toContain('IBAN DE89 3704 0044 0532 0130 00');
    expect((await marksOf(bytes)).alts).toContain('Code of the transfer for a banking program');
    const rects = await filledRects(bytes);
    const module = Math.min(...rects.map((r) => r.height));
    const { name } = (await shop.read('billing.readInvoice', { invoiceId })).seller;
    expect(read(rects, module).split('\n')).toEqual([
      ...['BCD', '002', '1', 'SCT', '', name, 'DE89370400440532013000', 'EUR900.00', '', '', 'Invoice 1'],
    ]);
  });

  it('carries none once it is paid, and none without an account', async () => {
    const without = await billJob(shop, agreedJob(shop).jobId);
    expect(await filledRects((await shop.read('billing.invoiceFile', { invoiceId: without })).bytes)).toEqual(
      [],
    );
    await set('billing.iban', 'DE89370400440532013000');
    const paid = await billJob(shop, agreedJob(shop).jobId);
    shop.write('billing.takePayment', { invoiceIds: [paid], amountMinor: 90_390, way: 'cash' });
    expect(await filledRects((await shop.read('billing.invoiceFile', { invoiceId: paid })).bytes)).toEqual(
      [],
    );
  });

  it('takes no account whose check digits are wrong', async () => {
    expect(await set('billing.iban', 'DE88370400440532013000')).toBe('SETTING_OUT_OF_RANGE');
    expect(await set('billing.bic', 'ABC')).toBe('SETTING_OUT_OF_RANGE');
    expect(await set('billing.iban', '')).toBe('accepted');
  });
});
