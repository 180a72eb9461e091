import type { Statement } from 'better-sqlite3';
import { memo } from './prepared.ts';
import type { ReadDb } from './types.ts';

type Frame = { readonly begin: Statement; readonly end: Statement };

function prepare({ raw }: ReadDb): Frame {
  return { begin: raw.prepare('BEGIN'), end: raw.prepare('COMMIT') };
}

/** Several reads that see one state, whatever another connection commits in between. Inside a transaction they do anyway. */
export function snapshot<T>(db: ReadDb, work: () => T): T {
  if (db.raw.inTransaction) return work();
  const { begin, end } = memo(db.raw, 'snapshot', () => prepare(db));
  begin.run();
  try {
    return work();
  } finally {
    end.run();
  }
}
