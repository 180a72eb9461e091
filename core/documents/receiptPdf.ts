import { money, moneyPlain } from '../shared/text/format.ts';
import type { PaperManner } from '../shared/text/manner.ts';
import { say } from '../shared/text/say.ts';
import { exact } from '../shared/text/when.ts';
import type { PaymentRow, SellerView } from '../shared/views/billing.ts';
import { mannerOf, openLetter, small } from './letter.ts';
import { finishPdf, paragraph, space } from './pdfKit.ts';
import { type TableRow, table } from './pdfTable.ts';

/** A receipt for money taken together, or paid back. */
export async function receiptPdf(seller: SellerView, rows: readonly PaymentRow[]): Promise<Uint8Array> {
  const manner = mannerOf(seller);
  const { locale } = manner;
  const first = rows[0];
  const moved = rows.filter((row) => row.kind !== 'rounding');
  const total = sumOf(moved);
  const rounded = sumOf(rows) - total;
  const pdf = openLetter(seller, {
    title: say(locale, 'doc.receipt', { number: first?.receipt ?? 0 }),
    under: [exact(manner, first?.atMs ?? 0)],
    createdMs: first?.atMs ?? 0,
  });
  if (first?.customer) {
    paragraph(pdf, say(locale, total < 0 ? 'doc.receiptBack' : 'doc.receiptFor'), { style: 'small' });
    paragraph(pdf, first.customer, { style: 'strong' });
  }
  space(pdf, 10);
  table(
    pdf,
    [
      { title: '', share: 6 },
      { title: '', share: 3 },
      { title: manner.currency, share: 3, align: 'right' },
    ],
    [...moved.map((row) => moneyRow(row, manner)), totalRow(total, manner)],
  );
  space(pdf, 10);
  if (rounded !== 0) small(pdf, say(locale, 'doc.receiptRounded', { amount: money(manner, rounded) }));
  if (first?.by) small(pdf, say(locale, 'doc.receivedBy', { name: first.by }));
  return finishPdf(pdf);
}

function sumOf(rows: readonly PaymentRow[]): number {
  return rows.reduce((sum, row) => sum + row.amountMinor, 0);
}

function moneyRow(row: PaymentRow, manner: PaperManner): TableRow {
  const kind =
    row.kind === 'deposit'
      ? say(manner.locale, 'doc.kind.deposit', { job: row.jobNumber ?? 0 })
      : say(manner.locale, `doc.kind.${row.kind}`);
  const text = row.note ? `${kind}\n${row.note}` : kind;
  return { cells: [text, say(manner.locale, `doc.payWay.${row.way}`), moneyPlain(manner, row.amountMinor)] };
}

function totalRow(total: number, manner: PaperManner): TableRow {
  return {
    cells: [say(manner.locale, 'doc.total'), '', money(manner, total)],
    style: 'lead',
    rule: 'strong',
  };
}
