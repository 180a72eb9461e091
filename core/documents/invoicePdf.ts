import type { BillLine } from '../shared/bill.ts';
import { assertNever } from '../shared/errors.ts';
import { count, hours, money, moneyPlain } from '../shared/text/format.ts';
import { amountText, type PaperManner } from '../shared/text/manner.ts';
import { say } from '../shared/text/say.ts';
import { date } from '../shared/text/when.ts';
import type { LocalDay } from '../shared/units.ts';
import type { InvoiceView } from '../shared/views/billing.ts';
import { progressTable } from './invoiceProgress.ts';
import { mannerOf, openLetter, partyLines, small, taxRows, vehicleLines } from './letter.ts';
import { finishPdf, paragraph, sideBySide, space } from './pdfKit.ts';
import { type TableRow, table } from './pdfTable.ts';
import { transferPart } from './transferPart.ts';

/** The places of the columns of quantities and prices. */
const MAY_BE_EMPTY = [1, 2];

/** When and by whom a document is printed again; '' where nobody is known. */
export type Copy = { readonly day: LocalDay; readonly by: string };

/** An invoice, prepayment invoice or credit note on paper. A draft says that it is one, and a copy that it is. */
export async function invoicePdf(invoice: InvoiceView, copy: Copy | null): Promise<Uint8Array> {
  const manner = mannerOf(invoice.seller);
  const { locale } = manner;
  const pdf = openLetter(invoice.seller, {
    title: invoiceTitle(invoice, manner),
    under: underTitle(invoice, copy, manner),
    createdMs: invoice.issuedMs ?? 0,
  });
  sideBySide(pdf, [
    { share: 4, lines: partyLines(say(locale, 'doc.billTo'), invoice.customer, locale) },
    ...(invoice.vehicle ? [{ share: 4, lines: vehicleLines(invoice.vehicle, locale) }] : []),
    { share: 4, lines: factLines(invoice, manner).map((text) => ({ text })) },
  ]);
  space(pdf, 14);
  const columns = [
    { title: say(locale, 'doc.work'), share: 6 },
    { title: say(locale, 'doc.quantity'), share: 2, align: 'right' },
    { title: say(locale, 'doc.price'), share: 2.4, align: 'right' },
    { title: manner.currency, share: 2.4, align: 'right' },
  ] as const;
  const rows = [...lineRows(invoice, manner), ...totalRows(invoice, manner)];
  // Sums agreed as a whole have no price each, jobs of a fleet no quantity: where no line has one there is no column.
  const shown = columns.map((_, i) => !MAY_BE_EMPTY.includes(i) || rows.some((row) => row.cells[i] !== ''));
  table(
    pdf,
    columns.filter((_, i) => shown[i]),
    rows.map((row) => ({ ...row, cells: row.cells.filter((_, i) => shown[i]) })),
  );
  space(pdf, 10);
  progressTable(pdf, invoice, manner);
  small(pdf, say(locale, invoice.bill.taxIncluded ? 'doc.withTax' : 'doc.withoutTax'));
  space(pdf, 10);
  transferPart(pdf, invoice, manner);
  if (invoice.note) {
    space(pdf, 8);
    paragraph(pdf, invoice.note);
  }
  return finishPdf(pdf);
}

/** `Invoice 42`, `Credit note 43`, or that it is a draft. */
export function invoiceTitle(invoice: InvoiceView, manner: PaperManner): string {
  if (invoice.number === null) return say(manner.locale, 'doc.draft');
  const values = { number: invoice.number };
  switch (invoice.kind) {
    case 'invoice':
      return say(manner.locale, invoice.before.length > 0 ? 'doc.final' : 'doc.invoice', values);
    case 'prepayment':
      return say(manner.locale, 'doc.prepayment', values);
    case 'partial':
      return say(manner.locale, 'doc.partial', values);
    case 'credit':
      return say(manner.locale, 'doc.credit', values);
    default:
      return assertNever(invoice.kind);
  }
}

