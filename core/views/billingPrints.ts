import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { InvoiceId } from '../shared/ids.ts';
import type { PrintView } from '../shared/views/billing.ts';

const PRINTS = `SELECT p.at_ms AS atMs, coalesce(w.name, '') AS by
  FROM paper_print p LEFT JOIN person w ON w.id = p.by_id WHERE p.invoice_id = :id ORDER BY p.seq`;

/** When and by whom a document was printed, the first time first. */
export function printsOf(db: ReadDb, id: InvoiceId): PrintView[] {
  return allRows<PrintView>(db, PRINTS, { id });
}
