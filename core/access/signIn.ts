import type { WriteCtx } from '../context.ts';
import { refuse } from '../shared/errors.ts';
import type { PersonId } from '../shared/ids.ts';
import { localDayOf } from '../shared/time.ts';
import { type EpochMs, MS_PER_MIN } from '../shared/units.ts';
import type { Me, PinResult, SignInResult } from '../shared/views/people.ts';
import { shopOf } from '../views/shop.ts';
import { newPinHash, personOf } from './commands.ts';
import { pinFits } from './pin.ts';
import { checkBegun, checkNotEnded } from './rules/people.ts';
import { secondsLeft, waitAfter } from './rules/tries.ts';
import * as store from './store.ts';
import { tokenHash } from './token.ts';

/**
 * Signs a person in at the window that made the token. Without a PIN set, picking the name is enough.
 * @throws NOT_FOUND, PERSON_NOT_BEGUN, PERSON_ENDED; BAD_INPUT when the token was used before
 */
export function signIn(
  ctx: WriteCtx,
  input: { readonly personId: PersonId; readonly pin?: string | undefined; readonly token: string },
): SignInResult {
  const shop = shopOf(ctx.db);
  const person = personOf(ctx, input.personId);
  const today = localDayOf(ctx.now, shop.zone);
  checkBegun(person, today);
  checkNotEnded(person, today);
  const rules = shop.settings.access;
  if (person.pinHash !== null) {
    const waitSec = secondsLeft(person.pinWaitMs, ctx.now);
    if (waitSec > 0) return { signedIn: false, triesLeft: 0, waitSec };
    if (input.pin === undefined || input.pin === '')
      return { signedIn: false, triesLeft: Math.max(1, rules.pinTries - person.pinTries), waitSec: 0 };
    if (!pinFits(input.pin, person.pinHash)) return countWrong(ctx, person, rules);
    store.updatePinTries(ctx.db, person.id, 0, 0 as EpochMs);
  }
  const me = openSession(ctx, person, input.token);
  return { signedIn: true, me, untilMs: (ctx.now + rules.sessionMin * MS_PER_MIN) as EpochMs };
}

function countWrong(
  ctx: WriteCtx,
  person: store.PersonRow,
  rules: { readonly pinTries: number; readonly pinWaitSec: number },
): { readonly signedIn: false; readonly triesLeft: number; readonly waitSec: number } {
  const wrong = person.pinTries + 1;
  const waitSec = waitAfter(wrong, rules);
  store.updatePinTries(ctx.db, person.id, wrong, (ctx.now + waitSec * 1000) as EpochMs);
  ctx.changed(person.id, 'pinTries');
  return { signedIn: false, triesLeft: Math.max(0, rules.pinTries - wrong), waitSec };
}

/** Starts a session for somebody whose right to it was checked. @throws BAD_INPUT when the token was used before */
export function openSession(
  ctx: WriteCtx,
  person: Omit<Me, 'personId'> & { readonly id: PersonId },
  token: string,
): Me {
  const hash = tokenHash(token);
  if (store.hasSession(ctx.db, hash)) refuse('BAD_INPUT', { field: 'token', problem: 'usedBefore' });
  store.insertSession(ctx.db, { tokenHash: hash, personId: person.id, startedMs: ctx.now });
  ctx.changed(person.id, 'session');
  return { personId: person.id, name: person.name, role: person.role };
}

/** Ends a window's session; one that has ended stays ended. */
export function signOut(ctx: WriteCtx, input: { readonly token: string }): null {
  store.endSession(ctx.db, tokenHash(input.token), ctx.now);
  if (ctx.actor) ctx.changed(ctx.actor.personId, 'session');
  return null;
}

export type PinChange = {
  readonly personId: PersonId;
  readonly pin: string | null;
  readonly presentPin?: string | undefined;
  /** The window that this is done at; it stays signed in. */
  readonly token?: string | undefined;
};

/**
 * Sets or removes a PIN. People change their own with the present one; an owner changes anybody's without it.
 * A wrong present PIN is counted, so it is an answer and not a refusal that undoes itself. Wherever else the person is
 * signed in, they have to sign in again.
 * @throws PIN_SHAPE, NOT_ALLOWED
 */
export function setPin(ctx: WriteCtx, input: PinChange): PinResult {
  const person = personOf(ctx, input.personId);
  const own = ctx.actor?.personId === person.id;
  const byOwner = ctx.actor?.role === 'owner';
  if (!own && !byOwner) refuse('NOT_ALLOWED', { needs: 'owner', has: ctx.actor?.role ?? 'nobody' });
  const denied = byOwner ? null : presentPinDenied(ctx, person, input.presentPin ?? '');
  if (denied) return denied;
  const pinHash = input.pin === null ? null : newPinHash(ctx, input.pin);
  store.updatePerson(ctx.db, person.id, person.revision, { pinHash, pinTries: 0, pinWaitMs: 0 as EpochMs });
  const here = input.token === undefined ? null : tokenHash(input.token);
  store.endSessionsOf(ctx.db, person.id, here, ctx.now);
  ctx.changed(person.id, 'pin', 'session');
  return { set: true };
}

/** Why somebody's present PIN does not let them change it; null when it does, or when they have none. */
function presentPinDenied(ctx: WriteCtx, person: store.PersonRow, presentPin: string): PinResult | null {
  if (person.pinHash === null) return null;
  const waitSec = secondsLeft(person.pinWaitMs, ctx.now);
  if (waitSec > 0) return { set: false, triesLeft: 0, waitSec };
  if (pinFits(presentPin, person.pinHash)) return null;
  const { triesLeft, waitSec: wait } = countWrong(ctx, person, shopOf(ctx.db).settings.access);
  return { set: false, triesLeft, waitSec: wait };
}
