import { createHash } from 'node:crypto';
import type { ReadCtx } from '../context.ts';
import { csvJournal } from '../documents/csvJournal.ts';
import { mannerOf } from '../documents/letter.ts';
import { ublOf } from '../documents/ubl.ts';
import { type YearTable, yearTableCsv } from '../documents/yearTables.ts';
import { type PackedFile, zipOf } from '../documents/zip.ts';
import { DomainError } from '../shared/errors.ts';
import type { DocumentFile } from '../shared/reply.ts';
import { sayError } from '../shared/text/sayError.ts';
import type { InvoiceView, SellerView } from '../shared/views/billing.ts';
import { sellerOf } from '../views/billingParty.ts';
import { shopOf } from '../views/shop.ts';
import { issuedIn } from '../views/yearEnd.ts';
import { invoiceDocument } from './files.ts';
import { readInvoice } from './read/invoice.ts';
import { readJournal } from './read/journal.ts';
import { openTable, proofTable, stockTable, taxTable, type Year } from './read/yearTables.ts';

/**
 * All that an accountant asks for of a period, in one ZIP: the journal, tax by rate on both bases, what was open and
 * what lay in stock at its end, the proof that the books balance and no number is missing, every document issued as PDF
 * and for machines, and a list of SHA-256 checksums over all of it.
 * @throws PERIOD_REVERSED
 */
export function yearFile(ctx: ReadCtx, year: Year): () => Promise<DocumentFile> {
  const seller = sellerOf(ctx.db);
  const tables = tablesOf(ctx, year, seller);
  const invoices = issuedIn(ctx.db, year.fromDay, year.toDay).map((id) => readInvoice(ctx, id));
  return async () => {
    const files = [...tables, ...machineFiles(invoices, seller)];
    for (const invoice of invoices) {
      const { fileName, bytes } = await invoiceDocument(invoice);
      files.push({ name: `documents/${fileName}`, bytes });
    }
    const fileName = `books-${year.fromDay}-${year.toDay}.zip`;
    const bytes = zipOf([...files, checksums(files)], year.toDay);
    return { fileName, mime: 'application/zip', bytes };
  };
}

function tablesOf(ctx: ReadCtx, year: Year, seller: SellerView): PackedFile[] {
  const { locale } = mannerOf(seller);
  const csv = (name: string, made: YearTable): PackedFile => ({
    name,
    bytes: yearTableCsv(made, seller.currency, locale),
  });
  const { accounts } = shopOf(ctx.db).settings;
  const journal = csvJournal(readJournal(ctx, year), accounts, seller.currency, locale);
  return [
    { name: 'journal.csv', bytes: new TextEncoder().encode(journal) },
    csv('tax-by-invoice.csv', taxTable(ctx, year, 'invoice')),
    csv('tax-by-payment.csv', taxTable(ctx, year, 'payment')),
    csv('open-items.csv', openTable(ctx, year)),
    csv('stock.csv', stockTable(ctx, year)),
    csv('proof.csv', proofTable(ctx, year)),
  ];
}

/** Each document for machines; where one cannot be written, the list says why. */
function machineFiles(invoices: readonly InvoiceView[], seller: SellerView): PackedFile[] {
  const { locale } = mannerOf(seller);
  const lacking: string[][] = [];
  const files = invoices.flatMap((invoice): PackedFile[] => {
    const name = `documents/${invoice.kind === 'credit' ? 'credit-note' : invoice.kind}-${invoice.number}.xml`;
    try {
      return [{ name, bytes: new TextEncoder().encode(ublOf(invoice)) }];
    } catch (refused) {
      if (!(refused instanceof DomainError)) throw refused;
      lacking.push([String(invoice.number), sayError(locale, refused)]);
      return [];
    }
  });
  if (lacking.length === 0) return files;
  const columns = ['doc.year.number', 'doc.year.noXml'] as const;
  const bytes = yearTableCsv({ columns, rows: lacking }, seller.currency, locale);
  return [...files, { name: 'without-e-invoice.csv', bytes }];
}

/** One line a file, as the usual tools check it: the sum, two blanks, the name. */
function checksums(files: readonly PackedFile[]): PackedFile {
  const lines = files.map(
    (file) => `${createHash('sha256').update(file.bytes).digest('hex')}  ${file.name}\n`,
  );
  return { name: 'checksums.sha256', bytes: new TextEncoder().encode(lines.join('')) };
}
