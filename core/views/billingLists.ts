import { isLapsed } from '../billing/rules/lapse.ts';
import { overdueDays } from '../billing/rules/owed.ts';
import { allRows, oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { JobId } from '../shared/ids.ts';
import type { LocalDay } from '../shared/units.ts';
import type {
  InvoiceList,
  InvoiceRow,
  InvoicesPage,
  PaymentRow,
  PaymentWay,
} from '../shared/views/billing.ts';
import type { ToBill, WaitingQuote } from '../shared/views/moneyDesk.ts';
import { PARTLY_BILLED, WORK_DRAFTED } from './billedWork.ts';
import { customersCalled, vehiclesCalled } from './called.ts';

/** What is still to pay on an issued document `i`; credit notes count on the document they correct. */
export const OWED = 'coalesce((SELECT r.owed_minor FROM document_rest r WHERE r.invoice_id = i.id), 0)';

const ROWS = `SELECT i.id, i.kind, i.number, i.job_id AS jobId, j.number AS jobNumber, c.name AS customer,
    coalesce(v.make_model, '') AS makeModel, i.issued_day AS issuedDay, i.due_day AS dueDay,
    i.to_pay_minor AS toPayMinor, i.made_ms AS madeMs, i.customer_id AS customerId, j.vehicle_id AS vehicleId,
    ${OWED} AS owedMinor
  FROM invoice i JOIN customer c ON c.id = i.customer_id
    LEFT JOIN job j ON j.id = i.job_id LEFT JOIN vehicle v ON v.id = j.vehicle_id`;

/** Documents of which something is left either way: few, and found without reading the others. */
const NOT_EVEN = 'id IN (SELECT invoice_id FROM document_rest WHERE owed_minor <> 0)';
const WHERE: Readonly<Record<InvoiceList, string>> = {
  draft: 'number IS NULL',
  open: `${NOT_EVEN} AND owedMinor > 0`,
  overdue: `${NOT_EVEN} AND owedMinor > 0 AND dueDay < :today`,
  payBack: `${NOT_EVEN} AND owedMinor < 0`,
  paid: "number IS NOT NULL AND owedMinor = 0 AND kind <> 'credit'",
  all: '1 = 1',
};

type Raw = Omit<InvoiceRow, 'overdueDays'>;

type Inner = { readonly madeMs?: number; readonly customerId?: string; readonly vehicleId?: string | null };

function withAge(row: Raw & Inner, today: LocalDay): InvoiceRow {
  const { madeMs: _made, customerId: _customer, vehicleId: _vehicle, ...rest } = row;
  return { ...rest, overdueDays: overdueDays(row.dueDay, today, row.owedMinor) };
}

export type ListAsk = {
  readonly list: InvoiceList;
  readonly search: string;
  readonly limit: number;
  readonly offset: number;
};

/** Documents of a list, newest first; open ones by their due day. Search finds numbers, names and vehicles. */
export function invoicePage(db: ReadDb, ask: ListAsk, today: LocalDay): InvoicesPage {
  const where = `${WHERE[ask.list]} AND (:search = '' OR customerId IN (SELECT value FROM json_each(:customers))
    OR vehicleId IN (SELECT value FROM json_each(:vehicles)) OR CAST(number AS TEXT) = :search OR CAST(jobNumber AS TEXT) = :search)`;
  const order =
    ask.list === 'open' || ask.list === 'overdue'
      ? 'dueDay, number'
      : 'number IS NOT NULL, number DESC, madeMs DESC';
  const asked = ask.search === '' ? null : ask.search;
  const params = {
    ...{ today, search: ask.search },
    customers: JSON.stringify(asked ? customersCalled(db, asked) : []),
    vehicles: JSON.stringify(asked ? vehiclesCalled(db, asked) : []),
  };
  const rows = allRows<Raw>(
    db,
    `SELECT * FROM (${ROWS}) WHERE ${where} ORDER BY ${order} LIMIT :limit OFFSET :offset`,
    { ...params, limit: ask.limit, offset: ask.offset },
  );
  const total =
    oneRow<{ n: number }>(db, `SELECT count(*) AS n FROM (${ROWS}) WHERE ${where}`, params)?.n ?? 0;
  return { rows: rows.map((r) => withAge(r, today)), total };
}

export function invoicesOf(db: ReadDb, jobId: JobId, today: LocalDay): InvoiceRow[] {
  const sql = `SELECT * FROM (${ROWS}) WHERE jobId = :jobId
    OR id IN (SELECT invoice_id FROM billed_job WHERE job_id = :jobId) ORDER BY number IS NULL, number, madeMs`;
  return allRows<Raw>(db, sql, { jobId }).map((r) => withAge(r, today));
}

/** Every document on which something is owed: figures only. */
export function owedRows(db: ReadDb, today: LocalDay): { owedMinor: number; overdueDays: number }[] {
  type Row = { readonly dueDay: LocalDay; readonly owedMinor: number };
  const rows = allRows<Row>(
    db,
    'SELECT due_day AS dueDay, owed_minor AS owedMinor FROM document_rest WHERE owed_minor <> 0 AND owed_minor > 0',
  );
  return rows.map((r) => ({
    owedMinor: r.owedMinor,
    overdueDays: overdueDays(r.dueDay, today, r.owedMinor),
  }));
}

/** Quotes that wait for an answer, the oldest first. */
export function waitingQuotes(db: ReadDb, today: LocalDay): WaitingQuote[] {
  const rows = allRows<Omit<WaitingQuote, 'lapsed'>>(
    db,
    `SELECT q.id AS quoteId, q.number, q.version, q.state, q.job_id AS jobId, j.number AS jobNumber, c.name AS customer,
      v.make_model AS makeModel, min(o.to_pay_minor) AS lowMinor, max(o.to_pay_minor) AS highMinor,
      q.valid_until_day AS validUntilDay
    FROM quote q JOIN quote_option o ON o.quote_id = q.id JOIN job j ON j.id = q.job_id
      JOIN customer c ON c.id = j.customer_id JOIN vehicle v ON v.id = j.vehicle_id
    WHERE q.state IN ('draft', 'sent') AND j.state NOT IN ('cancelled', 'noShow', 'collected')
    GROUP BY q.id ORDER BY q.valid_until_day, q.number`,
  );
  return rows.map((r) => ({ ...r, lapsed: isLapsed(r.state, r.validUntilDay, today) }));
}

/**
 * True of a job `j` on which something can be billed: an agreed quote, or time worked on more than the look. Work redone
 * under warranty is not billed.
 */
export const WORK_TO_BILL = `(j.redo_of_job_id IS NULL
  AND (EXISTS (SELECT 1 FROM quote q WHERE q.job_id = j.id AND q.state = 'accepted')
    OR EXISTS (SELECT 1 FROM job_stage s JOIN stage_work w ON w.stage_id = s.id
      WHERE s.job_id = j.id AND s.kind <> 'inspection' AND w.end_ms - w.start_ms >= 30000)))`;

/**
 * Jobs that are ready or gone and have no invoice yet, or none that stands; `agreedMinor` is null where only the time
 * worked can be billed.
 */
export function jobsToBill(db: ReadDb): ToBill[] {
  return unbilled(db, `AND NOT ${WORK_DRAFTED}`);
}

/** The same, with those whose invoice lies there as a draft. */
export function jobsUnbilled(db: ReadDb): ToBill[] {
  return unbilled(db, '');
}

function unbilled(db: ReadDb, which: string): ToBill[] {
  return allRows<ToBill>(
    db,
    `SELECT j.id AS jobId, j.number AS jobNumber, c.name AS customer, v.make_model AS makeModel, j.state,
      coalesce(j.payer_id, j.customer_id) AS payerId, p.name AS payer,
      (SELECT o.to_pay_minor FROM quote q JOIN quote_option o ON o.quote_id = q.id AND o.letter = q.accepted_letter
        WHERE q.job_id = j.id AND q.state = 'accepted') AS agreedMinor,
      ${PARTLY_BILLED} AS partlyMinor
    FROM job_unbilled u CROSS JOIN job j ON j.id = u.job_id JOIN customer c ON c.id = j.customer_id
      JOIN vehicle v ON v.id = j.vehicle_id JOIN customer p ON p.id = coalesce(j.payer_id, j.customer_id)
    WHERE ${WORK_TO_BILL} ${which}
    ORDER BY j.number`,
  );
}

/** Whose a tip `p` gives back is, '' = everybody's; null where it gives none back. */
const TIP_OF = `(SELECT coalesce(t.name, '') FROM payment o LEFT JOIN person t ON t.id = o.person_id
    WHERE o.id = p.of_payment_id AND o.kind = 'tip')`;

/** Money went to the customer or came from them; tips that are paid out go to whom they were given. */
const PAYMENTS = `SELECT p.id, p.receipt, p.kind, p.way, p.amount_minor AS amountMinor, p.at_ms AS atMs,
    coalesce(w.name, '') AS by, p.note, coalesce(${TIP_OF}, c.name, '') AS customer, j.number AS jobNumber
  FROM payment p LEFT JOIN customer c ON c.id = p.customer_id LEFT JOIN job j ON j.id = p.job_id
    LEFT JOIN person w ON w.id = p.taken_by`;

export function paymentsOn(db: ReadDb, day: LocalDay): PaymentRow[] {
  return allRows<PaymentRow>(db, `${PAYMENTS} WHERE p.local_day = :day ORDER BY p.at_ms DESC, p.id DESC`, {
    day,
  });
}

export function paymentsOfReceipt(db: ReadDb, receipt: number): PaymentRow[] {
  return allRows<PaymentRow>(db, `${PAYMENTS} WHERE p.receipt = :receipt ORDER BY p.id`, { receipt });
}

/** What settled a document, each with the part that was laid on it. */
export function paymentsOfInvoice(db: ReadDb, invoiceId: string): PaymentRow[] {
  return allRows<PaymentRow>(
    db,
    `SELECT x.id, x.receipt, x.kind, x.way, a.amount_minor AS amountMinor, x.atMs, x.by, x.note, x.customer, x.jobNumber
    FROM allocation a JOIN (${PAYMENTS}) x ON x.id = a.payment_id WHERE a.invoice_id = :invoiceId ORDER BY a.id`,
    { invoiceId },
  );
}

/** What was taken on the receipts of those payments beside the document itself. */
export function takenBeside(db: ReadDb, invoiceId: string): PaymentRow[] {
  const settled = 'SELECT a.payment_id FROM allocation a WHERE a.invoice_id = :invoiceId';
  return allRows<PaymentRow>(
    db,
    `${PAYMENTS} WHERE p.receipt IN (SELECT receipt FROM payment WHERE id IN (${settled}))
      AND p.id NOT IN (${settled}) AND p.way <> 'account' ORDER BY p.id`,
    { invoiceId },
  );
}

export function takingsOn(db: ReadDb, day: LocalDay): { way: PaymentWay; amountMinor: number }[] {
  return allRows(
    db,
    `SELECT way, sum(amount_minor) AS amountMinor FROM payment WHERE local_day = :day AND way <> 'account'
    GROUP BY way ORDER BY way`,
    { day },
  );
}
