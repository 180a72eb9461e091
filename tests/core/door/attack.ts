import fc from 'fast-check';
import { expect } from 'vitest';
import { catalogue, type EntryName } from '#core/shared/catalogue.ts';
import type { Entry } from '#core/shared/entry.ts';
import type { Reply } from '#core/shared/reply.ts';
import { ROLES, type Role } from '#core/shared/roles.ts';
import { sayError } from '#core/shared/text/sayError.ts';
import type { BusyShop } from './busyShop.ts';
import { conforming } from './conforming.ts';
import { spoiled } from './garbage.ts';
import { poolOf } from './pool.ts';

/** Everything that the core carries out; the host's own actions have no handler here. */
export const ENTRIES = (Object.entries(catalogue) as readonly (readonly [EntryName, Entry])[]).filter(
  ([, entry]) => entry.kind !== 'host',
);
export const ALL_ENTRIES = Object.entries(catalogue) as readonly (readonly [EntryName, Entry])[];

/** What an entry needs in a shop that is set up. */
export function neededBy(entry: Entry): Role | 'anyone' {
  return entry.needs === 'ownerOnceSetUp' ? 'owner' : entry.needs;
}

/** The least role that may use an entry; the owner for what anybody may. */
export function leastRole(entry: Entry): Role {
  const needs = neededBy(entry);
  return needs === 'anyone' ? 'owner' : needs;
}

/** Roles, and nobody, that may not use an entry. */
export function tooLow(entry: Entry): readonly (Role | null)[] {
  const needs = neededBy(entry);
  return needs === 'anyone' ? [] : [null, ...ROLES.slice(0, ROLES.indexOf(needs))];
}

/** Sends an entry well-formed and spoiled input; what it says and what it does must hold each time. */
export async function attack(
  shop: BusyShop,
  name: EntryName,
  options: { readonly runs: number; readonly seed?: number },
): Promise<void> {
  const entry: Entry = catalogue[name];
  const good = conforming(entry.input, poolOf(shop));
  const seed = options.seed === undefined ? {} : { seed: options.seed };
  shop.as(leastRole(entry));
  await fc.assert(
    fc.asyncProperty(fc.oneof(good, spoiled(good)), (input) => holds(shop, name, input)),
    { numRuns: options.runs, interruptAfterTimeLimit: 60_000, markInterruptAsFailure: true, ...seed },
  );
}

async function holds(shop: BusyShop, name: EntryName, input: unknown): Promise<void> {
  const entry: Entry = catalogue[name];
  shop.log.length = 0;
  const { reply, changed } = await shop.tried(name, input);
  if (reply.ok) {
    expect(entry.input.safeParse(input).success).toBe(true);
    if (entry.kind !== 'write') expect(changed).toBe(false);
    return;
  }
  expect(changed).toBe(false);
  expect([reply.error.code, ...shop.log]).not.toContain('INTERNAL');
  expect(shop.log).toEqual([]);
  if (!entry.input.safeParse(input).success) expect(reply.error.code).toBe('BAD_INPUT');
  namesTheField(reply, input);
  readsAsSentence(sayError('en', reply.error));
}

/** The field named is one that was sent, or one that the record it would stand in lacks. */
function namesTheField(reply: Reply, input: unknown): void {
  if (reply.ok || reply.error.code !== 'BAD_INPUT') return;
  const { field, problem } = reply.error.data;
  expect(field).not.toBe('');
  expect(problem).not.toBe('');
  if (field === 'input') return;
  const owners = field.split('.').slice(0, -1);
  let at: unknown = input;
  for (const key of owners) {
    expect(at).toBeTypeOf('object');
    at = (at as Readonly<Record<string, unknown>>)[key];
  }
  expect(at).toBeTypeOf('object');
}

/** Begins like one, ends like one, and nothing that was to be filled in is left open. */
export function readsAsSentence(text: string): void {
  expect(text).toMatch(/^\S.*\S$/s);
  expect(text).toMatch(/[.!?]$/);
  expect(text).toContain(' ');
  expect(text).not.toMatch(/undefined|\[object|NaN(?!’)|error\.[A-Z]/);
}
