import type { z } from 'zod';
import { addPerson, personOf } from '../access/commands.ts';
import { openSession } from '../access/signIn.ts';
import { addBay, setOpeningHours, setTechnician } from '../bays/commands/setup.ts';
import type { WriteCtx } from '../context.ts';
import { cleanName } from '../people/rules/names.ts';
import type { setUpInput } from '../shared/catalogue/shopInputs.ts';
import { refuse } from '../shared/errors.ts';
import type { PersonId } from '../shared/ids.ts';
import { localDayOf } from '../shared/time.ts';
import { addRate, addTax, createShop } from '../shop/commands.ts';
import { shopOf } from '../views/shop.ts';

type Input = z.output<typeof setUpInput>;

/**
 * Sets up the shop in one go: itself, its first owner (signed in with the window's token), and whatever else was
 * said: people, bays and yard, opening hours, skills and shifts, prices of hours, taxes, rules.
 * @throws SHOP_ALREADY_SET_UP the second time, and the refusals of each part; then nothing is written at all
 */
export function setUpShop(ctx: WriteCtx, input: Input): { readonly ownerId: PersonId } {
  createShop(ctx, input);
  const today = localDayOf(ctx.now, shopOf(ctx.db).zone);
  const { name, pin, token } = input.owner;
  const { id: ownerId } = addPerson(ctx, { name, pin, role: 'owner' });
  const byName = new Map([[keyOf(name), ownerId]]);
  for (const person of input.people) byName.set(keyOf(person.name), addPerson(ctx, person).id);
  for (const rate of input.rates) addRate(ctx, rate, rate.fromDay ?? today);
  for (const tax of input.taxes) addTax(ctx, tax, tax.fromDay ?? today);
  for (const bay of input.bays) addBay(ctx, bay);
  if (input.hours) setOpeningHours(ctx, { hours: input.hours });
  for (const work of input.technicians) setWork(ctx, work, byName);
  if (token !== undefined) openSession(ctx, personOf(ctx, ownerId), token);
  return { ownerId };
}

/** @throws NOT_FOUND when the name is nobody's of this set-up */
function setWork(
  ctx: WriteCtx,
  input: Input['technicians'][number],
  byName: ReadonlyMap<string, PersonId>,
): void {
  const { name, ...work } = input;
  const personId = byName.get(keyOf(name)) ?? refuse('NOT_FOUND', { what: 'person', id: name });
  setTechnician(ctx, { personId, ...work });
}

/** A name as it is stored, so that blanks and capitals do not part a person from their shifts. */
function keyOf(name: string): string {
  return cleanName(name, 'person').toLowerCase();
}
