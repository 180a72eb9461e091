import path from 'node:path';
import { setImmediate as turn, setTimeout as wait } from 'node:timers/promises';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { Link } from '#core/host/link.ts';
import { inSpareTime, type SpareTime } from '#core/host/spareTime.ts';
import { openBayShop } from '../bays/shop.ts';

const root = path.resolve(import.meta.dirname, '../../..');

const WAITS = { quietMs: 15, againMs: 60_000 };
let spare: SpareTime | undefined;
afterEach(() => spare?.stop());

/** Work that writes down each of its steps, of which it has so many. */
function workOf(done: string[], count: number): () => Generator<undefined, void> {
  let times = 0;
  return function* () {
    times += 1;
    for (let i = 1; i <= count; i += 1) {
      done.push(`${times}.${i}`);
      yield;
    }
  };
}

describe('what a worker does in spare time', () => {
  it('is begun once it is quiet, and done to its end', async () => {
    const done: string[] = [];
    spare = inSpareTime(workOf(done, 3), () => {}, WAITS);
    await wait(30);
    expect(done).toEqual([]);
    spare.asked();
    expect(done).toEqual([]);
    await vi.waitFor(() => expect(done).toEqual(['1.1', '1.2', '1.3']));
  });

  it('lets whoever asks go first after each step, and begins anew when they are quiet', async () => {
    const done: string[] = [];
    const spent = inSpareTime(workOf(done, 1_000_000), () => {}, WAITS);
    spare = spent;
    spent.asked();
    await vi.waitFor(() => expect(done.length).toBeGreaterThan(0));
    const asked = done.length;
    expect(asked).toBeLessThan(1_000_000);
    spent.asked();
    for (let i = 0; i < 20; i += 1) await turn();
    expect(done).toHaveLength(asked);
    await vi.waitFor(() => expect(done[asked]).toBe('2.1'));
  });

  it('is looked for again after a while, though nobody asked', async () => {
    const done: string[] = [];
    spare = inSpareTime(workOf(done, 1), () => {}, { quietMs: 1, againMs: 10 });
    spare.asked();
    await vi.waitFor(() => expect(done.length).toBeGreaterThan(2));
  });

  it('ends with the worker', async () => {
    const done: string[] = [];
    spare = inSpareTime(workOf(done, 100_000), () => {}, { quietMs: 1, againMs: 1 });
    spare.asked();
    await vi.waitFor(() => expect(done.length).toBeGreaterThan(0));
    spare.stop();
    const { length } = done;
    spare.asked();
    await wait(20);
    expect(done).toHaveLength(length);
  });

  it('tells what failed, and is tried again', async () => {
    const said: string[] = [];
    spare = inSpareTime(
      () => {
        throw new Error('no such table');
      },
      (line) => said.push(line),
      { quietMs: 1, againMs: 5 },
    );
    spare.asked();
    await vi.waitFor(() => expect(said.length).toBeGreaterThan(1));
    expect(said[0]).toContain('no such table');
  });
});

describe('the worker that answers questions', () => {
  it('plays the cars ahead once nobody asks: what is wrong with the plan’s tables is told then', async () => {
    const log: string[] = [];
    const shop = openBayShop();
    shop.db.raw.exec('ALTER TABLE dust_pair RENAME TO put_aside');
    const reader = new Link({
      workerFile: path.join(root, 'core/host/worker.ts'),
      start: { role: 'views', dataDir: shop.dir, migrationsDir: '', cancelFlag: new SharedArrayBuffer(4) },
      log: (line) => log.push(line),
      onProgress: () => {},
    });
    const question = { op: 'call', call: { name: 'shop.state', input: {} } } as const;
    try {
      await reader.open();
      expect(await reader.ask(question)).toMatchObject({ reply: { ok: true } });
      expect(log).toEqual([]);
      await vi.waitFor(() => expect(log.join()).toContain('spare time'), 10_000);
      expect(log.join()).toContain('dust_pair');
      expect(await reader.ask(question)).toMatchObject({ reply: { ok: true } });
    } finally {
      await reader.close();
      shop.db.raw.exec('ALTER TABLE put_aside RENAME TO dust_pair');
      shop.close();
    }
  });
});
