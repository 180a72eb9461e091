import type { Actor, ReadCtx, TaskCtx, WriteCtx } from './context.ts';
import { atomically } from './db/atomic.ts';
import { storageKindOf } from './db/faults.ts';
import { snapshot } from './db/snapshot.ts';
import type { ReadDb, WriteDb } from './db/types.ts';
import type { Catalogue } from './handler.ts';
import { answerBefore, keepAnswer, writeJournal } from './journal.ts';
import type { Entry } from './shared/entry.ts';
import { DomainError, type PlainError } from './shared/errors.ts';
import { brokenText, inputFault } from './shared/inputFault.ts';
import type { Call, Reply } from './shared/reply.ts';
import { mayUse, type Needs, type Role } from './shared/roles.ts';
import type { EpochMs } from './shared/units.ts';
import { shopIfSetUp } from './views/shop.ts';

/** What dispatch needs from the host: the open database, a clock, ids, who holds a session, and a place to log. */
export type Door = {
  readonly db: ReadDb;
  readonly catalogue: Catalogue;
  readonly handlers: Readonly<Record<string, unknown>>;
  readonly now: () => EpochMs;
  readonly newId: () => string;
  readonly actorOf: (db: ReadDb, session: string | undefined, now: EpochMs) => Actor | null;
  readonly log: (line: string) => void;
  /** Where a task's model is computed; in tests in place, in the host in the solver's worker. */
  readonly compute: (name: string, model: unknown, task: TaskCtx) => Promise<unknown>;
  /** How a write is done whole or not at all; `atomically` where nothing is said. */
  readonly whole?: typeof atomically;
};

/** Checks name, role and input of an action that the host itself carries out; the value is the parsed input. */
export function dispatchAllowed(door: Door, call: Call): Reply {
  try {
    return { ok: true, value: check(door, call).input, touches: [] };
  } catch (error) {
    return { ok: false, error: plain(door, error) };
  }
}

type Checked = { readonly entry: Entry; readonly input: unknown; readonly actor: Actor | null };

/** The one door: check name, role and input; then read, write, render or compute. Never throws. */
export async function dispatch(door: Door, call: Call, task: TaskCtx): Promise<Reply> {
  try {
    const checked = check(door, call);
    if (checked.entry.kind === 'write') return runWrite(door, call, checked);
    if (checked.entry.kind === 'host') throw new DomainError('UNKNOWN_COMMAND', { name: call.name });
    const value = await runRead(door, call, checked, task);
    return { ok: true, value, touches: checked.entry.touches };
  } catch (error) {
    return { ok: false, error: plain(door, error) };
  }
}

/** A write on its own, for callers that are synchronous already (batches, tests). Never throws. */
export function dispatchWrite(door: Door, call: Call): Reply {
  try {
    const checked = check(door, call);
    if (checked.entry.kind !== 'write') throw new DomainError('UNKNOWN_COMMAND', { name: call.name });
    return runWrite(door, call, checked);
  } catch (error) {
    return { ok: false, error: plain(door, error) };
  }
}

function check(door: Door, call: Call): Checked {
  const entry = Object.hasOwn(door.catalogue, call.name) ? door.catalogue[call.name] : undefined;
  if (!entry) throw new DomainError('UNKNOWN_COMMAND', { name: call.name });
  const actor = door.actorOf(door.db, call.session, door.now());
  const needs = neededIn(door.db, entry.needs);
  if (needs !== 'anyone' && !mayUse(actor?.role ?? null, needs)) {
    if (!actor && call.session) throw new DomainError('SESSION_ENDED', {});
    throw new DomainError('NOT_ALLOWED', { needs, has: actor?.role ?? 'nobody' });
  }
  const parsed = entry.input.safeParse(call.input);
  if (!parsed.success) throw new DomainError('BAD_INPUT', inputFault(parsed.error.issues, call.input));
  const broken = brokenText(parsed.data);
  if (broken) throw new DomainError('BAD_INPUT', broken);
  return { entry, input: parsed.data, actor };
}

/** What an entry needs in the shop as it is. */
function neededIn(db: ReadDb, needs: Needs): Role | 'anyone' {
  if (needs !== 'ownerOnceSetUp') return needs;
  return shopIfSetUp(db) === null ? 'anyone' : 'owner';
}

function runWrite(door: Door, call: Call, { entry, input, actor }: Checked): Reply {
  const db = door.db as WriteDb;
  const run = door.handlers[call.name] as (ctx: WriteCtx, input: unknown) => unknown;
  const subjects = new Set<string>();
  const fields = new Set<string>();
  const after: (() => void)[] = [];
  const now = door.now();
  const reply = (door.whole ?? atomically)(db, (): Reply => {
    const before = call.commandId === undefined ? null : answerBefore(db, call.commandId, call.name);
    if (before) return before;
    const changed = (id: string, ...names: readonly string[]): void => {
      subjects.add(id);
      for (const name of names) fields.add(name);
    };
    const newId = <T extends string>(): T => door.newId() as T;
    const onceKept = (work: () => void): void => void after.push(work);
    const value = run({ db, now, actor, newId, changed, onceKept }, input);
    const reply: Reply = { ok: true, value: value ?? null, touches: entry.touches };
    writeJournal(db, { now, actor, command: call.name, subjects, fields });
    if (call.commandId !== undefined) keepAnswer(db, call.commandId, call.name, now, reply);
    return reply;
  });
  for (const work of after) work();
  return reply;
}

async function runRead(
  door: Door,
  call: Call,
  { entry, input, actor }: Checked,
  task: TaskCtx,
): Promise<unknown> {
  const ctx: ReadCtx = { db: door.db, now: door.now(), actor };
  const handler = door.handlers[call.name];
  if (entry.kind === 'read') {
    const answer = handler as (ctx: ReadCtx, input: unknown) => unknown;
    return snapshot(door.db, () => answer(ctx, input)) ?? null;
  }
  if (entry.kind === 'document') {
    const { make } = handler as { make: (ctx: ReadCtx, input: unknown) => () => Promise<unknown> };
    const render = snapshot(door.db, () => make(ctx, input));
    return render();
  }
  const { gather } = handler as { gather: (ctx: ReadCtx, input: unknown) => unknown };
  return door.compute(
    call.name,
    snapshot(door.db, () => gather(ctx, input)),
    task,
  );
}

/** The only place where an error becomes a reply. */
function plain(door: Door, error: unknown): PlainError {
  if (error instanceof DomainError) return { code: error.code, data: error.data } as PlainError;
  const kind = storageKindOf(error);
  if (kind) {
    door.log(`storage ${kind}: ${String(error)}`);
    return { code: 'STORAGE', data: { kind } };
  }
  const reference = door.newId().slice(-6).toUpperCase();
  door.log(`${reference} ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`);
  return { code: 'INTERNAL', data: { reference } };
}
