import { XmlDocument, XmlXPath } from 'libxml2-wasm';

const NS = {
  cac: 'urn:oasis:names:specification:ubl:schema:xsd:CommonAggregateComponents-2',
  cbc: 'urn:oasis:names:specification:ubl:schema:xsd:CommonBasicComponents-2',
};

/** Paths are compiled once: the same few hundred are asked of every document. */
const compiled = new Map<string, XmlXPath>();
function pathOf(at: string): XmlXPath {
  const known = compiled.get(at) ?? XmlXPath.compile(at, NS);
  compiled.set(at, known);
  return known;
}

/** A UBL document as the rules look at it; amounts in hundredths, as the rules allow two decimals at most. */
export class Paper {
  readonly #doc: XmlDocument;
  constructor(xml: string) {
    this.#doc = XmlDocument.fromString(xml);
  }
  texts(at: string): readonly string[] {
    return this.#doc.root.find(pathOf(at)).map((n) => (n as unknown as { readonly content: string }).content);
  }
  count(at: string): number {
    return this.texts(at).length;
  }
  /** Every element at `outer` has `inner` in it. */
  each(outer: string, inner: string): boolean {
    return this.count(`${outer}[not(${inner})]`) === 0;
  }
  cents(at: string): readonly number[] {
    return this.texts(at).map((text) => Math.round(Number(text) * 100));
  }
  sum(at: string): number {
    return this.cents(at).reduce((a, b) => a + b, 0);
  }
  get line(): string {
    return this.count('/*/cac:CreditNoteLine') > 0 ? '/*/cac:CreditNoteLine' : '/*/cac:InvoiceLine';
  }
  free(): void {
    this.#doc.dispose();
  }
}

const TOTAL = '/*/cac:LegalMonetaryTotal/cbc:';
const TAX = '/*/cac:TaxTotal[cac:TaxSubtotal]';
const SHARE = `${TAX}/cac:TaxSubtotal`;
const EXTRA = '/*/cac:AllowanceCharge';
const ALLOWANCE = `${EXTRA}[cbc:ChargeIndicator='false' or cbc:ChargeIndicator='0']`;
const CHARGE = `${EXTRA}[cbc:ChargeIndicator='true' or cbc:ChargeIndicator='1']`;
const SELLER = '/*/cac:AccountingSupplierParty/cac:Party';
const BUYER = '/*/cac:AccountingCustomerParty/cac:Party';
const MEANS = '/*/cac:PaymentMeans';
const VAT_ID = "cac:PartyTaxScheme[cac:TaxScheme/cbc:ID='VAT']/cbc:CompanyID";
const TAX_ID = 'cac:PartyTaxScheme/cbc:CompanyID';
const LEGAL_ID = 'cac:PartyLegalEntity/cbc:CompanyID';
const REASON = '(cbc:AllowanceChargeReason or cbc:AllowanceChargeReasonCode)';
const EXEMPT = '(cbc:TaxExemptionReason or cbc:TaxExemptionReasonCode)';
const lineTax = (p: Paper, category: string): string =>
  `${p.line}[cac:Item/cac:ClassifiedTaxCategory/cbc:ID='${category}']`;
const uses = (p: Paper, category: string): boolean =>
  p.count(lineTax(p, category)) + p.count(`${EXTRA}[cac:TaxCategory/cbc:ID='${category}']`) > 0;
const shares = (p: Paper, category: string): number =>
  p.count(`${SHARE}[cac:TaxCategory/cbc:ID='${category}']`);
const zeroRated = (p: Paper, category: string): boolean =>
  p
    .texts(`${lineTax(p, category)}//cac:ClassifiedTaxCategory/cbc:Percent`)
    .every((rate) => Number(rate) === 0) &&
  p.cents(`${SHARE}[cac:TaxCategory/cbc:ID='${category}']/cbc:TaxAmount`).every((tax) => tax === 0);

