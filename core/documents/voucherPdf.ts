import { money } from '../shared/text/format.ts';
import { say } from '../shared/text/say.ts';
import { date } from '../shared/text/when.ts';
import type { LocalDay } from '../shared/units.ts';
import type { VoucherView } from '../shared/views/vouchers.ts';
import { printedCode } from '../shared/voucherCode.ts';
import { mannerOf, openLetter, small } from './letter.ts';
import { finishPdf, paragraph, rule, space } from './pdfKit.ts';

/** A gift voucher: what it is worth, for whom, until when, and how it is used. */
export async function voucherPdf(
  voucher: VoucherView,
  today: LocalDay,
  createdMs: number,
): Promise<Uint8Array> {
  const manner = mannerOf(voucher.seller);
  const { locale } = manner;
  const pdf = openLetter(voucher.seller, {
    title: say(locale, 'doc.voucher'),
    under: [
      say(locale, 'doc.voucherNumber', { number: voucher.number }),
      say(locale, 'doc.voucherCode', { code: printedCode(voucher.code) }),
    ],
    createdMs,
  });
  space(pdf, 34);
  if (voucher.forName !== '')
    paragraph(pdf, say(locale, 'doc.voucherFor', { name: voucher.forName }), {
      style: 'lead',
      align: 'centre',
    });
  space(pdf, 14);
  paragraph(pdf, say(locale, 'doc.voucherWorth'), { style: 'small', align: 'centre' });
  paragraph(pdf, money(manner, voucher.valueMinor), { style: 'title', tag: 'H1', align: 'centre' });
  space(pdf, 34);
  rule(pdf);
  space(pdf, 12);
  const { expiresDay, leftMinor, valueMinor } = voucher;
  paragraph(pdf, say(locale, 'doc.voucherHow', { shop: voucher.seller.name }));
  if (expiresDay) paragraph(pdf, say(locale, 'doc.voucherUntil', { day: date(manner, expiresDay) }));
  if (leftMinor !== valueMinor) {
    const values = { amount: money(manner, leftMinor), day: date(manner, today) };
    paragraph(pdf, say(locale, 'doc.voucherLeft', values), { style: 'strong' });
  }
  space(pdf, 10);
  small(pdf, say(locale, `doc.voucherTax.${voucher.purpose}`));
  small(pdf, say(locale, 'doc.voucherSold', { day: date(manner, voucher.soldDay) }));
  return finishPdf(pdf);
}
