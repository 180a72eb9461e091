import { eq, or, sql } from 'drizzle-orm';
import { allRows, oneRow, prepared } from '../../db/prepared.ts';
import { addRow, patchRow } from '../../db/rows.ts';
import {
  billedJob,
  collectiveNet,
  deduction,
  invoice,
  invoiceTax,
  issueCheck,
  paperPrint,
  reminder,
} from '../../db/schema/billing.ts';
import type { ReadDb, WriteDb } from '../../db/types.ts';
import { refuse } from '../../shared/errors.ts';
import type { InvoiceId, JobId } from '../../shared/ids.ts';
import type { LocalDay } from '../../shared/units.ts';

export type InvoiceRecord = typeof invoice.$inferSelect;
export type InvoicePatch = Partial<Omit<InvoiceRecord, 'id' | 'kind' | 'revision' | 'madeMs'>>;

const byId = prepared((db) =>
  db.orm
    .select()
    .from(invoice)
    .where(eq(invoice.id, sql.placeholder('id')))
    .prepare(),
);
const ofJob = prepared((db) =>
  db.orm
    .select()
    .from(invoice)
    .where(
      or(
        eq(invoice.jobId, sql.placeholder('jobId')),
        sql`${invoice.id} IN (SELECT invoice_id FROM billed_job WHERE job_id = ${sql.placeholder('jobId')})`,
      ),
    )
    .orderBy(invoice.madeMs, invoice.id)
    .prepare(),
);
const ofInvoice = prepared((db) =>
  db.orm
    .select()
    .from(invoice)
    .where(eq(invoice.ofInvoiceId, sql.placeholder('id')))
    .orderBy(invoice.number)
    .prepare(),
);

/** @throws NOT_FOUND when there is no such document */
export function invoiceOf(db: ReadDb, id: InvoiceId): InvoiceRecord {
  return byId(db).get({ id }) ?? refuse('NOT_FOUND', { what: 'invoice', id });
}

/** Every document of a job, collective ones among them. */
export function invoicesOfJob(db: ReadDb, jobId: JobId): InvoiceRecord[] {
  return ofJob(db).all({ jobId });
}

/** The other of two invoices that a bill was split into, where it stands: wholly credited it is as good as gone. */
export function otherOfSplit(db: ReadDb, row: InvoiceRecord): InvoiceRecord | null {
  return othersOfSplit(db, row).find((other) => !isCredited(db, other)) ?? null;
}

/** The last other half of a split bill that was wholly credited beside this one. */
export function creditedOther(db: ReadDb, row: InvoiceRecord): InvoiceRecord | null {
  return othersOfSplit(db, row).findLast((other) => isCredited(db, other)) ?? null;
}

function othersOfSplit(db: ReadDb, { id, jobId, shareOfId }: InvoiceRecord): InvoiceRecord[] {
  if (jobId === null) return [];
  return invoicesOfJob(db, jobId).filter((other) => other.shareOfId === id || other.id === shareOfId);
}

/** Issued credit notes of a document, oldest first. */
export function creditsOf(db: ReadDb, id: InvoiceId): InvoiceRecord[] {
  return ofInvoice(db)
    .all({ id })
    .filter((c) => c.number !== null);
}

/** Prepayment invoices of a job that are issued, not wholly credited, and that no standing final invoice has taken off. */
export function openPrepayments(db: ReadDb, jobId: JobId): InvoiceRecord[] {
  return invoicesOfJob(db, jobId).filter(
    (row) =>
      row.kind === 'prepayment' && row.number !== null && !isDeducted(db, row.id) && !isCredited(db, row),
  );
}

/** A standing final invoice took it off; one that was wholly credited gives back what it took off. */
export function isDeducted(db: ReadDb, id: InvoiceId): boolean {
  const sql = 'SELECT invoice_id AS invoiceId FROM deduction WHERE prepayment_id = :id';
  const taken = allRows<{ readonly invoiceId: InvoiceId }>(db, sql, { id });
  return taken.some(({ invoiceId }) => !isCredited(db, invoiceOf(db, invoiceId)));
}

