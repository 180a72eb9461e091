import { sql } from 'drizzle-orm';
import { allRows, prepared } from '../../db/prepared.ts';
import { padBatch, padEvent } from '../../db/schema/stock.ts';
import type { ReadDb, WriteDb } from '../../db/types.ts';
import type { ItemId } from '../../shared/ids.ts';
import type { PadState } from '../../shared/views/stock.ts';

export type PadEventRecord = typeof padEvent.$inferSelect;
/** Pieces of one batch in one state; oldest batch first. */
export type PadLevelRow = { readonly batchId: string; readonly state: PadState; readonly pieces: number };

const p = sql.placeholder;
const LEVELS = `SELECT l.batch_id AS batchId, l.state, l.pieces
  FROM pad_batch b CROSS JOIN pad_level l ON l.batch_id = b.id
  WHERE b.item_id = :itemId AND l.pieces <> 0 ORDER BY b.came_ms, b.id`;
const insertEvent = prepared((db) =>
  db.orm
    .insert(padEvent)
    .values({
      batchId: p('batchId'),
      fromState: p('fromState'),
      toState: p('toState'),
      pieces: p('pieces'),
      used: p('used'),
      lost: p('lost'),
      jobId: p('jobId'),
      stageId: p('stageId'),
      personId: p('personId'),
      atMs: p('atMs'),
      note: p('note'),
    })
    .prepare(),
);

/** Where the pieces of an item are, by batch; a state in which there are none is left out. */
export function padLevels(db: ReadDb, itemId: ItemId): readonly PadLevelRow[] {
  return allRows<PadLevelRow>(db, LEVELS, { itemId });
}
export function insertBatch(db: WriteDb, row: typeof padBatch.$inferInsert): void {
  db.orm.insert(padBatch).values(row).run();
}
/** Moves pieces of a batch; the database keeps the sums by itself. */
export function addPadEvent(db: WriteDb, event: Omit<PadEventRecord, 'id'>): void {
  insertEvent(db).run({ ...event, used: event.used ? 1 : 0, lost: event.lost ? 1 : 0 });
}
