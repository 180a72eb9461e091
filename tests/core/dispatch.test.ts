import { afterEach, describe, expect, it } from 'vitest';
import { z } from 'zod';
import type { ReadCtx, WriteCtx } from '#core/context.ts';
import { openForWriting } from '#core/db/open.ts';
import { oneRow } from '#core/db/prepared.ts';
import { type Door, dispatch, dispatchWrite } from '#core/dispatch.ts';
import { forgetOld } from '#core/journal.ts';
import { read, write } from '#core/shared/entry.ts';
import { refuse } from '#core/shared/errors.ts';
import type { EpochMs } from '#core/shared/units.ts';
import { openTestShop, type TestShop } from '../helpers/shop.ts';

let shop: TestShop | undefined;
afterEach(() => {
  shop?.close();
  shop = undefined;
});

/** A door with two actions of its own, over a real database. */
function smallDoor(): { door: Door; said: string[] } {
  shop = openTestShop();
  const said: string[] = [];
  const catalogue = {
    'test.note': write<string>()({
      needs: 'desk',
      about: 'note',
      input: z.strictObject({ text: z.string().min(1) }),
      touches: ['notes'],
    }),
    'test.count': read<number>()({
      needs: 'anyone',
      about: 'count',
      input: z.strictObject({}),
      listens: ['notes'],
    }),
    'test.countTwice': read<readonly number[]>()({
      needs: 'anyone',
      about: 'count, let somebody else write, count again',
      input: z.strictObject({}),
      listens: ['notes'],
    }),
  };
  const handlers = {
    'test.note': (ctx: WriteCtx, input: { text: string }) => {
      ctx.changed('note-1', 'text');
      ctx.db.raw.prepare('INSERT INTO sequence (name, next) VALUES (?, 1)').run(input.text);
      if (input.text === 'no') refuse('NOT_FOUND', { what: 'job', id: 'no' });
      if (input.text === 'bug') throw new TypeError('a bug');
      return input.text;
    },
    'test.count': counted,
    'test.countTwice': (ctx: ReadCtx) => {
      const before = counted(ctx);
      const other = openForWriting(ctx.db.raw.name);
      other.raw.prepare("INSERT INTO sequence (name, next) VALUES ('in between', 1)").run();
      other.raw.close();
      return [before, counted(ctx)];
    },
  };
  const door: Door = {
    db: shop.db,
    catalogue,
    handlers,
    now: () => 1_000 as Door extends { now: () => infer T } ? T : never,
    newId: () => 'abcdef123456',
    actorOf: (_db: unknown, session: string | undefined) =>
      session === 'desk' ? { personId: shop?.people.desk as never, name: 'Desk', role: 'desk' } : null,
    log: (line) => said.push(line),
    compute: async () => null,
  };
  return { door, said };
}
function counted(ctx: ReadCtx): number {
  return oneRow<{ n: number }>(ctx.db, 'SELECT count(*) AS n FROM sequence')?.n ?? -1;
}
const quiet = { progress: () => {}, cancelled: () => false };
const count = async (door: Door): Promise<unknown> =>
  dispatch(door, { name: 'test.count', input: {} }, quiet);

