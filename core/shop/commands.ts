import type { z } from 'zod';
import type { WriteCtx } from '../context.ts';
import type { rateInput, setUpInput, shopDetails, taxInput } from '../shared/catalogue/shopInputs.ts';
import { refuse } from '../shared/errors.ts';
import { saidOnly } from '../shared/said.ts';
import { defaultSettings } from '../shared/settings.ts';
import { wholeRatePpm } from '../shared/tax.ts';
import { localDayOf } from '../shared/time.ts';
import type { LocalDay, Minor, Ppm } from '../shared/units.ts';
import { hasAmounts, shopIfSetUp, shopOf } from '../views/shop.ts';
import { beginsOn, cleanTax } from './rules/dated.ts';
import { cleanDetails } from './rules/details.ts';
import { type SettingChange, withChanges } from './rules/settings.ts';
import { insertShop, putRate, putTax, updateShop } from './store.ts';

type Rate = z.output<typeof rateInput>;
type Tax = z.output<typeof taxInput>;
type Details = z.output<typeof setUpInput>['shop'];
type All = z.output<typeof shopDetails>;
type SomeDetails = { readonly [K in keyof All]?: All[K] | undefined };

/**
 * Writes the shop itself. The rules are stored whole, so that a later version's defaults never change them unasked.
 * @throws SHOP_ALREADY_SET_UP the second time; NAME_MISSING, ZONE_UNKNOWN, CURRENCY_UNKNOWN, SETTING_UNKNOWN …
 */
export function createShop(
  ctx: WriteCtx,
  input: {
    readonly shop: Details;
    readonly settings: readonly SettingChange[];
    readonly demoDay?: LocalDay | undefined;
  },
): void {
  const before = shopIfSetUp(ctx.db);
  if (before) refuse('SHOP_ALREADY_SET_UP', { name: before.name });
  const { address = '', phone = '', email = '', taxNumber = '' } = input.shop;
  const details = cleanDetails({ ...input.shop, address, phone, email, taxNumber });
  const settings = withChanges(defaultSettings(), input.settings);
  insertShop(ctx.db, {
    ...details,
    settings: JSON.stringify(settings),
    isDemo: input.demoDay !== undefined,
    demoDay: input.demoDay ?? null,
  });
  ctx.changed('shop', 'name', 'zone', 'currency', 'settings');
}

/**
 * Changes what the shop is called, where it is, how it writes.
 * @throws STALE when somebody changed it meanwhile
 * @throws CURRENCY_IN_USE once amounts are kept in it
 */
export function changeShop(ctx: WriteCtx, input: { readonly revision: number } & SomeDetails): null {
  const { revision, ...typed } = input;
  const now = shopOf(ctx.db);
  const said = saidOnly<SomeDetails>(typed);
  const { settings: _, isDemo: _demo, demoDay: _day, revision: _seen, ...details } = now;
  const next = cleanDetails({ ...details, ...said });
  if (next.currency !== now.currency && hasAmounts(ctx.db))
    refuse('CURRENCY_IN_USE', { currency: now.currency });
  if (!updateShop(ctx.db, revision, next)) refuse('STALE', { what: 'shop' });
  ctx.changed('shop', ...Object.keys(said));
  return null;
}

/** Changes rules by name. @throws SETTING_UNKNOWN, SETTING_OUT_OF_RANGE, STALE */
export function changeSettings(
  ctx: WriteCtx,
  input: { readonly revision: number; readonly changes: readonly SettingChange[] },
): null {
  const next = withChanges(shopOf(ctx.db).settings, input.changes);
  if (!updateShop(ctx.db, input.revision, { settings: JSON.stringify(next) }))
    refuse('STALE', { what: 'shop' });
  ctx.changed('shop', ...input.changes.map((change) => change.setting));
  return null;
}

/** Sets the price of a person hour from today or a later day on. @throws DAY_PAST */
export function setRate(ctx: WriteCtx, input: Rate): { readonly id: string } {
  return addRate(ctx, input, beginsOn(input.fromDay, todayOf(ctx)));
}

/** The same while the shop is being set up: any day may be said. */
export function addRate(ctx: WriteCtx, input: Rate, fromDay: LocalDay): { readonly id: string } {
  const { for: whom } = input;
  const subject = whom.applies === 'all' ? '' : whom.applies === 'skill' ? whom.skill : whom.stage;
  const id = putRate(ctx.db, {
    id: ctx.newId(),
    applies: whom.applies,
    subject,
    fromDay,
    hourMinor: input.hourMinor as Minor,
    addedMs: ctx.now,
  });
  ctx.changed(id, 'hourMinor', 'fromDay');
  return { id };
}

/** Sets a tax from today or a later day on. @throws DAY_PAST, TAX_CATEGORY_RATE, TAX_REASON_MISSING, NAME_MISSING */
export function setTax(ctx: WriteCtx, input: Tax): { readonly id: string } {
  return addTax(ctx, input, beginsOn(input.fromDay, todayOf(ctx)));
}

/** The same while the shop is being set up: any day may be said. */
export function addTax(ctx: WriteCtx, input: Tax, fromDay: LocalDay): { readonly id: string } {
  const { code, category } = input;
  const parts = input.parts ?? [];
  const ratePpm = (parts.length === 0 ? input.ratePpm : wholeRatePpm(parts)) as Ppm;
  const cleaned = cleanTax({ ...input, ratePpm, parts });
  const kept = { code, category, ratePpm, parts, ...cleaned, fromDay, addedMs: ctx.now };
  const row = { id: ctx.newId<string>(), ...kept };
  const id = putTax(ctx.db, row);
  ctx.changed(id, 'category', 'ratePpm', 'fromDay');
  return { id };
}

export function todayOf(ctx: WriteCtx): LocalDay {
  return localDayOf(ctx.now, shopOf(ctx.db).zone);
}
