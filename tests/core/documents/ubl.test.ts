import { existsSync, readFileSync } from 'node:fs';
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
  };
  return view as unknown as InvoiceView;
}

type Node = { readonly text: string };
const NS = {
  cac: 'urn:oasis:names:specification:ubl:schema:xsd:CommonAggregateComponents-2',
  cbc: 'urn:oasis:names:specification:ubl:schema:xsd:CommonBasicComponents-2',
};

function reader(xml: string): { one(path: string): number; all(path: string): number[]; free(): void } {
  const doc = XmlDocument.fromString(xml);
  const texts = (at: string): string[] =>
    doc.root.find(at, NS).map((n) => (n as unknown as Node & { content: string }).content);
  return {
    one: (at) => Math.round(Number(texts(at)[0] ?? 0) * 100),
    all: (at) => texts(at).map((t) => Math.round(Number(t) * 100)),
    free: () => doc.dispose(),
  };
}

const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);

/** The arithmetic rules of EN 16931-1, as far as a document of this program can break them. */
function checkRules(xml: string): void {
  const doc = reader(xml);
  const total = (name: string): number => doc.one(`cac:LegalMonetaryTotal/cbc:${name}`);
  const line = xml.includes('<CreditNote ') ? 'CreditNoteLine' : 'InvoiceLine';
  expect(total('LineExtensionAmount')).toBe(sum(doc.all(`cac:${line}/cbc:LineExtensionAmount`))); // BR-CO-10
  const charge = (is: boolean): number =>
    sum(doc.all(`cac:AllowanceCharge[cbc:ChargeIndicator='${is}']/cbc:Amount`));
  expect(total('AllowanceTotalAmount')).toBe(charge(false)); // BR-CO-11
  expect(total('ChargeTotalAmount')).toBe(charge(true)); // BR-CO-12
  expect(total('TaxExclusiveAmount')).toBe(total('LineExtensionAmount') - charge(false) + charge(true)); // BR-CO-13
  const tax = doc.one('cac:TaxTotal/cbc:TaxAmount');
  expect(tax).toBe(sum(doc.all('cac:TaxTotal/cac:TaxSubtotal/cbc:TaxAmount'))); // BR-CO-14
  expect(total('TaxInclusiveAmount')).toBe(total('TaxExclusiveAmount') + tax); // BR-CO-15
  expect(total('PayableAmount')).toBe(
    total('TaxInclusiveAmount') - total('PrepaidAmount') + total('PayableRoundingAmount'),
  ); // BR-CO-16
  expect(doc.all(`cac:${line}/cac:Price/cbc:PriceAmount`).every((p) => p >= 0)).toBe(true); // BR-27
  doc.free();
}

describe('the invoice for machines', () => {
  it('keeps the sums of EN 16931 for 1,000 random documents of both kinds', () => {
    fc.assert(
      fc.property(anyBill, fc.constantFrom('invoice' as const, 'credit' as const), (bill, kind) => {
        checkRules(ublOf(invoiceOf(bill, kind)));
      }),
      { numRuns: 1000 },
    );
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
    expect(() => ublOf(without)).toThrow(/shop: tax number/);
  });
});

const reference = process.env['RAKELIGHT_REFERENCE'] ?? '';
const schemas = path.join(reference, 'en16931/ubl-2.1-xsd/maindoc');
const withSchemas = reference !== '' && existsSync(schemas);

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