describe('the door', () => {
  it('refuses an unknown command by its name', async () => {
    const { door } = smallDoor();
    expect(await dispatch(door, { name: 'toString', input: {} }, quiet)).toEqual({
      ok: false,
      error: { code: 'UNKNOWN_COMMAND', data: { name: 'toString' } },
    });
  });

  it('refuses somebody without the role, and nobody at all', async () => {
    const { door } = smallDoor();
    expect(dispatchWrite(door, { name: 'test.note', input: { text: 'a' } })).toMatchObject({
      ok: false,
      error: { code: 'NOT_ALLOWED', data: { needs: 'desk', has: 'nobody' } },
    });
  });

  it('names the field that does not fit, also one that is too much', () => {
    const { door } = smallDoor();
    const bad = dispatchWrite(door, { name: 'test.note', input: { text: '' }, session: 'desk' });
    expect(bad).toMatchObject({ ok: false, error: { code: 'BAD_INPUT', data: { field: 'text' } } });
    const extra = dispatchWrite(door, { name: 'test.note', input: { text: 'a', more: 1 }, session: 'desk' });
    expect(extra).toMatchObject({ ok: false, error: { code: 'BAD_INPUT' } });
  });

  it('rolls a refused write back whole, journal row included', async () => {
    const { door } = smallDoor();
    expect(dispatchWrite(door, { name: 'test.note', input: { text: 'no' }, session: 'desk' })).toMatchObject({
      error: { code: 'NOT_FOUND' },
    });
    expect(await count(door)).toMatchObject({ value: 0 });
    expect(shop?.db.raw.prepare('SELECT count(*) AS n FROM journal').get()).toEqual({ n: 0 });
  });

  it('answers a question from one state, whatever is written while it reads', async () => {
    const { door } = smallDoor();
    const reply = await dispatch(door, { name: 'test.countTwice', input: {} }, quiet);
    expect(reply).toMatchObject({ ok: true, value: [0, 0] });
    expect(await count(door)).toMatchObject({ value: 1 });
    expect(shop?.db.raw.inTransaction).toBe(false);
  });

  it('writes one journal row with the field names and never their values', () => {
    const { door } = smallDoor();
    dispatchWrite(door, { name: 'test.note', input: { text: 'secret' }, session: 'desk' });
    const row = shop?.db.raw.prepare('SELECT * FROM journal').get();
    expect(row).toMatchObject({
      command: 'test.note',
      subjects: '["note-1"]',
      fields: '["text"]',
      person_id: shop?.people.desk,
    });
    expect(JSON.stringify(row)).not.toContain('secret');
  });

  it('answers a repeated command id with the first reply and does it once', async () => {
    const { door } = smallDoor();
    const call = { name: 'test.note', input: { text: 'once' }, session: 'desk', commandId: 'c1' };
    const first = dispatchWrite(door, call);
    expect(dispatchWrite(door, call)).toEqual(first);
    expect(await count(door)).toMatchObject({ value: 1 });
  });

  it('refuses a command id that was used for another command', () => {
    const { door } = smallDoor();
    shop?.db.raw.prepare("INSERT INTO answered VALUES ('c2', 'test.other', 1, '{}')").run();
    expect(
      dispatchWrite(door, { name: 'test.note', input: { text: 'x' }, session: 'desk', commandId: 'c2' }),
    ).toMatchObject({
      ok: false,
      error: { code: 'BAD_INPUT', data: { field: 'commandId' } },
    });
  });

  it('forgets replies after a week and sessions after sixty days, never the journal', () => {
    const { door } = smallDoor();
    dispatchWrite(door, { name: 'test.note', input: { text: 'kept' }, session: 'desk', commandId: 'c3' });
    const raw = shop?.db.raw;
    raw?.prepare("INSERT INTO session VALUES ('hash', ?, 1000, NULL)").run(shop?.people.desk);
    const left = (): unknown[] =>
      ['answered', 'session', 'journal'].map((t) => raw?.prepare(`SELECT count(*) FROM ${t}`).pluck().get());
    if (shop) forgetOld(shop.db, (1000 + 7 * 86_400_000) as EpochMs);
    expect(left()).toEqual([1, 1, 1]);
    if (shop) forgetOld(shop.db, (1001 + 60 * 86_400_000) as EpochMs);
    expect(left()).toEqual([0, 0, 1]);
  });

  it('does not let a question through as a write', () => {
    const { door } = smallDoor();
    expect(dispatchWrite(door, { name: 'test.count', input: {} })).toMatchObject({
      error: { code: 'UNKNOWN_COMMAND' },
    });
  });

  it('turns a bug into a reference number and logs its stack', () => {
    const { door, said } = smallDoor();
    const reply = dispatchWrite(door, { name: 'test.note', input: { text: 'bug' }, session: 'desk' });
    expect(reply).toEqual({ ok: false, error: { code: 'INTERNAL', data: { reference: '123456' } } });
    expect(said.join()).toContain('TypeError: a bug');
  });
});
