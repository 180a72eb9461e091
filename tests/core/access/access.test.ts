import { afterEach, beforeEach, expect, test } from 'vitest';
import { hashPin, pinFits } from '#core/access/pin.ts';
import { waitAfter } from '#core/access/rules/tries.ts';
import { actorOf } from '#core/access/session.ts';
import { tokenHash } from '#core/access/token.ts';
import type { EpochMs, LocalDay } from '#core/shared/units.ts';
import { openTestShop, TEST_NOW, type TestShop } from '#tests/helpers/shop.ts';

let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
});
afterEach(() => shop.close());

const token = 'a1'.repeat(32);
const day = (text: string): LocalDay => text as LocalDay;
const now = (ms = 0): EpochMs => (TEST_NOW + ms) as EpochMs;

test('without a PIN picking the name is enough, and only the hash of the token is stored', () => {
  const done = shop.write('access.signIn', { personId: shop.people.desk, token });
  expect(done).toMatchObject({ signedIn: true, me: { name: 'The desk', role: 'desk' } });
  expect(actorOf(shop.db, token, now())).toMatchObject({ role: 'desk' });
  expect(shop.db.raw.prepare('SELECT token_hash FROM session').pluck().all()).toEqual([tokenHash(token)]);
  expect(actorOf(shop.db, 'b2'.repeat(32), now())).toBeNull();
  expect(actorOf(shop.db, undefined, now())).toBeNull();
});

test('a wait for the next PIN ends with a clock that is set back by days, at the sign-in and in the list of who is here', async () => {
  shop.write('access.setPin', { personId: shop.people.owner, pin: '2468' });
  for (let i = 0; i < 3; i += 1)
    shop.write('access.signIn', { personId: shop.people.owner, pin: '1111', token });
  const owner = async () => (await shop.read('access.here', {})).people.find((p) => p.role === 'owner');
  expect((await owner())?.waitSec).toBe(30);
  shop.at(TEST_NOW - 86_400_000);
  expect((await owner())?.waitSec).toBe(0);
  expect(shop.write('access.signIn', { personId: shop.people.owner, pin: '2468', token })).toMatchObject({
    signedIn: true,
  });
});

test('SHA-256 of the token is the published one', () => {
  /* FIPS 180-2 appendix B.1: SHA-256("abc"). */
  expect(tokenHash('abc')).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad');
});

test('signing out ends the session, and so do the shop’s hours and a token cannot be used twice', () => {
  shop.write('access.signIn', { personId: shop.people.desk, token });
  expect(actorOf(shop.db, token, now(12 * 3_600_000 - 1))).not.toBeNull();
  expect(actorOf(shop.db, token, now(12 * 3_600_000))).toBeNull();
  shop.write('access.signOut', { token });
  expect(actorOf(shop.db, token, now())).toBeNull();
  expect(() => shop.write('access.signIn', { personId: shop.people.owner, token })).toThrow('BAD_INPUT');
});

test('wrong PINs are counted, then the next try waits, twice as long each time', () => {
  shop.write('access.setPin', { personId: shop.people.desk, pin: '4711' });
  const tryPin = (pin: string) => shop.write('access.signIn', { personId: shop.people.desk, pin, token });
  expect(tryPin('')).toEqual({ signedIn: false, triesLeft: 3, waitSec: 0 });
  expect(tryPin('0000')).toEqual({ signedIn: false, triesLeft: 2, waitSec: 0 });
  expect(tryPin('0001')).toEqual({ signedIn: false, triesLeft: 1, waitSec: 0 });
  expect(tryPin('0002')).toEqual({ signedIn: false, triesLeft: 0, waitSec: 30 });
  expect(tryPin('4711')).toEqual({ signedIn: false, triesLeft: 0, waitSec: 30 });
  shop.at(TEST_NOW + 30_000);
  expect(tryPin('0003')).toEqual({ signedIn: false, triesLeft: 0, waitSec: 60 });
  shop.at(TEST_NOW + 90_000);
  expect(tryPin('4711')).toMatchObject({ signedIn: true });
});

test('waits double and stop at an hour', () => {
  const rules = { pinTries: 3, pinWaitSec: 30 };
  expect([2, 3, 4, 9, 10, 500].map((wrong) => waitAfter(wrong, rules))).toEqual([
    0, 30, 60, 1920, 3600, 3600,
  ]);
});

test('a PIN is kept as a salted hash that only the PIN fits', () => {
  const stored = hashPin('4711', 'some salt');
  expect(stored).toMatch(/^scrypt\$15\$8\$some salt\$[0-9a-f]{64}$/);
  expect(stored).not.toContain('4711');
  expect([pinFits('4711', stored), pinFits('4712', stored)]).toEqual([true, false]);
  expect(hashPin('4711', 'other salt')).not.toBe(stored);
});

test('people change their own PIN with the present one, an owner anybody’s, a technician nobody else’s', () => {
  const { technician, desk } = shop.people;
  shop.write('access.setPin', { personId: desk, pin: '4711' });
  shop.as('desk');
  expect(shop.write('access.setPin', { personId: desk, pin: '9999', presentPin: '1' })).toMatchObject({
    set: false,
  });
  expect(shop.write('access.setPin', { personId: desk, pin: '9999', presentPin: '4711' })).toEqual({
    set: true,
  });
  shop.as('technician');
  expect(() => shop.write('access.setPin', { personId: desk, pin: null })).toThrow('NOT_ALLOWED');
  expect(() => shop.write('access.setPin', { personId: technician, pin: '12a4' })).toThrow('PIN_SHAPE');
});

