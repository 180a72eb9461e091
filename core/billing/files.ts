import type { ReadCtx } from '../context.ts';
import { csvJournal } from '../documents/csvJournal.ts';
import { emlDraft } from '../documents/eml.ts';
import { type Copy, invoicePdf, invoiceTitle } from '../documents/invoicePdf.ts';
import { mannerOf } from '../documents/letter.ts';
import { quotePdf } from '../documents/quotePdf.ts';
import { receiptPdf } from '../documents/receiptPdf.ts';
import { reminderPdf } from '../documents/reminderPdf.ts';
import { statementPdf } from '../documents/statementPdf.ts';
import { ublOf } from '../documents/ubl.ts';
import { refuse } from '../shared/errors.ts';
import type { InvoiceId, QuoteId } from '../shared/ids.ts';
import type { DocumentFile } from '../shared/reply.ts';
import { money } from '../shared/text/format.ts';
import { mannerFor, type PaperManner } from '../shared/text/manner.ts';
import { say, type TextValues } from '../shared/text/say.ts';
import { date } from '../shared/text/when.ts';
import { localDayOf } from '../shared/time.ts';
import type { LocalDay } from '../shared/units.ts';
import type { InvoiceView, PartyView, QuoteView, SellerView } from '../shared/views/billing.ts';
import { sellerOf } from '../views/billingParty.ts';
import { withLogo } from '../views/logo.ts';
import { shopOf } from '../views/shop.ts';
import { readInvoice, receiptLocale, receiptRows } from './read/invoice.ts';
import { readJournal } from './read/journal.ts';
import { readQuote } from './read/quote.ts';
import { readStatement, type StatementAsk } from './read/statement.ts';

type Rendered = () => Promise<DocumentFile>;

/** What a letter is made of, with the bytes of its logo. */
export function lettered<V extends { readonly seller: SellerView }>(ctx: ReadCtx, view: V): V {
  return { ...view, seller: withLogo(ctx.db, view.seller) };
}

async function quoteDocument(quote: QuoteView): Promise<DocumentFile> {
  const name = `quote-${quote.number}-v${quote.version}.pdf`;
  return { fileName: name, mime: 'application/pdf', bytes: await quotePdf(quote) };
}

/** The name a document is kept by, without its ending. */
export function documentName({ kind, number }: InvoiceView): string {
  return number === null ? 'invoice-draft' : `${kind === 'credit' ? 'credit-note' : kind}-${number}`;
}

/** A document as a PDF: the original, unless it is said to be a copy. */
export async function invoiceDocument(invoice: InvoiceView, copy: Copy | null = null): Promise<DocumentFile> {
  const bytes = await invoicePdf(invoice, copy);
  return { fileName: `${documentName(invoice)}.pdf`, mime: 'application/pdf', bytes };
}

/** The quote as a PDF. */
export function quoteFile(ctx: ReadCtx, input: { readonly quoteId: QuoteId }): Rendered {
  const quote = lettered(ctx, readQuote(ctx, input.quoteId));
  return () => quoteDocument(quote);
}

/** An invoice, prepayment invoice or credit note as a PDF. It has one original: once that is out, it says that it is a copy. */
export function invoiceFile(ctx: ReadCtx, input: { readonly invoiceId: InvoiceId }): Rendered {
  const invoice = lettered(ctx, readInvoice(ctx, input.invoiceId));
  const day = localDayOf(ctx.now, invoice.seller.zone);
  const copy = invoice.prints.length === 0 ? null : { day, by: ctx.actor?.name ?? '' };
  return () => invoiceDocument(invoice, copy);
}

/** The same for machines. @throws INVOICE_NOT_ISSUED · UBL_CURRENCY_DIGITS · UBL_INCOMPLETE */
export function ublFile(ctx: ReadCtx, input: { readonly invoiceId: InvoiceId }): Rendered {
  const invoice = readInvoice(ctx, input.invoiceId);
  const bytes = new TextEncoder().encode(ublOf(invoice));
  const fileName = `${documentName(invoice)}.xml`;
  return async () => ({ fileName, mime: 'application/xml', bytes });
}

/** A receipt for money taken together. @throws NOT_FOUND */
export function receiptFile(ctx: ReadCtx, input: { readonly receipt: number }): Rendered {
  const rows = receiptRows(ctx, input.receipt);
  const seller = withLogo(ctx.db, sellerOf(ctx.db, receiptLocale(ctx, input.receipt)));
  return async () => ({
    fileName: `receipt-${input.receipt}.pdf`,
    mime: 'application/pdf',
    bytes: await receiptPdf(seller, rows),
  });
}

