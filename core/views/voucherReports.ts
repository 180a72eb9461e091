import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { VoucherPurpose } from '../shared/settings/billing.ts';
import type { LocalDay, Minor } from '../shared/units.ts';

export type VoucherNet = { readonly id: string; readonly ratePpm: number; readonly netMinor: number };

/**
 * Before tax, by document issued in a period: what taxed vouchers were sold for on it, less what was used on it, at the
 * rate each was sold at.
 */
export function voucherNetsIssued(
  db: ReadDb,
  fromDay: LocalDay,
  toDay: LocalDay,
): ReadonlyMap<string, readonly VoucherNet[]> {
  const rows = allRows<VoucherNet>(
    db,
    `SELECT e.invoice_id AS id, sum(e.net_minor) AS netMinor,
      (SELECT max(t.rate_ppm) FROM invoice_tax t WHERE t.invoice_id = v.invoice_id AND t.net_minor <> 0) AS ratePpm
    FROM voucher_entry e JOIN voucher v ON v.id = e.voucher_id JOIN invoice i ON i.id = e.invoice_id
    WHERE e.net_minor <> 0 AND i.issued_day BETWEEN :fromDay AND :toDay GROUP BY e.invoice_id, ratePpm`,
    { fromDay, toDay },
  );
  return Map.groupBy(rows, (row) => row.id);
}

/** A voucher as it stood at the end of a day. `owedMinor` is what the books owe for it: without the tax paid at its sale. */
export type VoucherStand = {
  readonly number: number;
  readonly purpose: VoucherPurpose;
  readonly customer: string;
  readonly soldDay: LocalDay;
  readonly expiresDay: LocalDay | null;
  readonly valueMinor: Minor;
  readonly usedMinor: Minor;
  readonly letGoMinor: Minor;
  readonly leftMinor: Minor;
  readonly owedMinor: Minor;
};

const STANDS = `SELECT v.number, v.purpose, coalesce(c.name, '') AS customer, v.sold_day AS soldDay, v.last_day AS expiresDay,
    v.value_minor AS valueMinor, sum(e.amount_minor) AS leftMinor,
    v.value_minor - coalesce(sum(e.amount_minor) FILTER (WHERE e.kind NOT IN ('letGo', 'restored')), 0) AS usedMinor,
    coalesce(-sum(e.amount_minor) FILTER (WHERE e.kind IN ('letGo', 'restored')), 0) AS letGoMinor,
    sum(CASE v.purpose WHEN 'multi' THEN e.amount_minor ELSE e.net_minor END) AS owedMinor
  FROM voucher v JOIN voucher_entry e ON e.voucher_id = v.id LEFT JOIN customer c ON c.id = v.customer_id
  WHERE e.local_day <= :day GROUP BY v.id ORDER BY v.number`;

/** Every voucher sold up to a day, as it stood at its end. */
export function vouchersOn(db: ReadDb, day: LocalDay): VoucherStand[] {
  return allRows<VoucherStand>(db, STANDS, { day });
}

/** What was let go of a voucher in a period (above zero), or held again; as the books owed it: of a taxed one before tax. */
export type BookedLetGo = {
  readonly number: number;
  readonly day: LocalDay;
  readonly customer: string;
  readonly amountMinor: Minor;
};

export function bookedLetGo(db: ReadDb, fromDay: LocalDay, toDay: LocalDay): BookedLetGo[] {
  return allRows<BookedLetGo>(
    db,
    `SELECT v.number, e.local_day AS day, coalesce(c.name, '') AS customer,
      -CASE v.purpose WHEN 'multi' THEN e.amount_minor ELSE e.net_minor END AS amountMinor
    FROM voucher_entry e JOIN voucher v ON v.id = e.voucher_id LEFT JOIN customer c ON c.id = v.customer_id
    WHERE e.kind IN ('letGo', 'restored') AND e.local_day BETWEEN :fromDay AND :toDay ORDER BY e.seq`,
    { fromDay, toDay },
  );
}
