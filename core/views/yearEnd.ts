import { allRows, oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { InvoiceId } from '../shared/ids.ts';
import type { LocalDay, Minor } from '../shared/units.ts';

/** A document on which something was still to be settled at the end of a day; below zero the shop owed it. */
export type OpenItem = {
  readonly number: number;
  readonly customer: string;
  readonly issuedDay: LocalDay;
  readonly dueDay: LocalDay;
  readonly toPayMinor: Minor;
  readonly openMinor: Minor;
};

const OPEN = `SELECT * FROM (SELECT i.number, c.name AS customer, i.issued_day AS issuedDay, i.due_day AS dueDay,
    i.to_pay_minor AS toPayMinor, i.to_pay_minor
      + coalesce((SELECT sum(k.to_pay_minor) FROM invoice k WHERE k.of_invoice_id = i.id AND k.issued_day <= :day), 0)
      - coalesce((SELECT sum(a.amount_minor) FROM allocation a WHERE a.invoice_id = i.id AND a.local_day <= :day), 0)
      AS openMinor
  FROM invoice i JOIN customer c ON c.id = i.customer_id
  WHERE i.kind <> 'credit' AND i.issued_day <= :day) WHERE openMinor <> 0 ORDER BY number`;

/** What was open at the end of a day, whatever happened since. */
export function openItemsOn(db: ReadDb, day: LocalDay): OpenItem[] {
  return allRows<OpenItem>(db, OPEN, { day });
}

export type StockWorth = {
  readonly item: string;
  readonly qty: number;
  readonly unit: string;
  readonly valueMinor: Minor;
};

const WORTH = `SELECT i.name AS item, sum(m.qty) AS qty, i.base_unit AS unit, sum(m.value_minor) AS valueMinor
  FROM stock_movement m JOIN stock_item i ON i.id = m.item_id WHERE m.at_ms < :endMs
  GROUP BY i.id HAVING qty <> 0 OR valueMinor <> 0 ORDER BY i.name`;

/** What lay in stock before an instant, in base units and at the ledger's cost. */
export function stockWorth(db: ReadDb, endMs: number): StockWorth[] {
  return allRows<StockWorth>(db, WORTH, { endMs });
}

const ISSUED = `SELECT id FROM invoice WHERE issued_day >= :fromDay AND issued_day <= :toDay ORDER BY number`;

export function issuedIn(db: ReadDb, fromDay: LocalDay, toDay: LocalDay): InvoiceId[] {
  return allRows<{ readonly id: InvoiceId }>(db, ISSUED, { fromDay, toDay }).map((row) => row.id);
}

/** The first and the last number issued in a period; null where none was. */
export function numbersIn(
  db: ReadDb,
  fromDay: LocalDay,
  toDay: LocalDay,
): { readonly first: number; readonly last: number } | null {
  const sql = `SELECT min(number) AS first, max(number) AS last FROM invoice
    WHERE issued_day >= :fromDay AND issued_day <= :toDay`;
  const row = oneRow<{ first: number | null; last: number | null }>(db, sql, { fromDay, toDay });
  return row?.first && row.last ? { first: row.first, last: row.last } : null;
}
