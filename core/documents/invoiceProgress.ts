import { moneyPlain } from '../shared/text/format.ts';
import type { PaperManner } from '../shared/text/manner.ts';
import { say } from '../shared/text/say.ts';
import { date } from '../shared/text/when.ts';
import type { InvoiceView } from '../shared/views/billing.ts';
import { type Pdf, space } from './pdfKit.ts';
import { type TableRow, table } from './pdfTable.ts';

/** On a partial invoice, with tax: what all comes to, what was billed before, this one, and what is still to be billed. */
export function progressTable(pdf: Pdf, invoice: InvoiceView, manner: PaperManner): void {
  const { progress, before, totals } = invoice;
  if (progress === null) return;
  const { locale } = manner;
  const row = (text: string, minor: number, more: Partial<TableRow> = {}): TableRow => ({
    cells: [text, moneyPlain(manner, minor)],
    ...more,
  });
  table(
    pdf,
    [
      { title: say(locale, 'doc.partialWhole'), share: 6 },
      { title: moneyPlain(manner, progress.wholeMinor), share: 2.4, align: 'right' },
    ],
    [
      ...before.map(({ number, day, toPayMinor }) =>
        row(say(locale, 'doc.partialBefore', { number, day: date(manner, day) }), -toPayMinor),
      ),
      row(say(locale, 'doc.partialThis'), -totals.toPayMinor),
      row(say(locale, 'doc.partialRest'), progress.restMinor, { rule: 'strong' }),
    ],
  );
  space(pdf, 10);
}
