import { randomUUID } from 'node:crypto';
import { rmSync } from 'node:fs';
import path from 'node:path';
import Database from 'better-sqlite3';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { seeded } from '#core/shared/random.ts';
import { freshDataDir } from '../bridge/desktopApp.ts';
import { startBrowserHost, startProgram } from '../bridge/hostProcess.ts';
import { SHOP } from '../bridge/sampleShop.ts';
import { type Door, doorOf, nullWhenGone } from './windows.ts';

const ROUNDS = 20;
const AT_ONCE = 4;

type Sent = { readonly commandId: string; readonly name: string };

let dataDir: string;
const acknowledged: Sent[] = [];
const unanswered: Sent[] = [];

beforeAll(() => {
  dataDir = freshDataDir();
});
afterAll(() => {
  rmSync(dataDir, { recursive: true, force: true });
});

/** Adds customers one after the other until the host is gone. */
async function addUntilGone(door: Door, label: string): Promise<void> {
  for (let i = 0; ; i += 1) {
    const sent = { commandId: randomUUID(), name: `Kunde ${label} ${i}` };
    unanswered.push(sent);
    const reply = await door('people.addCustomer', { name: sent.name }, sent.commandId).catch(nullWhenGone);
    if (reply === null) return;
    if (!reply.ok) throw new Error(JSON.stringify(reply.error));
    unanswered.splice(unanswered.indexOf(sent), 1);
    acknowledged.push(sent);
  }
}

function rows<T>(sql: string): T[] {
  const db = new Database(path.join(dataDir, 'rakelight.sqlite'), { readonly: true });
  const found = db.prepare(sql).all() as T[];
  db.close();
  return found;
}

describe(`a process killed ${ROUNDS} times while it writes`, () => {
  it('has kept all that it acknowledged, once, and nothing half done', async () => {
    const session = 'a'.repeat(64);
    const random = seeded(20);
    const first = await startBrowserHost(dataDir);
    const owner = { ...SHOP, owner: { ...SHOP.owner, token: session } };
    expect(await (await doorOf(first, session))('shop.setUp', owner)).toMatchObject({ ok: true });
    await first.stop();
    for (let round = 0; round < ROUNDS; round += 1) {
      const host = await startBrowserHost(dataDir);
      const door = await doorOf(host, session);
      const writers = Array.from({ length: AT_ONCE }, (_, n) => addUntilGone(door, `${round}.${n}`));
      await new Promise((done) => setTimeout(done, 20 + Math.floor(random() * 180)));
      host.child.kill('SIGKILL');
      await Promise.all(writers);
      await host.exited();
    }
    expect(acknowledged.length).toBeGreaterThan(ROUNDS);
    expect(unanswered.length).toBeGreaterThanOrEqual(ROUNDS);
    await sendAgain(session);
    compareWithFile();
  });

  it('leaves a file that the examination finds sound', async () => {
    const doctor = startProgram('doctor', ['--data', dataDir]);
    expect([await doctor.exited(), doctor.output()]).toEqual([0, expect.stringContaining('sound')]);
  });
});

/** Half of what was never answered is sent again under its own id: it must then be there once, never twice. */
async function sendAgain(session: string): Promise<void> {
  const host = await startBrowserHost(dataDir);
  const door = await doorOf(host, session);
  const again = unanswered.splice(0, Math.ceil(unanswered.length / 2));
  for (const { name, commandId } of again) {
    expect(await door('people.addCustomer', { name }, commandId)).toMatchObject({ ok: true });
    acknowledged.push({ name, commandId });
  }
  await host.stop();
}

/** A customer stands with its line in the journal and its kept reply, or with neither. */
function compareWithFile(): void {
  const customers = rows<{ id: string; name: string }>(
    "SELECT id, name FROM customer WHERE name LIKE 'Kunde %'",
  );
  const names = customers.map((customer) => customer.name);
  expect(new Set(names).size).toBe(names.length);
  const missing = acknowledged.filter(({ name }) => !names.includes(name));
  expect(missing).toEqual([]);
  const sent = new Set([...acknowledged, ...unanswered].map(({ name }) => name));
  expect(names.filter((name) => !sent.has(name))).toEqual([]);
  const journal = rows<{ subjects: string }>(
    "SELECT subjects FROM journal WHERE command = 'people.addCustomer'",
  );
  const told = journal.flatMap(({ subjects }) => JSON.parse(subjects) as string[]);
  expect([...told].sort()).toEqual(customers.map(({ id }) => id).sort());
  const kept = rows<{ id: string }>(
    "SELECT command_id AS id FROM answered WHERE name = 'people.addCustomer'",
  );
  expect(kept).toHaveLength(customers.length);
}
