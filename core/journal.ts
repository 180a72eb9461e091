import type { Actor } from './context.ts';
import type { WriteDb } from './db/types.ts';
import { DomainError } from './shared/errors.ts';
import type { Reply } from './shared/reply.ts';
import type { EpochMs } from './shared/units.ts';

type Line = {
  readonly now: EpochMs;
  readonly actor: Actor | null;
  readonly command: string;
  readonly subjects: ReadonlySet<string>;
  readonly fields: ReadonlySet<string>;
};

const statements = new WeakMap<object, ReturnType<typeof prepare>>();

function prepare(db: WriteDb) {
  return {
    journal: db.raw.prepare(
      'INSERT INTO journal (at_ms, person_id, command, subjects, fields) VALUES (?, ?, ?, ?, ?)',
    ),
    find: db.raw.prepare('SELECT name, reply FROM answered WHERE command_id = ?'),
    keep: db.raw.prepare('INSERT INTO answered (command_id, name, at_ms, reply) VALUES (?, ?, ?, ?)'),
  };
}

function of(db: WriteDb): ReturnType<typeof prepare> {
  let known = statements.get(db.raw);
  if (!known) {
    known = prepare(db);
    statements.set(db.raw, known);
  }
  return known;
}

/** One row per write: who, when, which command, which records and fields; never their values. */
export function writeJournal(db: WriteDb, line: Line): void {
  of(db).journal.run(
    line.now,
    line.actor?.personId ?? null,
    line.command,
    JSON.stringify([...line.subjects]),
    JSON.stringify([...line.fields].sort()),
  );
}

/**
 * The first reply to this command id, or null. A second send is answered, not done twice.
 * @throws BAD_INPUT when the same id arrives for another command
 */
export function answerBefore(db: WriteDb, commandId: string, name: string): Reply | null {
  const row = of(db).find.get(commandId) as { name: string; reply: string } | undefined;
  if (!row) return null;
  if (row.name !== name)
    throw new DomainError('BAD_INPUT', { field: 'commandId', problem: 'usedForAnother' });
  return JSON.parse(row.reply) as Reply;
}

export function keepAnswer(db: WriteDb, commandId: string, name: string, now: EpochMs, reply: Reply): void {
  of(db).keep.run(commandId, name, now, JSON.stringify(reply));
}

/** Writes something else where kept replies say one of those words: a repeat is still answered, without them. */
export function forgetInReplies(db: WriteDb, words: readonly string[], instead: string): void {
  const said = words.filter((word) => word !== '').map((word) => word.replace(/[\\^$.*+?()[\]{}|]/g, '\\$&'));
  if (said.length === 0) return;
  const whole = new RegExp(`(?<![\\p{L}\\p{N}])(?:${said.join('|')})(?![\\p{L}\\p{N}])`, 'gu');
  const without = (_key: string, value: unknown): unknown =>
    typeof value === 'string' ? value.replace(whole, instead) : value;
  const change = db.raw.prepare('UPDATE answered SET reply = ? WHERE command_id = ?');
  const rows = db.raw.prepare('SELECT command_id AS id, reply FROM answered').all() as readonly {
    readonly id: string;
    readonly reply: string;
  }[];
  for (const { id, reply } of rows) {
    const kept = JSON.stringify(JSON.parse(reply, without));
    if (kept !== reply) change.run(kept, id);
  }
}

const ANSWER_DAYS = 7;
const SESSION_DAYS = 60;

/**
 * Forgets what only served to keep a repeat from being done twice, and sessions that are long over: replies after
 * 7 days, sessions begun more than 60 days ago. The journal itself is never shortened.
 */
export function forgetOld(db: WriteDb, now: EpochMs): void {
  const before = (days: number): number => now - days * 86_400_000;
  db.raw.prepare('DELETE FROM answered WHERE at_ms < ?').run(before(ANSWER_DAYS));
  db.raw.prepare('DELETE FROM session WHERE started_ms < ?').run(before(SESSION_DAYS));
}
