import { memo } from './prepared.ts';
import type { WriteDb } from './types.ts';

type Frame = (work: () => unknown) => unknown;

/** Does all of a write or nothing of it; within another one as a part that can fail alone. Built once per connection. */
export function atomically<T>(db: WriteDb, work: () => T): T {
  const frame = memo(db.raw, 'atomic', (): Frame => db.raw.transaction((w: () => unknown) => w()).immediate);
  return frame(work) as T;
}
