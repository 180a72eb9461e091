import { createHash } from 'node:crypto';
import type { ReadCtx } from '../context.ts';
import { csvJournal } from '../documents/csvJournal.ts';
import { ublOf } from '../documents/ubl.ts';
import { type Cell, type YearTable, yearTableCsv } from '../documents/yearTables.ts';
import { openZip, type PackedFile, type Zip } from '../documents/zip.ts';
import { DomainError } from '../shared/errors.ts';
import type { DocumentFile } from '../shared/reply.ts';
import { mannerFor } from '../shared/text/manner.ts';
import { sayError } from '../shared/text/sayError.ts';
import type { LocalDay } from '../shared/units.ts';
import type { InvoiceView, SellerView } from '../shared/views/billing.ts';
import { sellerOf } from '../views/billingParty.ts';
import { logosOf } from '../views/logo.ts';
import { shopOf } from '../views/shop.ts';
import { issuedIn } from '../views/yearEnd.ts';
import { documentName, invoiceDocument } from './files.ts';
import { readInvoice } from './read/invoice.ts';
import { readJournal } from './read/journal.ts';
import {
  heldTable,
  openTable,
  proofTable,
  stockTable,
  taxTable,
  vouchersTable,
  type Year,
} from './read/yearTables.ts';

/**
 * All that an accountant asks for of a period, in one ZIP: the journal, tax by rate on both bases, what was open, whose
 * money was held and what lay in stock at its end, the proof that the books balance and no number is missing, every
 * document issued as PDF and for machines, and a list of SHA-256 checksums over all of it. Each file is packed as it is
 * made: of years of papers only the packed bytes are kept.
 * @throws PERIOD_REVERSED; FOLDER_TOO_LARGE above what a ZIP holds
 */
export function yearFile(ctx: ReadCtx, year: Year): () => Promise<DocumentFile> {
  const seller = sellerOf(ctx.db);
  const tables = tablesOf(ctx, year, seller);
  const withLogo = logosOf(ctx.db);
  const invoices = issuedIn(ctx.db, year.fromDay, year.toDay).map((id): InvoiceView => {
    const invoice = readInvoice(ctx, id);
    return { ...invoice, seller: withLogo(invoice.seller) };
  });
  return async () => {
    const folder = openFolder(year.toDay);
    tables.forEach(folder.add);
    addMachineFiles(folder, invoices, seller);
    for (const invoice of invoices) {
      const { fileName, bytes } = await invoiceDocument(invoice);
      folder.add({ name: `documents/${fileName}`, bytes });
    }
    const fileName = `books-${year.fromDay}-${year.toDay}.zip`;
    return { fileName, mime: 'application/zip', bytes: folder.close() };
  };
}

/** A ZIP whose last file names the checksum of each: the sum, two blanks, the name, as the usual tools check it. */
function openFolder(day: LocalDay): Zip {
  const zip = openZip(day);
  const sums: string[] = [];
  function add(file: PackedFile): void {
    zip.add(file);
    sums.push(`${createHash('sha256').update(file.bytes).digest('hex')}  ${file.name}\n`);
  }
  function close(): Uint8Array {
    zip.add({ name: 'checksums.sha256', bytes: new TextEncoder().encode(sums.join('')) });
    return zip.close();
  }
  return { add, close };
}

function tablesOf(ctx: ReadCtx, year: Year, seller: SellerView): PackedFile[] {
  const { locale } = mannerFor(seller);
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
    csv('held-money.csv', heldTable(ctx, year)),
    csv('vouchers.csv', vouchersTable(ctx, year)),
    csv('stock.csv', stockTable(ctx, year)),
    csv('proof.csv', proofTable(ctx, year)),
  ];
}

/** Each document for machines; where one cannot be written, a list says why. */
function addMachineFiles(folder: Zip, invoices: readonly InvoiceView[], seller: SellerView): void {
  const { locale } = mannerFor(seller);
  const lacking: Cell[][] = [];
  for (const invoice of invoices) {
    const name = `documents/${documentName(invoice)}.xml`;
    try {
      folder.add({ name, bytes: new TextEncoder().encode(ublOf(invoice)) });
    } catch (refused) {
      if (!(refused instanceof DomainError) || refused.code === 'FOLDER_TOO_LARGE') throw refused;
      lacking.push([{ figure: Number(invoice.number) }, sayError(locale, refused)]);
    }
  }
  if (lacking.length === 0) return;
  const columns = ['doc.year.number', 'doc.year.noXml'] as const;
  const bytes = yearTableCsv({ columns, rows: lacking }, seller.currency, locale);
  folder.add({ name: 'without-e-invoice.csv', bytes });
}