function underTitle(invoice: InvoiceView, copy: Copy | null, manner: PaperManner): string[] {
  const { jobNumber, progress } = invoice;
  const job = jobNumber === null ? [] : [say(manner.locale, 'doc.job', { number: jobNumber })];
  const which = progress ? [say(manner.locale, 'doc.partialNth', { nth: progress.nth })] : [];
  return [...job, ...which, ...(copy ? [copyMark(copy, manner)] : [])];
}

function copyMark({ day, by }: Copy, manner: PaperManner): string {
  const values = { day: date(manner, day), by };
  return say(manner.locale, by === '' ? 'doc.copy' : 'doc.copyBy', values);
}

function factLines(invoice: InvoiceView, manner: PaperManner): string[] {
  const { locale } = manner;
  const { issuedDay, suppliedDay, dueDay, of, reason, orderNumber } = invoice;
  return [
    issuedDay ? say(locale, 'doc.issued', { day: date(manner, issuedDay) }) : '',
    suppliedDay ? say(locale, 'doc.supplied', { day: date(manner, suppliedDay) }) : '',
    dueDay && (invoice.kind === 'invoice' || invoice.kind === 'partial')
      ? say(locale, 'doc.due', { day: date(manner, dueDay) })
      : '',
    of ? say(locale, 'doc.creditOf', { number: of.number }) : '',
    reason ? say(locale, 'doc.reason', { reason }) : '',
    orderNumber ? say(locale, 'doc.orderNumber', { number: orderNumber }) : '',
  ].filter((line) => line !== '');
}

function lineRows(invoice: InvoiceView, manner: PaperManner): TableRow[] {
  const lines = invoice.bill.lines.map((line, i): TableRow => {
    const discount = line.discountMinor
      ? `\n${say(manner.locale, 'doc.discount', { amount: moneyPlain(manner, line.discountMinor) })}`
      : '';
    const shown = invoice.totals.lineShownMinor[i] ?? 0;
    return { cells: [line.text + discount, ...priced(line, manner), moneyPlain(manner, shown)] };
  });
  const extras = invoice.bill.extras.map(
    (extra): TableRow => ({ cells: [extra.text, '', '', moneyPlain(manner, extra.amountMinor)] }),
  );
  return [...lines, ...extras];
}

/** Quantity and price; an agreed amount shows its hours and no price, a part given back of a line neither. */
function priced(line: BillLine, manner: PaperManner): readonly [string, string] {
  if (line.ofLine !== undefined) return ['', ''];
  const agreed = line.per === Math.abs(line.quantity) && (line.per !== 1 || line.what !== 'goods');
  if (line.unit === 'min') {
    const price = say(manner.locale, 'doc.perHour', {
      price: moneyPlain(manner, Math.round((line.priceMinor * 60) / line.per)),
    });
    return [amountText(hours(manner, line.quantity)), agreed ? '' : price];
  }
  return [agreed ? '' : count(manner, line.quantity), agreed ? '' : moneyPlain(manner, line.priceMinor)];
}

function totalRows(invoice: InvoiceView, manner: PaperManner): TableRow[] {
  const { locale } = manner;
  const { totals } = invoice;
  const line = (text: string, minor: number, more: Partial<TableRow> = {}): TableRow => ({
    cells: [text, '', '', moneyPlain(manner, minor)],
    ...more,
  });
  const credit = invoice.kind === 'credit';
  const included = invoice.bill.taxIncluded;
  const net = line(say(locale, included ? 'doc.containsNet' : 'doc.beforeTax'), totals.netMinor, {
    rule: 'strong',
  });
  const whole = {
    cells: [say(locale, credit ? 'doc.given' : 'doc.total'), '', '', money(manner, totals.toPayMinor)],
    style: 'lead',
    rule: 'strong',
  } as const;
  const tax = taxRows(totals, manner, 4);
  const rows: TableRow[] = included ? [whole, net, ...tax] : [net, ...tax, whole];
  if (invoice.prepaidMinor === 0 || credit) return rows;
  return [
    ...rows,
    line(say(locale, 'doc.paidBefore'), -invoice.prepaidMinor),
    {
      cells: [say(locale, 'doc.stillToPay'), '', '', money(manner, invoice.dueMinor)],
      style: 'lead',
      rule: 'strong',
    },
  ];
}
