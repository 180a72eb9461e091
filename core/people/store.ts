import { and, eq, sql } from 'drizzle-orm';
import { addRow } from '../db/rows.ts';
import { customer } from '../db/schema/people.ts';
import type { ReadDb, WriteDb } from '../db/types.ts';
import type { CustomerId } from '../shared/ids.ts';

export type CustomerRow = typeof customer.$inferSelect;

export function customerRow(db: ReadDb, id: CustomerId): CustomerRow | undefined {
  return db.orm.select().from(customer).where(eq(customer.id, id)).get();
}

export function insertCustomer(db: WriteDb, row: typeof customer.$inferInsert): void {
  addRow(db, customer, row);
}

/** Changes a customer if nobody has since `revision`; false when somebody has. */
export function updateCustomer(
  db: WriteDb,
  id: CustomerId,
  revision: number,
  fields: Partial<typeof customer.$inferInsert>,
): boolean {
  const done = db.orm
    .update(customer)
    .set({ ...fields, revision: sql`${customer.revision} + 1` })
    .where(and(eq(customer.id, id), eq(customer.revision, revision)))
    .run();
  return done.changes === 1;
}