/**
 * All of a document was credited. A final invoice that asks for nothing after what was taxed before is not by
 * that: the note that gives those back is the one that takes it whole.
 */
export function isCredited(db: ReadDb, row: InvoiceRecord): boolean {
  const credits = creditsOf(db, row.id);
  if (credits.length === 0 || credits.reduce((sum, c) => sum + c.toPayMinor, 0) + row.toPayMinor !== 0)
    return false;
  return !takesOff(row) || credits.some(takesOff);
}

function takesOff({ bill }: InvoiceRecord): boolean {
  return bill.lines.some(({ what }) => what === 'deposit' || what === 'billed' || what === 'voucher');
}

export function addInvoice(db: WriteDb, row: typeof invoice.$inferInsert): void {
  addRow(db, invoice, row);
}

/** Changes a draft, or issues it; an issued document refuses in the database. */
export function saveInvoice(db: WriteDb, id: InvoiceId, patch: InvoicePatch): void {
  patchRow(db, invoice, id, patch);
}

/** The jobs of a collective invoice; none of any other. */
export function billedJobsOf(db: ReadDb, id: InvoiceId): { readonly jobId: JobId }[] {
  return allRows(db, 'SELECT job_id AS jobId FROM billed_job WHERE invoice_id = :id ORDER BY job_id', { id });
}

export function addBilledJob(db: WriteDb, invoiceId: InvoiceId, jobId: JobId): void {
  db.orm.insert(billedJob).values({ invoiceId, jobId }).run();
}

export function removeDraft(db: WriteDb, id: InvoiceId): void {
  db.orm.delete(billedJob).where(eq(billedJob.invoiceId, id)).run();
  db.orm.delete(invoice).where(eq(invoice.id, id)).run();
}

export function addTaxRow(db: WriteDb, row: typeof invoiceTax.$inferInsert): void {
  addRow(db, invoiceTax, row);
}

export function addCollectiveNet(db: WriteDb, row: typeof collectiveNet.$inferInsert): void {
  db.orm.insert(collectiveNet).values(row).run();
}

export function addDeduction(db: WriteDb, row: typeof deduction.$inferInsert): void {
  db.orm.insert(deduction).values(row).run();
}

export function addPrint(db: WriteDb, row: Omit<typeof paperPrint.$inferInsert, 'seq'>): void {
  addRow(db, paperPrint, row);
}

/** Two windows may note the same reminder: the first stands. */
export function addReminder(db: WriteDb, row: typeof reminder.$inferInsert): void {
  db.orm.insert(reminder).values(row).onConflictDoNothing().run();
}

export type SeriesEnd = {
  readonly lastNumber: number;
  readonly lastDay: LocalDay | null;
  readonly ask: boolean;
  readonly lastOnPaper: number;
};

/** The last document of the series, and what is known from paper. */
export function seriesEnd(db: ReadDb): SeriesEnd {
  const row = oneRow<{ lastNumber: number; lastDay: LocalDay | null; ask: number; lastOnPaper: number }>(
    db,
    `SELECT coalesce((SELECT max(number) FROM invoice), 0) AS lastNumber,
      (SELECT issued_day FROM invoice WHERE number = (SELECT max(number) FROM invoice)) AS lastDay,
      ask, last_no AS lastOnPaper FROM issue_check WHERE id = 1`,
  );
  if (!row) return { lastNumber: 0, lastDay: null, ask: false, lastOnPaper: 0 };
  return { ...row, ask: row.ask === 1 };
}

/** Keeps what was read from paper, beside what was read before: each may have left a lawful gap. */
export function saveSeriesCheck(db: WriteDb, ask: boolean, lastNo: number): void {
  const readNos = sql`json_insert(${issueCheck.readNos}, '$[#]', ${lastNo})`;
  db.orm.update(issueCheck).set({ ask, lastNo, readNos }).where(eq(issueCheck.id, 1)).run();
}
