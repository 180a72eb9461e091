import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { CustomerId } from '../shared/ids.ts';

const JOBS = 'SELECT id FROM job WHERE customer_id = :id OR payer_id = :id';
const VISITS = 'SELECT id FROM job WHERE customer_id = :id';
const STAGES = `SELECT id FROM job_stage WHERE job_id IN (${VISITS})`;
const LOOKS = `SELECT id FROM inspection WHERE job_id IN (${VISITS})`;
const QUOTES = `SELECT id FROM quote WHERE job_id IN (${JOBS})`;
const PAPERS = 'SELECT id FROM invoice WHERE customer_id = :id';

/** Tables that hold something about a customer, and which of their rows do. */
const ABOUT: Readonly<Record<string, string>> = {
  customer: 'id = :id',
  vehicle: 'customer_id = :id OR id IN (SELECT vehicle_id FROM vehicle_keeper WHERE customer_id = :id)',
  vehicle_keeper: 'customer_id = :id',
  job: `id IN (${JOBS})`,
  car_record: `job_id IN (${VISITS})`,
  job_stage: `job_id IN (${VISITS})`,
  stage_note: `stage_id IN (${STAGES})`,
  stage_panel: `stage_id IN (${STAGES})`,
  stage_share: `stage_id IN (${STAGES})`,
  inspection: `id IN (${LOOKS})`,
  panel_state: `inspection_id IN (${LOOKS})`,
  finding: `inspection_id IN (${LOOKS})`,
  sanding_consent: `inspection_id IN (${LOOKS})`,
  film_reading: `inspection_id IN (${LOOKS})`,
  test_spot: `inspection_id IN (${LOOKS})`,
  panel_removal: `job_id IN (${VISITS})`,
  picture: `job_id IN (${VISITS}) AND removed_ms IS NULL`,
  estimate: `job_id IN (${VISITS})`,
  quote: `id IN (${QUOTES})`,
  quote_option: `quote_id IN (${QUOTES})`,
  invoice: 'customer_id = :id',
  billed_job: `invoice_id IN (${PAPERS}) OR job_id IN (${VISITS})`,
  paper_print: `invoice_id IN (${PAPERS})`,
  invoice_tax: `invoice_id IN (${PAPERS})`,
  deduction: `invoice_id IN (${PAPERS})`,
  partial_line: `invoice_id IN (${PAPERS})`,
  reminder: `invoice_id IN (${PAPERS})`,
  payment: 'customer_id = :id',
  allocation: `invoice_id IN (${PAPERS})`,
  voucher: 'customer_id = :id',
  voucher_entry: 'voucher_id IN (SELECT id FROM voucher WHERE customer_id = :id)',
};

/** People of the shop are not part of what is kept about a customer. */
const NOT_THEIRS = new Set([
  'person_id',
  'made_by',
  'taken_by',
  'issued_by',
  'sold_by',
  'created_by',
  'by_id',
]);

export type Kept = Readonly<Record<string, unknown>>;

/**
 * Everything that is kept about a customer, table by table, in the names and units of the file itself; texts that hold
 * JSON are opened. A vehicle that went to somebody else is in it without what the next keeper added.
 */
export function customerRecords(db: ReadDb, id: CustomerId): Readonly<Record<string, readonly Kept[]>> {
  return Object.fromEntries(
    Object.entries(ABOUT).map(([table, where]) => {
      const rows = allRows<Kept>(db, `SELECT * FROM ${table} WHERE ${where} ORDER BY 1, 2`, { id });
      const json = jsonColumns(db, table);
      return [table, rows.map((row) => opened(row, json))];
    }),
  );
}

function opened(row: Kept, json: ReadonlySet<string>): Kept {
  return Object.fromEntries(
    Object.entries(row)
      .filter(([column]) => !NOT_THEIRS.has(column))
      .map(([column, value]) => [
        column,
        json.has(column) && typeof value === 'string' ? JSON.parse(value) : value,
      ]),
  );
}

function jsonColumns(db: ReadDb, table: string): ReadonlySet<string> {
  const made = allRows<{ sql: string }>(db, 'SELECT sql FROM sqlite_master WHERE name = :table', { table });
  return new Set([...(made[0]?.sql ?? '').matchAll(/json_valid\((\w+)\)/g)].map((found) => found[1] ?? ''));
}
