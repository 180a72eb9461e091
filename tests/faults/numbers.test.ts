import { rmSync } from 'node:fs';
import path from 'node:path';
import Database from 'better-sqlite3';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { seeded } from '#core/shared/random.ts';
import type { Reply } from '#core/shared/reply.ts';
import { freshDataDir } from '../bridge/desktopApp.ts';
import { startBrowserHost, startProgram } from '../bridge/hostProcess.ts';
import { SHOP } from '../bridge/sampleShop.ts';
import { type Door, doorAt, doorOf, nullWhenGone, windowOf } from './windows.ts';

const EACH = 40;
const KILLS = 6;
const OWNER = 'b'.repeat(64);
const DESK = 'c'.repeat(64);
const VAT = { name: 'VAT', category: 'S', ratePpm: 200_000 };
let dataDir: string;

beforeAll(() => {
  dataDir = freshDataDir();
});
afterAll(() => {
  rmSync(dataDir, { recursive: true, force: true });
});

function valueIn<T>(reply: Reply): T {
  if (!reply.ok) throw new Error(JSON.stringify(reply.error));
  return reply.value as T;
}

/** Drafts and issues a document; its number. */
async function issueOne(door: Door, customerId: string): Promise<number> {
  const lines = [{ text: 'wax', priceMinor: 1200 }];
  const draft = await door('billing.draftOther', { customerId, lines });
  const { invoiceId } = valueIn<{ invoiceId: string }>(draft);
  return valueIn<{ number: number }>(
    await door('billing.issueInvoice', { invoiceId, revision: 1, aheadOfWork: true }),
  ).number;
}

async function issueMany(door: Door, customerId: string, given: number[]): Promise<void> {
  for (let i = 0; i < EACH; i += 1) given.push(await issueOne(door, customerId));
}

async function issueUntilGone(door: Door, customerId: string, given: number[]): Promise<void> {
  for (;;) {
    const number = await issueOne(door, customerId).catch(nullWhenGone);
    if (number === null) return;
    given.push(number);
  }
}

/** Numbers in the file, smallest first. */
function numbersInFile(): number[] {
  const db = new Database(path.join(dataDir, 'rakelight.sqlite'), { readonly: true });
  const found = db
    .prepare('SELECT number FROM invoice WHERE number IS NOT NULL ORDER BY number')
    .pluck()
    .all();
  db.close();
  return found as number[];
}

const upTo = (n: number): number[] => Array.from({ length: n }, (_, i) => i + 1);

describe('numbers of issued documents', () => {
  const given: number[] = [];
  let customerId = '';

  it('have no gap and come once when two windows issue at the same time', async () => {
    const host = await startBrowserHost(dataDir);
    const window = await windowOf(host);
    const owner = doorAt(host, window, OWNER);
    const setUp = {
      ...SHOP,
      owner: { ...SHOP.owner, token: OWNER },
      people: [{ name: 'Dev', role: 'desk' }],
      taxes: [VAT],
    };
    valueIn(await owner('shop.setUp', setUp));
    const here = valueIn<{ people: { id: string; name: string }[] }>(await owner('access.here', {}));
    const personId = here.people.find((p) => p.name === 'Dev')?.id;
    valueIn(await doorAt(host, window, DESK)('access.signIn', { personId, token: DESK }));
    customerId = valueIn<{ id: string }>(await owner('people.addCustomer', { name: 'Marit Vane' })).id;
    const desk = doorAt(host, window, DESK);
    const [a, b]: [number[], number[]] = [[], []];
    await Promise.all([issueMany(owner, customerId, a), issueMany(desk, customerId, b)]);
    await host.stop();
    given.push(...a, ...b);
    expect([...given].sort((x, y) => x - y)).toEqual(upTo(2 * EACH));
    expect(numbersInFile()).toEqual(upTo(2 * EACH));
    // The two really ran beside each other: neither had its numbers in one piece.
    expect((a.at(-1) ?? 0) - (a[0] ?? 0)).toBeGreaterThan(EACH);
  });

  it(`nor when the program is killed ${KILLS} times while both issue`, async () => {
    const random = seeded(6);
    for (let round = 0; round < KILLS; round += 1) {
      const host = await startBrowserHost(dataDir);
      const window = await windowOf(host);
      const doors = [doorAt(host, window, OWNER), doorAt(host, window, DESK)];
      const working = doors.map((door) => issueUntilGone(door, customerId, given));
      await new Promise((done) => setTimeout(done, 40 + Math.floor(random() * 200)));
      host.child.kill('SIGKILL');
      await Promise.all(working);
      await host.exited();
    }
    const inFile = numbersInFile();
    expect(inFile).toEqual(upTo(inFile.length));
    expect(new Set(given).size).toBe(given.length);
    expect(given.filter((n) => n > inFile.length)).toEqual([]);
    expect(given.length).toBeGreaterThan(2 * EACH);
    const host = await startBrowserHost(dataDir);
    expect(await issueOne(await doorOf(host, OWNER), customerId)).toBe(inFile.length + 1);
    await host.stop();
    const doctor = startProgram('doctor', ['--data', dataDir]);
    expect([await doctor.exited(), doctor.output()]).toEqual([0, expect.stringContaining('sound')]);
  });
});