/** A reminder of an overdue invoice. @throws INVOICE_NOT_ISSUED · NOT_OVERDUE when nothing is late on it */
export function reminderFile(
  ctx: ReadCtx,
  input: { readonly invoiceId: InvoiceId; readonly level: number },
): Rendered {
  const invoice = lettered(ctx, readInvoice(ctx, input.invoiceId));
  if (invoice.number === null) return refuse('INVOICE_NOT_ISSUED', {});
  if (invoice.overdueDays === 0) return refuse('NOT_OVERDUE', { number: invoice.number });
  const today = localDayOf(ctx.now, invoice.seller.zone);
  return async () => ({
    fileName: `reminder-${input.level}-invoice-${invoice.number}.pdf`,
    mime: 'application/pdf',
    bytes: await reminderPdf(invoice, input.level, today, ctx.now),
  });
}

/** A customer's statement of account. @throws NOT_FOUND · PERIOD_REVERSED */
export function statementFile(ctx: ReadCtx, input: StatementAsk): Rendered {
  const statement = lettered(ctx, readStatement(ctx, input));
  const fileName = `statement-${input.fromDay}-${input.toDay}.pdf`;
  return async () => ({ fileName, mime: 'application/pdf', bytes: await statementPdf(statement, ctx.now) });
}

/** Every booking of a period as CSV. @throws PERIOD_REVERSED */
export function journalFile(
  ctx: ReadCtx,
  input: { readonly fromDay: LocalDay; readonly toDay: LocalDay },
): Rendered {
  const seller = sellerOf(ctx.db);
  const { accounts } = shopOf(ctx.db).settings;
  const text = csvJournal(readJournal(ctx, input), accounts, seller.currency, mannerFor(seller).locale);
  const fileName = `journal-${input.fromDay}-${input.toDay}.csv`;
  return async () => ({ fileName, mime: 'text/csv', bytes: new TextEncoder().encode(text) });
}

export type DraftOf =
  | { readonly of: 'quote'; readonly quoteId: QuoteId }
  | { readonly of: 'invoice'; readonly invoiceId: InvoiceId };

/** An unsent message with the document attached. */
export function emailDraft(ctx: ReadCtx, input: DraftOf): Rendered {
  if (input.of === 'quote') {
    const quote = lettered(ctx, readQuote(ctx, input.quoteId));
    return async () =>
      draft(quote.seller, quote.payer, ctx.now, quoteMail(quote), await quoteDocument(quote));
  }
  const invoice = lettered(ctx, readInvoice(ctx, input.invoiceId));
  return async () =>
    draft(invoice.seller, invoice.customer, ctx.now, invoiceMail(invoice), await invoiceDocument(invoice));
}

type Mail = { readonly subject: string; readonly body: string };

function draft(
  seller: SellerView,
  to: PartyView,
  atMs: number,
  mail: Mail,
  file: DocumentFile,
): DocumentFile {
  const bytes = emlDraft({
    to: to.email,
    from: seller.email,
    fromName: seller.name,
    ...mail,
    atMs,
    attachments: [file],
  });
  return { fileName: file.fileName.replace(/\.pdf$/, '.eml'), mime: 'message/rfc822', bytes };
}

function quoteMail(quote: QuoteView): Mail {
  const manner = mannerOf(quote.seller);
  const values = {
    name: quote.payer.name,
    number: quote.number,
    vehicle: quote.vehicle.makeModel,
    until: date(manner, quote.validUntilDay),
    shop: quote.seller.name,
    phone: quote.seller.phone,
  };
  return mailOf(manner, 'quote', values);
}

function invoiceMail(invoice: InvoiceView): Mail {
  const manner = mannerOf(invoice.seller);
  const values = {
    name: invoice.customer.name,
    number: invoice.number ?? invoiceTitle(invoice, manner),
    day: invoice.issuedDay ? date(manner, invoice.issuedDay) : '',
    due: invoice.dueDay ? date(manner, invoice.dueDay) : '',
    amount: money(manner, invoice.kind === 'credit' ? -invoice.dueMinor : invoice.dueMinor),
    shop: invoice.seller.name,
    phone: invoice.seller.phone,
  };
  return mailOf(manner, invoice.kind === 'credit' ? 'credit' : 'invoice', values);
}

function mailOf(manner: PaperManner, of: 'quote' | 'invoice' | 'credit', values: TextValues): Mail {
  return {
    subject: say(manner.locale, `doc.mail.${of}Subject`, values),
    body: say(manner.locale, `doc.mail.${of}Body`, values),
  };
}
