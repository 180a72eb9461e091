import type { UblFact } from '../shared/errors/billing.ts';
import { refuse } from '../shared/errors.ts';
import { currencyDigits } from '../shared/money.ts';
import { minorToDecimal } from '../shared/text/format.ts';
import type { InvoiceView } from '../shared/views/billing.ts';
import { ublLines } from './ublLines.ts';
import { type UblMoney, ublTax } from './ublParts.ts';
import { ublParty } from './ublParty.ts';
import { leaf, tree, type Xml } from './xml.ts';

/**
 * An issued document as UBL 2.1 after EN 16931. Credit notes are written with positive amounts.
 * @throws INVOICE_NOT_ISSUED · UBL_CURRENCY_DIGITS for a currency with more than two digits ·
 * UBL_STACKED_TAX where several taxes are due on one line: it has one tax category (BT-151) ·
 * UBL_INCOMPLETE naming what is missing
 * @source EN 16931-1; CEN/TS 16931-3-2 (syntax binding to UBL 2.1)
 */
export function ublOf(invoice: InvoiceView): string {
  const { issuedDay, number } = invoice;
  if (number === null || issuedDay === null) return refuse('INVOICE_NOT_ISSUED', {});
  const currency = invoice.seller.currency;
  if (currencyDigits(currency) > 2) refuse('UBL_CURRENCY_DIGITS', { currency });
  const stacked = [...invoice.bill.lines, ...invoice.bill.extras].find((part) => part.tax.parts);
  if (stacked) refuse('UBL_STACKED_TAX', { text: stacked.text });
  checkComplete(invoice);
  const money = moneyOf(invoice);
  const root = money.credit ? 'CreditNote' : 'Invoice';
  const outside = invoice.totals.taxes.some((t) => t.category === 'O');
  const body = [
    leaf('cbc:CustomizationID', 'urn:cen.eu:en16931:2017'),
    leaf('cbc:ID', String(number)),
    leaf('cbc:IssueDate', issuedDay),
    money.credit ? '' : leaf('cbc:DueDate', invoice.dueDay ?? issuedDay),
    typeCode(invoice),
    leaf('cbc:Note', [invoice.reason, invoice.note].filter(Boolean).join('\n')),
    leaf('cbc:DocumentCurrencyCode', currency),
    tree('cac:OrderReference', leaf('cbc:ID', invoice.orderNumber)),
    precedingOf(invoice),
    tree('cac:AccountingSupplierParty', ublParty(invoice.seller, outside)),
    tree('cac:AccountingCustomerParty', ublParty(invoice.customer, outside)),
    tree('cac:Delivery', leaf('cbc:ActualDeliveryDate', invoice.suppliedDay ?? '')),
    paymentMeans(invoice),
    ...extrasOf(invoice, money),
    taxTotal(invoice, money),
    monetaryTotal(invoice, money),
    ...ublLines(invoice, money),
  ].join('');
  return `<?xml version="1.0" encoding="UTF-8"?>\n<${root} ${namespaces(root)}>${body}</${root}>\n`;
}

function namespaces(root: string): string {
  const schema = 'urn:oasis:names:specification:ubl:schema:xsd:';
  return [
    `xmlns="${schema}${root}-2"`,
    `xmlns:cac="${schema}CommonAggregateComponents-2"`,
    `xmlns:cbc="${schema}CommonBasicComponents-2"`,
  ].join(' ');
}

/** What the rules ask for and this document lacks. @source EN 16931-1 BR-08 to BR-11, BR-S-02, BR-AE-02, BR-CO-26 */
function checkComplete(invoice: InvoiceView): void {
  const reverse = invoice.totals.taxes.some((t) => t.category === 'AE');
  const lacks: UblFact[] = [];
  if (invoice.seller.country === '') lacks.push('shopCountry');
  if (invoice.seller.taxNumber === '') lacks.push('shopTaxNumber');
  if (invoice.customer.country === '') lacks.push('customerCountry');
  if (reverse && invoice.customer.taxNumber === '') lacks.push('customerTaxNumber');
  if (lacks.length > 0) refuse('UBL_INCOMPLETE', { lacks });
}

