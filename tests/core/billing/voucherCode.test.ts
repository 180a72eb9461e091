import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { seeded } from '#core/shared/random.ts';
import { sayError } from '#core/shared/text/sayError.ts';
import { checkSign, drawCode, printedCode, readCode } from '#core/shared/voucherCode.ts';
import { addTestJob, agreedJob, billJob } from '../../helpers/billing.ts';
import { pdfText } from '../../helpers/pdfText.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';

const code = fc.integer({ min: 1, max: 2 ** 31 - 1 }).map((seed) => {
  const random = seeded(seed);
  return drawCode(() => Math.floor(random() * 32));
});

function refusalIn(typed: string): string {
  try {
    readCode(typed);
    return 'read';
  } catch (refused) {
    return (refused as { readonly code: string }).code;
  }
}

describe('the sign that checks a code', () => {
  // ISO/IEC 7064, MOD 37-2: the example of the donation number in the documentation of python-stdnum,
  // stdnum.iso7064.mod_37_2 (from memory).
  it('is that of the worked example', () => {
    expect(checkSign('G123489654321')).toBe('Y');
  });

  it('tells every wrong sign and every pair of neighbours swapped', () => {
    const at = fc.integer({ min: 0, max: 8 });
    const sign = fc.constantFrom(...'23456789ABCDEFGHJKLMNPQRSTUVWXYZ');
    fc.assert(
      fc.property(code, at, sign, (plain, i, other) => {
        expect(readCode(` ${printedCode(plain).toLowerCase()} `)).toBe(plain);
        const wrong = plain.slice(0, i) + other + plain.slice(i + 1);
        expect(refusalIn(wrong)).toBe(wrong === plain ? 'read' : 'VOUCHER_CODE_TYPO');
        const swapped = [...plain];
        [swapped[i], swapped[i + 1]] = [swapped[i + 1] ?? '', swapped[i] ?? ''];
        const again = swapped.join('');
        expect(refusalIn(again)).toBe(again === plain ? 'read' : 'VOUCHER_CODE_TYPO');
      }),
      { numRuns: 200 },
    );
  });
});

describe('a voucher is used by what stands on it', () => {
  let shop: TestShop;
  beforeEach(() => {
    shop = openTestShop();
  });
  afterEach(() => shop.close());

  it('and what is mistyped is named', async () => {
    const { customerId } = addTestJob(shop);
    const sale = { customerId, amountMinor: 11_900, way: 'card', forName: '' } as const;
    const sold = shop.write('billing.sellVoucher', sale);
    const other = shop.write('billing.sellVoucher', sale).code;
    expect(other).not.toBe(sold.code);
    const invoiceId = await billJob(shop, agreedJob(shop).jobId);
    const said = async (typed: string): Promise<string> => {
      const reply = await shop.call('billing.useVoucher', { code: typed, invoiceId, amountMinor: 100 });
      return reply.ok ? 'taken' : sayError('en', reply.error);
    };
    expect(await said('1')).toContain('that has 9 signs, as in K7M-4QX-2RP, and this has 1.');
    expect(await said(sold.code.slice(1))).toContain('this has 8');
    expect(await said(`${sold.code.slice(1)}O`)).toContain('O is in no voucher’s code');
    const wrong = (sold.code.startsWith('A') ? 'B' : 'A') + sold.code.slice(1);
    expect(await said(wrong)).toContain(`${printedCode(wrong)} is mistyped`);
    const random = seeded(4711);
    const unknown = printedCode(drawCode(() => Math.floor(random() * 32)));
    expect(await said(unknown)).toContain(`No voucher of this shop has the code ${unknown}`);
    expect(await said(printedCode(sold.code).toLowerCase())).toBe('taken');
  });

  it('stands on its sheet, and the desk finds it by code, number or name', async () => {
    const { customerId } = addTestJob(shop, { name: 'Odo Lund' });
    const sold = shop.write('billing.sellVoucher', {
      ...{ customerId, amountMinor: 5000, way: 'card', forName: '' },
    });
    const { bytes } = await shop.read('billing.voucherFile', { voucherId: sold.voucherId });
    expect((await pdfText(bytes)).join(' ')).toContain(`Code ${printedCode(sold.code)}`);
    for (const search of ['1', 'lund', printedCode(sold.code).toLowerCase(), sold.code]) {
      const page = await shop.read('billing.listVouchers', { search });
      expect([page.total, page.rows[0]?.number], search).toEqual([1, 1]);
    }
  });
});
