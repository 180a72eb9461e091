import { memo } from './prepared.ts';
import type { WriteDb } from './types.ts';

const NEXT = `INSERT INTO sequence (name, next) VALUES (?, 2)
  ON CONFLICT (name) DO UPDATE SET next = next + 1 RETURNING next - 1 AS number`;

/** Takes the next number of a named series, starting at 1. Inside a write only: rolled back, it is not used up. */
export function nextNumber(db: WriteDb, name: string): number {
  const next = memo(db.raw, NEXT, () => db.raw.prepare(NEXT));
  return (next.get(name) as { readonly number: number }).number;
}
