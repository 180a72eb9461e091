import type { BillTotals, TaxShare } from '../shared/bill.ts';
import { moneyPlain, rate } from '../shared/text/format.ts';
import { amountText, type PaperManner } from '../shared/text/manner.ts';
import { paperLocale, paperManner } from '../shared/text/papers.ts';
import { type PaperLocale, say } from '../shared/text/say.ts';
import type { BilledVehicle, PartyView, SellerView } from '../shared/views/billing.ts';
import { figure, openPdf, type Pdf, paragraph, rule, sideBySide, space } from './pdfKit.ts';
import type { TableRow } from './pdfTable.ts';

/** How a paper is written: in the language and region of the tag that it was begun in. */
export function mannerOf(seller: SellerView): PaperManner {
  return paperManner(seller);
}

/** Opens a letter with the shop on the left and what it is on the right. */
export function openLetter(
  seller: SellerView,
  head: { readonly title: string; readonly under: readonly string[]; readonly createdMs: number },
  manner: PaperManner = mannerOf(seller),
): Pdf {
  const pdf = openPdf({
    title: head.title,
    author: seller.name,
    language: seller.locale,
    paper: seller.paper,
    createdMs: head.createdMs,
    foot: footOf(seller, manner.locale),
    pageWord: (page, of) =>
      say(manner.locale, of > 1 ? 'doc.pageOf' : 'doc.page', { title: head.title, page, of }),
  });
  if (seller.logo?.bytes) logoOn(pdf, seller.logo.bytes, seller);
  sideBySide(pdf, [
    {
      share: 3,
      lines: [{ text: seller.name, style: 'title' }, ...textLines(seller.address).map((text) => ({ text }))],
    },
    {
      share: 3,
      align: 'right',
      lines: [{ text: head.title, style: 'title' }, ...head.under.map((text) => ({ text }))],
    },
  ]);
  space(pdf, 6);
  rule(pdf, 1.4);
  space(pdf, 14);
  return pdf;
}

/** 6 × 2 cm in points: a wide sign fills the width, a tall one the height. */
const LOGO_BOX = { width: 170, height: 57 } as const;

function logoOn(pdf: Pdf, bytes: Uint8Array, { name, logo, locale }: SellerView): void {
  if (!logo) return;
  const scale = Math.min(LOGO_BOX.width / logo.widthPx, LOGO_BOX.height / logo.heightPx);
  const size = { width: logo.widthPx * scale, height: logo.heightPx * scale };
  figure(pdf, size.height, say(paperLocale(locale), 'doc.logo', { shop: name }), (doc, { x, y }) => {
    doc.image(Buffer.from(bytes), x, y, size);
  });
  space(pdf, 8);
}

function footOf(seller: SellerView, locale: PaperLocale): string {
  const parts = [
    seller.name,
    seller.phone && say(locale, 'doc.phone', { phone: seller.phone }),
    seller.email,
    seller.taxNumber && say(locale, 'doc.taxNumber', { number: seller.taxNumber }),
  ];
  return parts.filter((p) => p !== '').join(' · ');
}

/** Lines of an address, empty ones left out. */
export function textLines(text: string): string[] {
  return text.split('\n').filter((line) => line.trim() !== '');
}

type Line = { readonly text: string; readonly style?: 'small' | 'strong' | 'body' };

/** A name with its address under a small heading. */
export function partyLines(heading: string, party: PartyView, locale: PaperLocale): Line[] {
  return [
    { text: heading, style: 'small' },
    { text: party.name, style: 'strong' },
    ...textLines(party.address).map((text) => ({ text })),
    ...(party.taxNumber ? [{ text: say(locale, 'doc.taxNumber', { number: party.taxNumber }) }] : []),
  ];
}

export function vehicleLines(vehicle: BilledVehicle, locale: PaperLocale): Line[] {
  const body = say(locale, `word.body.${vehicle.body}`);
  const about = [
    vehicle.colour,
    vehicle.year ? String(vehicle.year) : '',
    vehicle.plate && say(locale, 'doc.plate', { plate: vehicle.plate }),
  ];
  return [
    { text: say(locale, 'doc.vehicle'), style: 'small' },
    { text: say(locale, 'doc.vehicleLine', { makeModel: vehicle.makeModel, body }), style: 'strong' },
    { text: about.filter((p) => p !== '').join(', ') },
  ];
}

/**
 * Why no tax is charged: what the shop says, and where the customer owes the tax the mention that an invoice must bear,
 * in the paper's own language, unless the shop's words have it.
 * @source Directive 2006/112/EC, article 226 (11a); what else a country asks for is local law
 */
export function untaxedBecause(
  { category, reason }: Pick<TaxShare, 'category' | 'reason'>,
  { locale }: Pick<PaperManner, 'locale'>,
): string {
  if (category !== 'AE') return reason;
  const mention = say(locale, 'doc.reverseCharge');
  const said = reason.toLocaleLowerCase(locale).includes(mention.toLocaleLowerCase(locale));
  return said ? reason : [mention, reason].filter((text) => text !== '').join('. ');
}

/** Rows of tax by rate, rounding included, for a table whose last column is money. */
export function taxRows(totals: BillTotals, manner: PaperManner, columns: number): TableRow[] {
  const blank = Array.from({ length: columns - 2 }, () => '');
  const rows = totals.taxes.map((tax): TableRow => {
    const values = {
      name: tax.name,
      rate: amountText(rate(manner, tax.ratePpm)),
      taxable: moneyPlain(manner, tax.taxableMinor),
    };
    const why = untaxedBecause(tax, manner);
    const line = say(manner.locale, 'doc.taxLine', values);
    return { cells: [why === '' ? line : `${line}. ${why}`, ...blank, moneyPlain(manner, tax.taxMinor)] };
  });
  if (totals.roundingMinor === 0) return rows;
  const rounding = moneyPlain(manner, totals.roundingMinor);
  return [...rows, { cells: [say(manner.locale, 'doc.rounding'), ...blank, rounding] }];
}

/** A small paragraph. */
export function small(pdf: Pdf, text: string): void {
  paragraph(pdf, text, { style: 'small' });
}