/** Half away from zero, in hundredths, of a taxable amount in hundredths and a rate in percent. */
function taxOf(taxable: number, percent: number): number {
  const exact = (BigInt(taxable) * BigInt(Math.round(percent * 10_000))) / 100_000n;
  const [whole, rest] = [exact / 10n, exact % 10n];
  const up = rest < 0n ? (rest <= -5n ? -1n : 0n) : rest >= 5n ? 1n : 0n;
  return Number(whole + up);
}

function taxablesFit(p: Paper, category: string): boolean {
  const percents = new Set(p.texts(`${SHARE}/cac:TaxCategory[cbc:ID='${category}']/cbc:Percent`));
  return [...percents].every((percent) => {
    const same = `cbc:ID='${category}' and number(cbc:Percent)=${percent}`;
    const amounts =
      p.sum(`${p.line}[cac:Item/cac:ClassifiedTaxCategory[${same}]]/cbc:LineExtensionAmount`) -
      p.sum(`${ALLOWANCE}[cac:TaxCategory[${same}]]/cbc:Amount`) +
      p.sum(`${CHARGE}[cac:TaxCategory[${same}]]/cbc:Amount`);
    return p.sum(`${SHARE}[cac:TaxCategory[${same}]]/cbc:TaxableAmount`) === amounts;
  });
}

/**
 * A business rule: where it is produced and how a document is held to it, or why no document of this program can be
 * touched by it.
 */
export type Rule = { readonly id: string } & (
  | { readonly from: string; readonly holds: (p: Paper) => boolean }
  | { readonly not: string }
);
const on = (id: string, from: string, holds: (p: Paper) => boolean): Rule => ({ id, from, holds });
const off = (id: string, not: string): Rule => ({ id, not });
const has = (id: string, from: string, at: string): Rule => on(id, from, (p) => p.count(at) > 0);

/** The rules that hold for each category without tax. @source EN 16931-1, BR-Z, BR-E, BR-AE, BR-O */
function untaxed(code: string, category: string): Rule[] {
  return [
    on(`BR-${code}-01`, 'ubl.ts taxTotal', (p) => !uses(p, category) || shares(p, category) === 1),
    on(`BR-${code}-05`, 'dated.ts cleanTax', (p) => zeroRated(p, category)),
    on(`BR-${code}-08`, 'totals.ts', (p) => category === 'O' || taxablesFit(p, category)),
    on(`BR-${code}-09`, 'totals.ts', (p) => zeroRated(p, category)),
    on(`BR-${code}-10`, 'ublParts.ts ublTax', (p) => {
      const found = `${SHARE}/cac:TaxCategory[cbc:ID='${category}']`;
      return category === 'Z'
        ? p.count(`${found}${'[cbc:TaxExemptionReason]'}`) === 0
        : p.each(found, EXEMPT);
    }),
  ];
}

/**
 * The business rules of the European standard, each with the place that produces it or the reason why not.
 * Texts from memory of the standard's table of rules; the arithmetic ones are proven on its official examples.
 * @source EN 16931-1, clause 6.4 and annexes; numbers as in the rules published with the examples
 */
