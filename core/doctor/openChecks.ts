import { isJobCredited } from '../billing/rules/collective.ts';
import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import { type Bill, isWorkLine } from '../shared/bill.ts';
import type { Check } from './check.ts';

/** What is kept beside the documents about what is open, against the documents themselves. */
export const openChecks: readonly Check[] = [
  {
    name: 'document.rest',
    run: (db) =>
      allRows<{ number: number | null; kept: number | null; again: number | null }>(db, RESTS).map((row) => ({
        document: String(row.number ?? 0),
        kept: row.kept ?? 0,
        again: row.again ?? 0,
      })),
  },
  {
    name: 'billed.share',
    run: (db) => wrongShares(db).map((number) => ({ job: String(number) })),
  },
  {
    name: 'job.unbilled',
    run: (db) => allRows<{ number: number }>(db, UNBILLED).map((row) => ({ job: String(row.number) })),
  },
];

const RESTS = `SELECT i.number, r.owed_minor AS kept, i.again FROM (
    SELECT i.id, i.number, i.due_day, i.to_pay_minor
      + (SELECT total(k.to_pay_minor) FROM invoice k WHERE k.of_invoice_id = i.id AND k.number IS NOT NULL)
      - (SELECT total(a.amount_minor) FROM allocation a WHERE a.invoice_id = i.id) AS again
    FROM invoice i WHERE i.number IS NOT NULL AND i.kind <> 'credit') i
  FULL JOIN document_rest r ON r.invoice_id = i.id
  WHERE r.owed_minor IS NOT i.again OR r.due_day IS NOT i.due_day`;

/** `billed_share` is held against the documents by the check before. */
const UNBILLED = `SELECT j.number FROM job j LEFT JOIN job_unbilled u ON u.job_id = j.id
  WHERE (u.job_id IS NOT NULL) IS NOT (j.state IN ('ready','collected') AND j.redo_of_job_id IS NULL
    AND coalesce((SELECT sum(b.share_ppm * b.issued * b.stands) FROM billed_share b WHERE b.job_id = j.id), 0) < 1000000)`;

type Document = {
  readonly id: string;
  readonly kind: 'invoice' | 'credit';
  readonly number: number | null;
  readonly jobId: string | null;
  readonly ofInvoiceId: string | null;
  readonly toPayMinor: number;
  readonly bill: string;
};
type Share = { readonly jobId: string; readonly invoiceId: string; readonly share: string };

const DOCUMENTS = `SELECT id, kind, number, job_id AS jobId, of_invoice_id AS ofInvoiceId, to_pay_minor AS toPayMinor, bill
  FROM invoice WHERE kind = 'invoice' OR (kind = 'credit' AND number IS NOT NULL)`;

const BILLED = 'SELECT invoice_id AS invoiceId, job_id AS jobId FROM billed_job';
const KEPT = `SELECT job_id AS jobId, invoice_id AS invoiceId, share_ppm || ' ' || issued || ' ' || stands AS share
  FROM billed_share`;
const NUMBERS = 'SELECT number FROM job WHERE id IN (SELECT value FROM json_each(:jobIds)) ORDER BY number';

/** Numbers of the jobs of which another share of the work is kept than their documents say. */
function wrongShares(db: ReadDb): readonly number[] {
  const [again, kept] = [sharesAgain(db), allRows<Share>(db, KEPT)];
  const told = (s: Share): string => `${s.jobId} ${s.invoiceId} ${s.share}`;
  const [says, holds] = [new Set(again.map(told)), new Set(kept.map(told))];
  const apart = [...again.filter((s) => !holds.has(told(s))), ...kept.filter((s) => !says.has(told(s)))];
  const jobIds = JSON.stringify(apart.map((s) => s.jobId));
  return allRows<{ number: number }>(db, NUMBERS, { jobIds }).map((j) => j.number);
}

function sharesAgain(db: ReadDb): readonly Share[] {
  const documents = allRows<Document>(db, DOCUMENTS);
  const credits = documents.filter((d) => d.kind === 'credit');
  const notes = Map.groupBy(credits, (d) => d.ofInvoiceId);
  const rows = allRows<{ readonly invoiceId: string; readonly jobId: string }>(db, BILLED);
  const billed = Map.groupBy(rows, (b) => b.invoiceId);
  return documents.flatMap((d) => {
    const jobs = d.jobId === null ? (billed.get(d.id) ?? []).map((b) => b.jobId) : [d.jobId];
    return d.kind === 'invoice' && jobs.length > 0 ? sharesOf(d, notes.get(d.id) ?? [], jobs) : [];
  });
}

function sharesOf(of: Document, notes: readonly Document[], jobs: readonly string[]): readonly Share[] {
  const bill = JSON.parse(of.bill) as Bill;
  const credits = notes.map((note) => JSON.parse(note.bill) as Bill);
  const sharePpm = bill.lines.some((l) => l.what === 'share')
    ? 500_000
    : bill.lines.some((l) => isWorkLine(l) || l.quoted !== undefined)
      ? 1_000_000
      : 0;
  const left = notes.reduce((sum, note) => sum + note.toPayMinor, of.toPayMinor);
  const gone = notes.length > 0 && left === 0 && (!takesOff(bill) || credits.some(takesOff));
  return jobs.map((jobId) => {
    const credited = gone || (of.jobId === null && isJobCredited(bill, credits, jobId));
    const share = `${sharePpm} ${of.number === null ? 0 : 1} ${credited ? 0 : 1}`;
    return { jobId, invoiceId: of.id, share };
  });
}

function takesOff(bill: Bill): boolean {
  return bill.lines.some(({ what }) => what === 'deposit' || what === 'billed' || what === 'voucher');
}