function moneyOf(invoice: InvoiceView): UblMoney {
  const { currency } = invoice.seller;
  const digits = currencyDigits(currency);
  const sign = invoice.kind === 'credit' ? -1 : 1;
  const plain = (minor: number): string => minorToDecimal(sign * minor || 0, digits);
  return {
    credit: invoice.kind === 'credit',
    plain,
    amount: (name, minor) => leaf(name, plain(minor), ` currencyID="${currency}"`),
  };
}

const TYPE_CODES = { invoice: '380', prepayment: '386', partial: '326' } as const;

/** @source UNTDID 1001: 380 invoice, 386 prepayment invoice, 326 partial invoice, 381 credit note; EN 16931-1 BT-3 */
function typeCode(invoice: InvoiceView): Xml {
  if (invoice.kind === 'credit') return leaf('cbc:CreditNoteTypeCode', '381');
  return leaf('cbc:InvoiceTypeCode', TYPE_CODES[invoice.kind]);
}

/** The document that a credit note corrects, the partial invoices before this one (BG-3), with their days (BT-26). */
function precedingOf(invoice: InvoiceView): Xml {
  const before = invoice.before.map(({ number, day }) => ({ number, day: day as string }));
  return [...(invoice.of ? [{ number: invoice.of.number, day: '' }] : []), ...before]
    .map(({ number, day }) =>
      tree(
        'cac:BillingReference',
        tree('cac:InvoiceDocumentReference', leaf('cbc:ID', String(number)), leaf('cbc:IssueDate', day)),
      ),
    )
    .join('');
}

/**
 * How to pay, where the shop names an account: code 58 within the euro's transfers, 30 for any other (BG-16, BG-17).
 * @source UNTDID 4461; EN 16931-1 BR-49, BR-50, BR-61
 */
function paymentMeans(invoice: InvoiceView): Xml {
  const { bank, currency } = invoice.seller;
  if (!bank || invoice.kind === 'credit') return '';
  return tree(
    'cac:PaymentMeans',
    leaf('cbc:PaymentMeansCode', currency === 'EUR' ? '58' : '30'),
    leaf('cbc:PaymentID', String(invoice.number)),
    tree(
      'cac:PayeeFinancialAccount',
      leaf('cbc:ID', bank.iban),
      leaf('cbc:Name', bank.holder),
      tree('cac:FinancialInstitutionBranch', leaf('cbc:ID', bank.bic)),
    ),
  );
}

function extrasOf(invoice: InvoiceView, money: UblMoney): Xml[] {
  return invoice.bill.extras.map((extra, i) => {
    const net = invoice.totals.extraNetMinor[i] ?? 0;
    const isCharge = money.credit ? net < 0 : net > 0;
    return tree(
      'cac:AllowanceCharge',
      leaf('cbc:ChargeIndicator', String(isCharge)),
      leaf('cbc:AllowanceChargeReason', extra.text),
      money.amount('cbc:Amount', (money.credit ? -1 : 1) * Math.abs(net)),
      ublTax('cac:TaxCategory', extra.tax),
    );
  });
}

function taxTotal(invoice: InvoiceView, money: UblMoney): Xml {
  return tree(
    'cac:TaxTotal',
    money.amount('cbc:TaxAmount', invoice.totals.taxMinor),
    ...invoice.totals.taxes.map((tax) =>
      tree(
        'cac:TaxSubtotal',
        money.amount('cbc:TaxableAmount', tax.taxableMinor),
        money.amount('cbc:TaxAmount', tax.taxMinor),
        ublTax('cac:TaxCategory', tax, tax.reason),
      ),
    ),
  );
}

function monetaryTotal(invoice: InvoiceView, money: UblMoney): Xml {
  const { totals, prepaidMinor, dueMinor } = invoice;
  const some = (name: string, minor: number): Xml => (minor === 0 ? '' : money.amount(name, minor));
  return tree(
    'cac:LegalMonetaryTotal',
    money.amount('cbc:LineExtensionAmount', totals.linesMinor),
    money.amount('cbc:TaxExclusiveAmount', totals.netMinor),
    money.amount('cbc:TaxInclusiveAmount', totals.withTaxMinor),
    some('cbc:AllowanceTotalAmount', totals.allowancesMinor),
    some('cbc:ChargeTotalAmount', totals.chargesMinor),
    some('cbc:PrepaidAmount', prepaidMinor),
    some('cbc:PayableRoundingAmount', totals.roundingMinor),
    money.amount('cbc:PayableAmount', dueMinor),
  );
}