export const RULES: readonly Rule[] = [
  has('BR-01', 'ubl.ts ublOf', '/*/cbc:CustomizationID'),
  has('BR-02', 'ubl.ts ublOf', '/*/cbc:ID'),
  has('BR-03', 'ubl.ts ublOf', '/*/cbc:IssueDate'),
  has('BR-04', 'ubl.ts typeCode', '/*/cbc:InvoiceTypeCode | /*/cbc:CreditNoteTypeCode'),
  has('BR-05', 'ubl.ts ublOf', '/*/cbc:DocumentCurrencyCode'),
  has('BR-06', 'ublParty.ts', `${SELLER}/cac:PartyLegalEntity/cbc:RegistrationName`),
  has('BR-07', 'ublParty.ts', `${BUYER}/cac:PartyLegalEntity/cbc:RegistrationName`),
  has('BR-08', 'ublParty.ts', `${SELLER}/cac:PostalAddress`),
  has('BR-09', 'ubl.ts checkComplete', `${SELLER}/cac:PostalAddress/cac:Country/cbc:IdentificationCode`),
  has('BR-10', 'ublParty.ts', `${BUYER}/cac:PostalAddress`),
  has('BR-11', 'ubl.ts checkComplete', `${BUYER}/cac:PostalAddress/cac:Country/cbc:IdentificationCode`),
  has('BR-12', 'ubl.ts monetaryTotal', `${TOTAL}LineExtensionAmount`),
  has('BR-13', 'ubl.ts monetaryTotal', `${TOTAL}TaxExclusiveAmount`),
  has('BR-14', 'ubl.ts monetaryTotal', `${TOTAL}TaxInclusiveAmount`),
  has('BR-15', 'ubl.ts monetaryTotal', `${TOTAL}PayableAmount`),
  on('BR-16', 'issue.ts issueRow', (p) => p.count(p.line) > 0),
  off('BR-17', 'there is no payee beside the shop'),
  off('BR-18', 'there is no tax representative'),
  off('BR-19', 'there is no tax representative'),
  off('BR-20', 'there is no tax representative'),
  on('BR-21', 'ublLines.ts', (p) => p.each(p.line, 'cbc:ID')),
  on('BR-22', 'ublLines.ts', (p) => p.each(p.line, 'cbc:InvoicedQuantity or cbc:CreditedQuantity')),
  on('BR-23', 'ublLines.ts', (p) => p.each(p.line, '*/@unitCode')),
  on('BR-24', 'ublLines.ts', (p) => p.each(p.line, 'cbc:LineExtensionAmount')),
  on('BR-25', 'ublLines.ts', (p) => p.each(p.line, 'cac:Item/cbc:Name')),
  on('BR-26', 'ublLines.ts', (p) => p.each(p.line, 'cac:Price/cbc:PriceAmount')),
  on('BR-27', 'ublLines.ts', (p) =>
    p.cents(`${p.line}/cac:Price/cbc:PriceAmount`).every((price) => price >= 0),
  ),
  off('BR-28', 'no gross price is written beside the net one'),
  off('BR-29', 'no invoicing period is written'),
  off('BR-30', 'no line period is written'),
  on('BR-31', 'ubl.ts extrasOf', (p) => p.each(ALLOWANCE, 'cbc:Amount')),
  on('BR-32', 'ubl.ts extrasOf', (p) => p.each(ALLOWANCE, 'cac:TaxCategory/cbc:ID')),
  on('BR-33', 'ubl.ts extrasOf', (p) => p.each(ALLOWANCE, REASON)),
  on('BR-36', 'ubl.ts extrasOf', (p) => p.each(CHARGE, 'cbc:Amount')),
  on('BR-37', 'ubl.ts extrasOf', (p) => p.each(CHARGE, 'cac:TaxCategory/cbc:ID')),
  on('BR-38', 'ubl.ts extrasOf', (p) => p.each(CHARGE, REASON)),
  on('BR-41', 'ublLines.ts discountOf', (p) => p.each(`${p.line}/cac:AllowanceCharge`, 'cbc:Amount')),
  on('BR-42', 'ublLines.ts discountOf', (p) => p.each(`${p.line}/cac:AllowanceCharge`, REASON)),
  on('BR-43', 'ublLines.ts discountOf', (p) => p.each(`${p.line}/cac:AllowanceCharge`, 'cbc:Amount')),
  on('BR-44', 'ublLines.ts discountOf', (p) => p.each(`${p.line}/cac:AllowanceCharge`, REASON)),
  on('BR-45', 'ubl.ts taxTotal', (p) => p.each(SHARE, 'cbc:TaxableAmount')),
  on('BR-46', 'ubl.ts taxTotal', (p) => p.each(SHARE, 'cbc:TaxAmount')),
  on('BR-47', 'ubl.ts taxTotal', (p) => p.each(SHARE, 'cac:TaxCategory/cbc:ID')),
  on('BR-48', 'ublParts.ts ublTax', (p) => p.each(SHARE, "cac:TaxCategory[cbc:Percent or cbc:ID='O']")),
  on('BR-49', 'ubl.ts paymentMeans', (p) => p.each(MEANS, 'cbc:PaymentMeansCode')),
  on('BR-50', 'ubl.ts paymentMeans', (p) => p.each(`${MEANS}/cac:PayeeFinancialAccount`, 'cbc:ID')),
  off('BR-51', 'no card is written'),
  off('BR-52', 'no supporting document is attached'),
  off('BR-53', 'there is one currency, the shop’s'),
  off('BR-54', 'no item attributes are written'),
  on('BR-55', 'ubl.ts precedingOf', (p) =>
    p.each('/*/cac:BillingReference', 'cac:InvoiceDocumentReference/cbc:ID'),
  ),
  off('BR-56', 'there is no tax representative'),
  off('BR-57', 'no delivery address is written'),
  on('BR-61', 'ubl.ts paymentMeans', (p) =>
    p.each(
      `${MEANS}[cbc:PaymentMeansCode='30' or cbc:PaymentMeansCode='58']`,
      'cac:PayeeFinancialAccount/cbc:ID',
    ),
  ),
  off('BR-62', 'no electronic address is written'),
  off('BR-63', 'no electronic address is written'),
  off('BR-64', 'no item standard identifier is written'),
  off('BR-65', 'no item classification is written'),
  off('BR-CO-03', 'neither tax point date nor its code is written'),
  on('BR-CO-04', 'ublLines.ts', (p) => p.each(p.line, 'cac:Item/cac:ClassifiedTaxCategory/cbc:ID')),
  off('BR-CO-05', 'no reason codes are written'),
  off('BR-CO-06', 'no reason codes are written'),
  off('BR-CO-07', 'no reason codes are written'),
  off('BR-CO-08', 'no reason codes are written'),
  on('BR-CO-09', 'ublParty.ts', (p) => p.texts(`//${VAT_ID}`).every((id) => /^[A-Z]{2}/.test(id))),
  on(
    'BR-CO-10',
    'totals.ts',
    (p) => p.sum(`${TOTAL}LineExtensionAmount`) === p.sum(`${p.line}/cbc:LineExtensionAmount`),
  ),
  on(
    'BR-CO-11',
    'totals.ts',
    (p) => p.sum(`${TOTAL}AllowanceTotalAmount`) === p.sum(`${ALLOWANCE}/cbc:Amount`),
  ),
  on('BR-CO-12', 'totals.ts', (p) => p.sum(`${TOTAL}ChargeTotalAmount`) === p.sum(`${CHARGE}/cbc:Amount`)),
  on(
    'BR-CO-13',
    'totals.ts',
    (p) =>
      p.sum(`${TOTAL}TaxExclusiveAmount`) ===
      p.sum(`${TOTAL}LineExtensionAmount`) -
        p.sum(`${TOTAL}AllowanceTotalAmount`) +
        p.sum(`${TOTAL}ChargeTotalAmount`),
  ),
  on('BR-CO-14', 'totals.ts', (p) => p.sum(`${TAX}/cbc:TaxAmount`) === p.sum(`${SHARE}/cbc:TaxAmount`)),
  on(
    'BR-CO-15',
    'totals.ts',
    (p) =>
      p.sum(`${TOTAL}TaxInclusiveAmount`) ===
      p.sum(`${TOTAL}TaxExclusiveAmount`) + p.sum(`${TAX}/cbc:TaxAmount`),
  ),
  on(
    'BR-CO-16',
    'ubl.ts monetaryTotal',
    (p) =>
      p.sum(`${TOTAL}PayableAmount`) ===
      p.sum(`${TOTAL}TaxInclusiveAmount`) -
        p.sum(`${TOTAL}PrepaidAmount`) +
        p.sum(`${TOTAL}PayableRoundingAmount`),
  ),
  on('BR-CO-17', 'totals.ts shareOf', (p) => {
    const rates = p.texts(`${SHARE}[cac:TaxCategory/cbc:Percent]/cac:TaxCategory/cbc:Percent`).map(Number);
    const rated = `${SHARE}[cac:TaxCategory/cbc:Percent]`;
    const [taxable, tax] = [p.cents(`${rated}/cbc:TaxableAmount`), p.cents(`${rated}/cbc:TaxAmount`)];
    return rates.every((rate, i) => taxOf(taxable[i] ?? 0, rate) === tax[i]);
  }),
  on('BR-CO-18', 'ubl.ts taxTotal', (p) => p.count(SHARE) > 0),
  off('BR-CO-19', 'no invoicing period is written'),
  off('BR-CO-20', 'no line period is written'),
  on('BR-CO-21', 'ubl.ts extrasOf', (p) => p.each(ALLOWANCE, REASON)),
  on('BR-CO-22', 'ubl.ts extrasOf', (p) => p.each(CHARGE, REASON)),
  on('BR-CO-23', 'ublLines.ts discountOf', (p) => p.each(`${p.line}/cac:AllowanceCharge`, REASON)),
  on('BR-CO-24', 'ublLines.ts discountOf', (p) => p.each(`${p.line}/cac:AllowanceCharge`, REASON)),
  on(
    'BR-CO-25',
    'ubl.ts ublOf',
    (p) =>
      p.count('/*/cac:CreditNoteLine') > 0 ||
      p.sum(`${TOTAL}PayableAmount`) <= 0 ||
      p.count('/*/cbc:DueDate | /*/cac:PaymentTerms/cbc:Note') > 0,
  ),
  has(
    'BR-CO-26',
    'ublParty.ts',
    `${SELLER}/${LEGAL_ID} | ${SELLER}/${VAT_ID} | ${SELLER}/cac:PartyIdentification/cbc:ID`,
  ),
  on('BR-DEC', 'minorToDecimal', (p) =>
    p.texts('//*[@currencyID][not(self::cbc:PriceAmount)]').every((t) => /^-?\d+(\.\d{1,2})?$/.test(t)),
  ),
  on('BR-S-01', 'ubl.ts taxTotal', (p) => !uses(p, 'S') || shares(p, 'S') > 0),
  on('BR-S-02', 'ubl.ts checkComplete', (p) => !uses(p, 'S') || p.count(`${SELLER}/${TAX_ID}`) > 0),
  on('BR-S-05', 'dated.ts cleanTax', (p) =>
    p.texts(`${lineTax(p, 'S')}//cac:ClassifiedTaxCategory/cbc:Percent`).every((rate) => Number(rate) > 0),
  ),
  on('BR-S-08', 'totals.ts', (p) => taxablesFit(p, 'S')),
  on(
    'BR-S-10',
    'ublParts.ts ublTax',
    (p) => p.count(`${SHARE}/cac:TaxCategory[cbc:ID='S'][${EXEMPT}]`) === 0,
  ),
  ...untaxed('Z', 'Z'),
  ...untaxed('E', 'E'),
  ...untaxed('AE', 'AE'),
  ...untaxed('O', 'O'),
  on(
    'BR-AE-02',
    'ubl.ts checkComplete',
    (p) =>
      !uses(p, 'AE') ||
      (p.count(`${SELLER}/${TAX_ID}`) > 0 && p.count(`${BUYER}/${VAT_ID} | ${BUYER}/${LEGAL_ID}`) > 0),
  ),
  on(
    'BR-O-02',
    'ublParty.ts',
    (p) => !uses(p, 'O') || p.count(`${SELLER}/${VAT_ID} | ${BUYER}/${VAT_ID}`) === 0,
  ),
  on('BR-O-11', 'issue.ts checkTaxes', (p) => shares(p, 'O') === 0 || p.count(SHARE) === 1),
  off(
    'BR-G, BR-IC, BR-AF, BR-AG',
    'export, supply inside the Union, the Canaries and Ceuta are no category of this shop',
  ),
];

/** Ids of the rules that a document breaks. */
export function brokenRules(xml: string): readonly string[] {
  const paper = new Paper(xml);
  const broken = RULES.flatMap((rule) => ('holds' in rule && !rule.holds(paper) ? [rule.id] : []));
  paper.free();
  return broken;
}
