import { memo } from './prepared.ts';
import type { WriteDb } from './types.ts';

type Frame = (work: () => unknown) => unknown;

/** Does all of a write or nothing of it; within another one as a part that can fail alone. Built once per connection. */
export function atomically<T>(db: WriteDb, work: () => T): T {
  const frame = memo(db.raw, 'atomic', (): Frame => db.raw.transaction((w: () => unknown) => w()).immediate);
  return frame(work) as T;
}

/**
 * Does a part of a transaction without a savepoint of its own, for which every page it changes would be copied first:
 * an eighth of the time of a long batch. A part that fails before it wrote anything is as if it had never been; one that
 * fails later leaves what the whole must not keep: `halfDone` is told so.
 * @throws what `work` throws
 */
export function asPart<T>(db: WriteDb, work: () => T, halfDone: (error: unknown) => void): T {
  const before = changesOf(db);
  try {
    return work();
  } catch (error) {
    if (changesOf(db) !== before) halfDone(error);
    throw error;
  }
}

/** Rows written by this connection so far, those of triggers among them. */
function changesOf(db: WriteDb): number {
  return memo(db.raw, 'changes', () => db.raw.prepare('SELECT total_changes()').pluck()).get() as number;
}
