import { addRow } from '../../db/rows.ts';
import { cashCount } from '../../db/schema/billing.ts';
import type { WriteDb } from '../../db/types.ts';

export function addCashCount(db: WriteDb, row: typeof cashCount.$inferInsert): void {
  addRow(db, cashCount, row);
}
