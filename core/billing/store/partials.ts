import { allRows } from '../../db/prepared.ts';
import { addRow } from '../../db/rows.ts';
import { partialLine } from '../../db/schema/billing.ts';
import type { ReadDb, WriteDb } from '../../db/types.ts';
import type { InvoiceId, JobId, QuoteId } from '../../shared/ids.ts';
import type { Minor } from '../../shared/units.ts';
import type { OptionLetter } from '../../shared/views/billing.ts';
import type { BilledBefore } from '../../shared/views/partial.ts';
import { creditsOf, type InvoiceRecord, invoicesOfJob, isCredited, isDeducted } from './invoices.ts';

/** Partial invoices of a job, issued and drafts, oldest first. */
export function partialsOfJob(db: ReadDb, jobId: JobId): InvoiceRecord[] {
  return invoicesOfJob(db, jobId)
    .filter((row) => row.kind === 'partial')
    .sort((a, b) => (a.number ?? Number.MAX_SAFE_INTEGER) - (b.number ?? Number.MAX_SAFE_INTEGER));
}

/** Those issued that were not wholly credited. */
export function standingPartials(db: ReadDb, jobId: JobId): InvoiceRecord[] {
  return partialsOfJob(db, jobId).filter((row) => row.number !== null && !isCredited(db, row));
}

/** Those that no standing final invoice has taken off: the next one takes them off. */
export function openPartials(db: ReadDb, jobId: JobId): InvoiceRecord[] {
  return standingPartials(db, jobId).filter((row) => !isDeducted(db, row.id));
}

/** What an issued document still asks for after its credit notes. */
export function askedAfterCredits(db: ReadDb, row: InvoiceRecord): Minor {
  return creditsOf(db, row.id).reduce(
    (sum, note) => sum + note.toPayMinor,
    row.toPayMinor as number,
  ) as Minor;
}

/** What was billed of each part of an option on partial invoices, credit notes taken off. */
export function billedOfOption(db: ReadDb, quoteId: QuoteId, letter: OptionLetter): Map<number, number> {
  const rows = allRows<{ readonly line: number; readonly minor: number }>(
    db,
    `SELECT line, sum(amount_minor) AS minor FROM partial_line
    WHERE quote_id = :quoteId AND letter = :letter GROUP BY line`,
    { quoteId, letter },
  );
  return new Map(rows.map((row) => [row.line, row.minor]));
}

/** What partial invoices of a job billed of other options than this: of versions of its quote that were replaced. */
export function billedOfOthers(db: ReadDb, jobId: JobId, quoteId: QuoteId, letter: OptionLetter): number {
  const rows = allRows<{ readonly minor: number }>(
    db,
    `SELECT coalesce(sum(p.amount_minor), 0) AS minor FROM partial_line p JOIN invoice i ON i.id = p.partial_id
    WHERE i.job_id = :jobId AND NOT (p.quote_id = :quoteId AND p.letter = :letter)`,
    { jobId, quoteId, letter },
  );
  return rows[0]?.minor ?? 0;
}

export function addPartialLine(db: WriteDb, row: Omit<typeof partialLine.$inferInsert, 'id'>): void {
  addRow(db, partialLine, row);
}

/** The partial invoices that an issued document took off, each with what it asked for then. */
export function billedOn(db: ReadDb, invoiceId: InvoiceId): BilledBefore[] {
  return allRows<BilledBefore>(
    db,
    `SELECT p.id, p.number, p.issued_day AS day, d.taken_minor AS toPayMinor FROM deduction d
      JOIN invoice p ON p.id = d.prepayment_id
    WHERE d.invoice_id = :invoiceId AND p.kind = 'partial' ORDER BY p.number`,
    { invoiceId },
  );
}
