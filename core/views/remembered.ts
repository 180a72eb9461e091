import type { ReadCtx } from '../context.ts';
import type { ReadDb } from '../db/types.ts';

type Kept = { readonly version: number; readonly minute: number; readonly answers: Map<string, unknown> };
const kept = new WeakMap<object, Kept>();
/** So many answers are kept on a connection; the oldest goes first. */
const MOST = 12;

/**
 * Answers the same question again from memory while nothing in the file has changed and it is the same minute. It
 * cannot tell anything old: SQLite itself says whether any other connection has committed since, and the connection
 * that remembers may only read. One that may write always works it out.
 * @source sqlite.org, PRAGMA data_version
 */
export function remembered<A, T>(
  name: string,
  work: (ctx: ReadCtx, asked: A) => T,
): (ctx: ReadCtx, asked: A) => T {
  return (ctx, asked) => {
    if (!ctx.db.raw.readonly) return work(ctx, asked);
    const answers = answersOf(ctx.db, Math.floor(ctx.now / 60_000));
    const key = `${name} ${JSON.stringify(asked)}`;
    if (answers.has(key)) return answers.get(key) as T;
    const answer = work(ctx, asked);
    const [oldest] = answers.keys();
    if (answers.size >= MOST && oldest !== undefined) answers.delete(oldest);
    answers.set(key, answer);
    return answer;
  };
}

function answersOf(db: ReadDb, minute: number): Map<string, unknown> {
  const version = db.raw.pragma('data_version', { simple: true }) as number;
  const before = kept.get(db.raw);
  if (before?.version === version && before.minute === minute) return before.answers;
  const answers = new Map<string, unknown>();
  kept.set(db.raw, { version, minute, answers });
  return answers;
}