test('a changed PIN signs the person out everywhere but at the window it was changed at', () => {
  const { desk, technician } = shop.people;
  const [here, there, other] = ['a1', 'b2', 'c3'].map((pair) => pair.repeat(32)) as [string, string, string];
  shop.write('access.signIn', { personId: desk, token: here });
  shop.write('access.signIn', { personId: desk, token: there });
  shop.write('access.signIn', { personId: technician, token: other });
  const whoHolds = (...tokens: readonly string[]): unknown =>
    tokens.map((t) => actorOf(shop.db, t, now())?.role);
  shop.as('desk');
  shop.write('access.setPin', { personId: desk, pin: '4711', token: here });
  expect(whoHolds(here, there, other)).toEqual(['desk', undefined, 'technician']);
  expect(shop.write('access.setPin', { personId: desk, pin: '0815', presentPin: '1' })).toMatchObject({
    set: false,
  });
  expect(whoHolds(here)).toEqual(['desk']);
  shop.as('owner');
  shop.write('access.setPin', { personId: desk, pin: null });
  expect(whoHolds(here, there, other)).toEqual([undefined, undefined, 'technician']);
});

test('somebody else’s window named as one’s own keeps nobody signed in but its own person', () => {
  const { desk, technician } = shop.people;
  shop.write('access.signIn', { personId: technician, token });
  shop.write('access.signIn', { personId: desk, token: 'b2'.repeat(32) });
  shop.write('access.setPin', { personId: desk, pin: '4711', token });
  expect(actorOf(shop.db, 'b2'.repeat(32), now())).toBeNull();
  expect(actorOf(shop.db, token, now())).toMatchObject({ role: 'technician' });
});

test('somebody whose last day is over is signed out at the shop’s midnight and can’t come back in', async () => {
  shop.write('access.signIn', { personId: shop.people.technician, token });
  shop.write('access.endPerson', {
    personId: shop.people.technician,
    revision: 1,
    lastDay: day('2026-11-25'),
  });
  /* Berlin is one hour ahead of UTC: midnight is 23:00Z, 14 h after the test's 09:00Z. The session itself lasts 12 h. */
  shop.db.raw.prepare('UPDATE session SET started_ms = started_ms + 43200000').run();
  expect(actorOf(shop.db, token, now(14 * 3_600_000 - 1))).not.toBeNull();
  expect(actorOf(shop.db, token, now(14 * 3_600_000))).toBeNull();
  shop.at(TEST_NOW + 14 * 3_600_000);
  expect(() =>
    shop.write('access.signIn', { personId: shop.people.technician, token: 'c3'.repeat(32) }),
  ).toThrow('PERSON_ENDED');
  const here = await shop.read('access.here', {});
  expect(here.people.map((p) => p.name)).toEqual(['The desk', 'The owner']);
  expect(await shop.read('access.people', {})).toHaveLength(3);
});

test('the last owner can neither leave nor become something else; with a second one both work', () => {
  const { owner } = shop.people;
  const leave = { personId: owner, revision: 1, lastDay: day('2026-12-31') };
  expect(() => shop.write('access.endPerson', leave)).toThrow('LAST_OWNER');
  expect(() => shop.write('access.changePerson', { personId: owner, revision: 1, role: 'desk' })).toThrow(
    'LAST_OWNER',
  );
  shop.write('access.addPerson', { name: 'Ines', role: 'owner' });
  shop.write('access.endPerson', leave);
});

test('two people who are here can’t have one name; a leaver’s name is free again', () => {
  const { id } = shop.write('access.addPerson', {
    name: 'Wren',
    role: 'technician',
    startedDay: day('2026-01-01'),
  });
  expect(() => shop.write('access.addPerson', { name: ' wren ', role: 'desk' })).toThrow('PERSON_NAME_TAKEN');
  expect(() =>
    shop.write('access.endPerson', { personId: id, revision: 1, lastDay: day('2025-12-31') }),
  ).toThrow('ENDS_BEFORE_START');
  shop.write('access.endPerson', { personId: id, revision: 1, lastDay: day('2026-11-24') });
  expect(() => shop.write('access.addPerson', { name: 'Wren', role: 'desk' })).not.toThrow();
  expect(() => shop.write('access.changePerson', { personId: id, revision: 2, name: 'Wrenna' })).toThrow(
    'PERSON_ENDED',
  );
});

test('only an owner adds people', () => {
  shop.as('desk');
  expect(() => shop.write('access.addPerson', { name: 'Ines', role: 'desk' })).toThrow('NOT_ALLOWED');
});

test('nobody is signed in before their first day', async () => {
  const added = { name: 'Edda Holm', role: 'desk', startedDay: '2026-11-26' } as const;
  const { id } = shop.write('access.addPerson', added);
  const signIn = (at: string): unknown =>
    shop.call('access.signIn', { personId: id, token: token.slice(0, -1) + at });
  expect(await signIn('1')).toMatchObject({ error: { code: 'PERSON_NOT_BEGUN' } });
  shop.at(TEST_NOW + 86_400_000);
  expect(await signIn('2')).toMatchObject({ ok: true, value: { signedIn: true } });
});
