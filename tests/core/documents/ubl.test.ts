import { existsSync, readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import fc from 'fast-check';
import { XmlDocument, XsdValidator } from 'libxml2-wasm';
import { xmlRegisterFsInputProviders } from 'libxml2-wasm/lib/nodejs.mjs';
import { describe, expect, it } from 'vitest';
import { turned, turnedTotals } from '#core/billing/rules/credit.ts';
import { totalsOf } from '#core/billing/rules/totals.ts';
import { ublOf } from '#core/documents/ubl.ts';
import type { Bill, LineTax } from '#core/shared/bill.ts';
import { DomainError } from '#core/shared/errors.ts';
import type { InvoiceView } from '#core/shared/views/billing.ts';
import { brokenRules, RULES } from './en16931Rules.ts';

const VAT: LineTax = { code: 'standard', category: 'S', ratePpm: 190_000, name: 'VAT', reason: '' };
const TAXES: readonly LineTax[] = [
  VAT,
  { ...VAT, code: 'reduced', ratePpm: 77_500 },
  { ...VAT, code: 'zero', category: 'Z', ratePpm: 0 },
  { ...VAT, code: 'exempt', category: 'E', ratePpm: 0, reason: 'Small business' },
  { ...VAT, code: 'reverse', category: 'AE', ratePpm: 0, reason: 'Reverse charge' },
];

const anyBill = fc.record({
  lines: fc.array(
    fc.record({
      what: fc.constant('goods' as const),
      text: fc.constantFrom('Cut & refine <bonnet>', 'Wäsche "vorab"', 'a\u0001b'),
      quantity: fc.integer({ min: -50, max: 500 }),
      unit: fc.constantFrom('min' as const, 'piece' as const),
      per: fc.constantFrom(1, 60),
      priceMinor: fc.integer({ min: 0, max: 900_000 }),
      discountMinor: fc.constantFrom(0, 0, 125),
      tax: fc.constantFrom(...TAXES),
    }),
    { minLength: 1, maxLength: 8 },
  ),
  extras: fc.array(
    fc.record({
      text: fc.constant('extra'),
      amountMinor: fc.integer({ min: -5000, max: 5000 }),
      tax: fc.constantFrom(...TAXES),
    }),
    { maxLength: 2 },
  ),
  taxIncluded: fc.boolean(),
});

/** The same lines in a shop that is outside the scope of tax: one category and nothing else (BR-O-11). */
function outsideTax(bill: Bill): Bill {
  const tax: LineTax = { ...VAT, code: 'outside', category: 'O', ratePpm: 0, reason: 'Not registered' };
  return {
    ...bill,
    lines: bill.lines.map((line) => ({ ...line, tax })),
    extras: bill.extras.map((extra) => ({ ...extra, tax })),
  };
}

function invoiceOf(bill: Bill, kind: InvoiceView['kind'], currency = 'EUR'): InvoiceView {
  const party = {
    address: '4 Low Tannery Yard\nEmberwick\nFar Shire',
    email: 'desk@example.org',
    phone: '',
    country: 'DE',
  };
  const credit = kind === 'credit';
  const totals = credit ? turnedTotals(totalsOf(bill)) : totalsOf(bill);
  const view = {
    id: 'i',
    kind,
    number: 42,
    customer: { id: 'c', name: 'Marit & Söhne', ...party, taxNumber: 'DE111111111' },
    seller: {
      name: 'Emberwick Paintwork',
      ...party,
      taxNumber: 'DE000000000',
      currency,
      locale: 'en',
      paper: 'A4',
      bank: { holder: 'Emberwick Paintwork', iban: 'DE89370400440532013000', bic: '' },
    },
    bill: credit ? turned(bill) : bill,
    totals,
    prepaidMinor: 0,
    dueMinor: totals.toPayMinor,
    issuedDay: '2026-11-25',
    dueDay: '2026-12-09',
    suppliedDay: '2026-11-24',
    note: '',
    reason: credit ? 'one panel left out' : '',
    orderNumber: 'PO-7',
    of: credit ? { id: 'o', number: 41, kind: 'invoice', toPayMinor: 0 } : null,
    before: kind === 'partial' ? [{ id: 'b', number: 40, day: '2026-11-01', toPayMinor: 1 }] : [],
    progress: null,
  };
  return view as unknown as InvoiceView;
}

describe('the invoice for machines', () => {
  it('keeps every business rule of EN 16931 for 1,000 random documents of every kind', () => {
    const kinds = fc.constantFrom('invoice', 'prepayment', 'partial', 'credit');
    fc.assert(
      fc.property(anyBill, kinds, fc.boolean(), fc.nat(50_000), (bill, kind, outside, prepaid) => {
        const view = invoiceOf(outside ? outsideTax(bill) : bill, kind);
        const prepaidMinor = kind === 'invoice' ? Math.min(prepaid, Math.max(0, view.totals.toPayMinor)) : 0;
        const dueMinor = view.totals.toPayMinor - prepaidMinor;
        expect(brokenRules(ublOf({ ...view, prepaidMinor, dueMinor } as InvoiceView))).toEqual([]);
      }),
      { numRuns: 1000 },
    );
  }, 120_000);

  it('is held to each rule once, and each says where it comes from or why it is not there', () => {
    const ids = RULES.map((rule) => rule.id);
    expect(new Set(ids).size).toBe(ids.length);
    expect(RULES.every((rule) => ('holds' in rule ? rule.from : rule.not) !== '')).toBe(true);
  });

  it('is refused with the reason in a currency with three digits', () => {
    const bill: Bill = {
      lines: [
        {
          what: 'goods',
          text: 'x',
          quantity: 1,
          unit: 'piece',
          per: 1,
          priceMinor: 1,
          discountMinor: 0,
          tax: VAT,
        },
      ],
      extras: [],
      taxIncluded: false,
    };
    expect(() => ublOf(invoiceOf(bill, 'invoice', 'KWD'))).toThrow(DomainError);
    expect(ublOf(invoiceOf(bill, 'invoice', 'JPY'))).toContain(
      '<cbc:PayableAmount currencyID="JPY">1</cbc:PayableAmount>',
    );
  });

  it('names what is missing about the shop', () => {
    const view = invoiceOf({ lines: [], extras: [], taxIncluded: false }, 'invoice');
    const without = { ...view, seller: { ...view.seller, taxNumber: '' } };
    expect(() => ublOf(without)).toThrow('UBL_INCOMPLETE {"lacks":["shopTaxNumber"]}');
  });
});

const reference = process.env['RAKELIGHT_REFERENCE'] ?? '';
const schemas = path.join(reference, 'en16931/ubl-2.1-xsd/maindoc');
const withSchemas = reference !== '' && existsSync(schemas);

const examples = path.join(reference, 'en16931/examples');
const withExamples = reference !== '' && existsSync(examples);
const example = (name: string): string => readFileSync(path.join(examples, `ubl-tc434-${name}.xml`), 'utf8');

describe.skipIf(!withExamples)(
  'the rules themselves, on the official examples (needs RAKELIGHT_REFERENCE)',
  () => {
    it('are kept by each of them', () => {
      for (const file of readdirSync(examples)) {
        expect(brokenRules(readFileSync(path.join(examples, file), 'utf8')), file).toEqual([]);
      }
    });

    it('find the planted faults and no other', () => {
      expect(
        brokenRules(
          example('example3').replace('>2005.00</cbc:PayableAmount', '>2005.01</cbc:PayableAmount'),
        ),
      ).toEqual(['BR-CO-16']);
      expect(
        brokenRules(example('example2').replace('>365.28</cbc:TaxAmount', '>365.27</cbc:TaxAmount')),
      ).toEqual(['BR-CO-14', 'BR-CO-15']);
    });
  },
);

describe.skipIf(!withSchemas)('against the UBL 2.1 schemas (needs RAKELIGHT_REFERENCE)', () => {
  function validatorFor(root: 'Invoice' | 'CreditNote'): XsdValidator {
    xmlRegisterFsInputProviders();
    const file = path.join(schemas, `UBL-${root}-2.1.xsd`);
    return XsdValidator.fromDoc(XmlDocument.fromBuffer(readFileSync(file), { url: file }));
  }

  it.each(['Invoice', 'CreditNote'] as const)('200 random documents are valid: %s', (root) => {
    const validator = validatorFor(root);
    const kind = root === 'Invoice' ? 'invoice' : 'credit';
    fc.assert(
      fc.property(anyBill, (bill) => {
        const doc = XmlDocument.fromString(ublOf(invoiceOf(bill, kind)));
        validator.validate(doc);
        doc.dispose();
      }),
      { numRuns: 200 },
    );
    const bad = XmlDocument.fromString(ublOf(invoiceOf({ lines: [], extras: [], taxIncluded: false }, kind)));
    expect(() => validator.validate(bad)).toThrow();
    bad.dispose();
    validator.dispose();
  });
});
