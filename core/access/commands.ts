import type { WriteCtx } from '../context.ts';
import { cleanName } from '../people/rules/names.ts';
import { refuse } from '../shared/errors.ts';
import type { PersonId } from '../shared/ids.ts';
import type { Role } from '../shared/roles.ts';
import { localDayOf } from '../shared/time.ts';
import type { LocalDay } from '../shared/units.ts';
import type { PlacedStage } from '../shared/views/people.ts';
import { stagesAfter } from '../views/futureStages.ts';
import { shopOf } from '../views/shop.ts';
import { hashPin } from './pin.ts';
import { checkName, checkNotEnded, checkOwnerStays } from './rules/people.ts';
import { checkPinShape } from './rules/tries.ts';
import * as store from './store.ts';

export type NewPerson = {
  readonly name: string;
  readonly role: Role;
  readonly startedDay?: LocalDay | undefined;
  readonly pin?: string | undefined;
};

/** Adds somebody to the shop, from today on when no day is said. @throws NAME_MISSING, PERSON_NAME_TAKEN, PIN_SHAPE */
export function addPerson(ctx: WriteCtx, input: NewPerson): { readonly id: PersonId } {
  const today = todayOf(ctx);
  const name = cleanName(input.name, 'person');
  checkName(name, null, store.allPeople(ctx.db), today);
  const id = ctx.newId<PersonId>();
  const pinHash = input.pin === undefined ? null : newPinHash(ctx, input.pin);
  store.insertPerson(ctx.db, { id, name, role: input.role, pinHash, startedDay: input.startedDay ?? today });
  ctx.changed(id, 'name', 'role', 'startedDay');
  return { id };
}

/** Changes somebody's name or role. @throws STALE, PERSON_ENDED, PERSON_NAME_TAKEN, LAST_OWNER */
export function changePerson(
  ctx: WriteCtx,
  input: {
    readonly personId: PersonId;
    readonly revision: number;
    readonly name?: string | undefined;
    readonly role?: Role | undefined;
  },
): null {
  const today = todayOf(ctx);
  const person = personOf(ctx, input.personId);
  checkNotEnded(person, today);
  const members = store.allPeople(ctx.db);
  const name = input.name === undefined ? person.name : cleanName(input.name, 'person');
  checkName(name, person.id, members, today);
  const role = input.role ?? person.role;
  if (role !== 'owner') checkOwnerStays(person, members);
  if (!store.updatePerson(ctx.db, person.id, input.revision, { name, role }))
    refuse('STALE', { what: 'person' });
  ctx.changed(
    person.id,
    ...(name === person.name ? [] : ['name']),
    ...(role === person.role ? [] : ['role']),
  );
  return null;
}

/**
 * Says somebody's last day. What they did stays; what is still placed with them after it is answered, to be moved.
 * @throws STALE, PERSON_ENDED, LAST_OWNER, ENDS_BEFORE_START
 */
export function endPerson(
  ctx: WriteCtx,
  input: { readonly personId: PersonId; readonly revision: number; readonly lastDay: LocalDay },
): { readonly futureStages: readonly PlacedStage[] } {
  const person = personOf(ctx, input.personId);
  checkNotEnded(person, todayOf(ctx));
  checkOwnerStays(person, store.allPeople(ctx.db));
  if (input.lastDay < person.startedDay)
    refuse('ENDS_BEFORE_START', { name: person.name, started: person.startedDay });
  if (!store.updatePerson(ctx.db, person.id, input.revision, { endedDay: input.lastDay }))
    refuse('STALE', { what: 'person' });
  ctx.changed(person.id, 'endedDay');
  return { futureStages: stagesAfter(ctx.db, person.id, input.lastDay, shopOf(ctx.db).zone) };
}

/** What is stored of a new PIN. @throws PIN_SHAPE */
export function newPinHash(ctx: WriteCtx, pin: string): string {
  checkPinShape(pin);
  return hashPin(pin, ctx.newId());
}

/** @throws NOT_FOUND */
export function personOf(ctx: WriteCtx, id: PersonId): store.PersonRow {
  return store.personRow(ctx.db, id) ?? refuse('NOT_FOUND', { what: 'person', id });
}

function todayOf(ctx: WriteCtx): LocalDay {
  return localDayOf(ctx.now, shopOf(ctx.db).zone);
}
