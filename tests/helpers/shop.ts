import { mkdtempSync, rmSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import type { Actor, TaskCtx } from '#core/context.ts';
import { contract } from '#core/contract.ts';
import { migrate } from '#core/db/migrate.ts';
import { readMigrations } from '#core/db/migrationFiles.ts';
import { openForWriting } from '#core/db/open.ts';
import type { WriteDb } from '#core/db/types.ts';
import { type Door, dispatch, dispatchWrite } from '#core/dispatch.ts';
import { planChecks } from '#core/doctor/planChecks.ts';
import { catalogue, type EntryName, type OutputFor, type SentFor } from '#core/shared/catalogue.ts';
import { DomainError } from '#core/shared/errors.ts';
import { makeId, type PersonId } from '#core/shared/ids.ts';
import { seeded } from '#core/shared/random.ts';
import type { Reply } from '#core/shared/reply.ts';
import type { Role } from '#core/shared/roles.ts';
import type { EpochMs } from '#core/shared/units.ts';

/** Wednesday 25 November 2026, 10:00 in the test shop's zone (Europe/Berlin). */
export const TEST_NOW = Date.parse('2026-11-25T09:00:00Z') as EpochMs;
const root = path.resolve(import.meta.dirname, '../..');

export type TestShop = {
  readonly db: WriteDb;
  readonly dir: string;
  /** Ids of the three people who are there from the start. */
  readonly people: Readonly<Record<Role, PersonId>>;
  /** Runs a write and returns its value; a refusal is thrown as the DomainError it was. */
  write<N extends EntryName>(name: N, input: SentFor<N>): OutputFor<N>;
  read<N extends EntryName>(name: N, input: SentFor<N>): Promise<OutputFor<N>>;
  /** The raw reply, for tests of refusals. */
  call(name: string, input: unknown): Promise<Reply>;
  /** Acts as another person from now on; null = nobody. */
  as(role: Role | null): void;
  at(ms: number): void;
  now(): EpochMs;
  readonly log: string[];
  /** For a test that breaks the plan itself, past the door. */
  breaksPlans(): void;
  /** Every test ends with it: whatever it did, its plan breaks no rule. @throws Error that names what is broken */
  close(): void;
};

type Options = {
  readonly zone?: string;
  readonly currency?: string;
  readonly empty?: boolean;
  readonly nowMs?: number;
};

/** A real shop file in a temporary folder, with a fixed clock and seeded ids, behind the real door. */
export function openTestShop(options: Options = {}): TestShop {
  const dir = mkdtempSync(path.join(os.tmpdir(), 'rakelight-test-'));
  const db = openForWriting(path.join(dir, 'rakelight.sqlite'));
  const random = seeded(20261125);
  let now = options.nowMs ?? TEST_NOW;
  let keepsPlans = true;
  migrate(db, readMigrations(path.join(root, 'migrations')), now);
  const newId = (): string => makeId(now, () => Math.floor(random() * 32));
  const people = options.empty ? noPeople() : addShop(db, newId, options);
  let actor: Actor | null = options.empty ? null : actorFor('owner', people);
  const log: string[] = [];
  const door: Door = {
    db,
    catalogue,
    handlers: contract,
    now: () => now as EpochMs,
    newId,
    actorOf: () => actor,
    log: (line) => log.push(line),
    compute: async (name, model, task) =>
      (
        contract[name as keyof typeof contract] as unknown as {
          run: (model: unknown, task: TaskCtx) => unknown;
        }
      ).run(model, task),
  };
  const value = <T>(reply: Reply): T => {
    if (!reply.ok) throw new DomainError(reply.error.code, reply.error.data);
    return reply.value as T;
  };
  const call = (name: string, input: unknown): Promise<Reply> => dispatch(door, { name, input }, quietTask);
  return {
    db,
    dir,
    people,
    log,
    write: (name, input) => value(dispatchWrite(door, { name, input })),
    read: async (name, input) => value(await call(name, input)),
    call,
    as: (role) => {
      actor = role === null ? null : actorFor(role, people);
    },
    at: (ms) => {
      now = ms as EpochMs;
    },
    now: () => now as EpochMs,
    breaksPlans: () => {
      keepsPlans = false;
    },
    close: () => {
      const broken = keepsPlans && db.raw.open ? planChecks.flatMap((check) => check.run(db)) : [];
      db.raw.close();
      rmSync(dir, { recursive: true, force: true });
      if (broken.length > 0) throw new Error(`the plan was left broken: ${JSON.stringify(broken)}`);
    },
  };
}

const quietTask: TaskCtx = { progress: () => {}, cancelled: () => false };

function actorFor(role: Role, people: TestShop['people']): Actor {
  return { personId: people[role], name: `The ${role}`, role };
}

function noPeople(): TestShop['people'] {
  return { technician: '' as PersonId, desk: '' as PersonId, owner: '' as PersonId };
}

function addShop(db: WriteDb, newId: () => string, options: Options): TestShop['people'] {
  db.raw
    .prepare(
      `INSERT INTO shop (id, name, address, phone, email, tax_number, country, zone, currency, locale, film_unit, volume_unit, length_unit, paper, settings, is_demo, demo_day)
       VALUES (1, 'Test Paintwork', '1 Test Lane', '', '', 'DE000000000', 'DE', ?, ?, 'en', 'um', 'ml', 'm', 'A4', '{}', 0, NULL)`,
    )
    .run(options.zone ?? 'Europe/Berlin', options.currency ?? 'EUR');
  db.raw
    .prepare(
      `INSERT INTO rate (id, applies, subject, from_day, hour_minor, added_ms) VALUES (?, 'all', '', '2024-01-01', 8500, 0)`,
    )
    .run(newId());
  db.raw
    .prepare(
      `INSERT INTO tax_rate (id, code, name, category, rate_ppm, reason, from_day, added_ms)
       VALUES (?, 'standard', 'VAT', 'S', 190000, '', '2024-01-01', 0)`,
    )
    .run(newId());
  const add = (role: Role): PersonId => {
    const id = newId() as PersonId;
    db.raw
      .prepare('INSERT INTO person (id, name, role, started_day) VALUES (?, ?, ?, ?)')
      .run(id, `The ${role}`, role, '2024-01-01');
    return id;
  };
  return { technician: add('technician'), desk: add('desk'), owner: add('owner') };
}
