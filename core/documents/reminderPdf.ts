import { money, moneyPlain } from '../shared/text/format.ts';
import type { PaperManner } from '../shared/text/manner.ts';
import { say } from '../shared/text/say.ts';
import { date } from '../shared/text/when.ts';
import type { LocalDay } from '../shared/units.ts';
import type { InvoiceView } from '../shared/views/billing.ts';
import { mannerOf, openLetter, partyLines } from './letter.ts';
import { finishPdf, type Pdf, paragraph, sideBySide, space } from './pdfKit.ts';
import { table } from './pdfTable.ts';
import { transferPart } from './transferPart.ts';

/** A reminder of what is still to pay. The first is friendly, later ones name the level. */
export async function reminderPdf(
  invoice: InvoiceView,
  level: number,
  today: LocalDay,
  createdMs: number,
): Promise<Uint8Array> {
  const manner = mannerOf(invoice.seller);
  const { locale } = manner;
  const title = say(locale, 'doc.reminder', { level });
  const pdf = openLetter(invoice.seller, { title, under: [date(manner, today)], createdMs });
  sideBySide(pdf, [{ share: 1, lines: partyLines(say(locale, 'doc.billTo'), invoice.customer, locale) }]);
  space(pdf, 16);
  const due = invoice.dueDay ? date(manner, invoice.dueDay) : '';
  const values = { number: invoice.number ?? 0, due, days: invoice.overdueDays };
  paragraph(pdf, say(locale, level === 1 ? 'doc.reminderFirst' : 'doc.reminderLater', values));
  space(pdf, 10);
  sums(pdf, invoice, manner);
  space(pdf, 10);
  transferPart(pdf, invoice, manner);
  space(pdf, 10);
  paragraph(pdf, say(locale, 'doc.reminderEnd'));
  return finishPdf(pdf);
}

/** What was asked, what came, what is still open. */
function sums(pdf: Pdf, invoice: InvoiceView, manner: PaperManner): void {
  const { locale } = manner;
  const asked = invoice.totals.toPayMinor;
  const columns = [
    { title: '', share: 6 },
    { title: manner.currency, share: 3, align: 'right' },
  ] as const;
  const paid = invoice.owedMinor - asked;
  const issued = {
    number: invoice.number ?? 0,
    day: invoice.issuedDay ? date(manner, invoice.issuedDay) : '',
  };
  table(pdf, columns, [
    { cells: [say(locale, 'doc.reminderInvoice', issued), moneyPlain(manner, asked)] },
    ...(paid === 0 ? [] : [{ cells: [say(locale, 'doc.reminderPaid'), moneyPlain(manner, paid)] }]),
    {
      cells: [say(locale, 'doc.stillToPay'), money(manner, invoice.owedMinor)],
      style: 'lead',
      rule: 'strong',
    },
  ]);
}
