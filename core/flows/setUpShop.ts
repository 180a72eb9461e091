import type { z } from 'zod';
import { addPerson, personOf } from '../access/commands.ts';
import { openSession } from '../access/signIn.ts';
import type { WriteCtx } from '../context.ts';
import type { setUpInput } from '../shared/catalogue/shopInputs.ts';
import type { PersonId } from '../shared/ids.ts';
import { localDayOf } from '../shared/time.ts';
import { addRate, addTax, createShop } from '../shop/commands.ts';
import { shopOf } from '../views/shop.ts';

/**
 * Sets up the shop in one go: itself, its first owner (signed in with the window's token), and whatever else was
 * said: people, prices of hours, taxes, rules.
 * @throws SHOP_ALREADY_SET_UP the second time, and the refusals of each part; then nothing is written at all
 */
export function setUpShop(ctx: WriteCtx, input: z.output<typeof setUpInput>): { readonly ownerId: PersonId } {
  createShop(ctx, input);
  const today = localDayOf(ctx.now, shopOf(ctx.db).zone);
  const { name, pin, token } = input.owner;
  const { id: ownerId } = addPerson(ctx, { name, pin, role: 'owner' });
  for (const person of input.people) addPerson(ctx, person);
  for (const rate of input.rates) addRate(ctx, rate, rate.fromDay ?? today);
  for (const tax of input.taxes) addTax(ctx, tax, tax.fromDay ?? today);
  if (token !== undefined) openSession(ctx, personOf(ctx, ownerId), token);
  return { ownerId };
}
