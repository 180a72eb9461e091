import type { z } from 'zod';
import type { WriteCtx } from '../context.ts';
import { cleanName } from '../people/rules/names.ts';
import type { chargeInput, listPriceInput, packageInput } from '../shared/catalogue/shopInputs.ts';
import { refuse } from '../shared/errors.ts';
import type { ItemId } from '../shared/ids.ts';
import { thingOf } from '../shared/listPrices.ts';
import { packageNamed } from '../shared/packages.ts';
import type { LocalDay, Minor, Ppm } from '../shared/units.ts';
import { knownItem } from '../views/known.ts';
import { listPriceRows } from '../views/listPrices.ts';
import { packageRows } from '../views/shop.ts';
import { todayOf } from './commands.ts';
import { beginsOn } from './rules/dated.ts';
import { putCharge, putListPrice, putPackage } from './store.ts';

/** Sets the least a job costs, or a surcharge, from today or a later day on. @throws DAY_PAST */
export function setCharge(ctx: WriteCtx, input: z.output<typeof chargeInput>): { readonly id: string } {
  const id = putCharge(ctx.db, {
    id: ctx.newId<string>(),
    kind: input.kind,
    amountMinor: (input.kind === 'minimum' ? input.amountMinor : 0) as Minor,
    sharePpm: (input.kind === 'minimum' ? 0 : input.sharePpm) as Ppm,
    fromDay: beginsOn(input.fromDay, todayOf(ctx)),
    addedMs: ctx.now,
  });
  ctx.changed(id, input.kind === 'minimum' ? 'amountMinor' : 'sharePpm', 'fromDay');
  return { id };
}

/**
 * Sets the price of a package from today or a later day on. Its work is what is said; what is not said stays as it
 * stands then, and one that ends keeps it all.
 * @throws DAY_PAST · NAME_MISSING · PACKAGE_WORK_MISSING when there is none of the name yet and nothing says its work
 */
export function setPackage(ctx: WriteCtx, input: z.output<typeof packageInput>): { readonly id: string } {
  const name = cleanName(input.name, 'package');
  const fromDay = beginsOn(input.fromDay, todayOf(ctx));
  const standing = packageNamed(packageRows(ctx.db), name, fromDay);
  const said = input.priceMinor === null ? undefined : input;
  const wish = said?.wish ?? standing?.wish ?? refuse('PACKAGE_WORK_MISSING', { name });
  const id = putPackage(ctx.db, {
    id: ctx.newId<string>(),
    ...{ name, wish },
    interior: said?.interior ?? standing?.interior ?? false,
    protection: said?.protection ?? standing?.protection ?? 'sealant',
    bodies: said?.bodies ?? standing?.bodies ?? [],
    priceMinor: input.priceMinor as Minor | null,
    fromDay,
    addedMs: ctx.now,
  });
  ctx.changed(id, 'priceMinor', 'fromDay');
  return { id };
}

/**
 * Sets a price of the list from today or a later day on. What is not said of a thing, its tax and the stock it is taken
 * from, stays as it stands then.
 * @throws DAY_PAST · NAME_MISSING · NOT_FOUND when the item of stock is not there, or what ends never had a price
 * · THING_GOES_ROUND
 */
export function setListPrice(ctx: WriteCtx, input: z.output<typeof listPriceInput>): { readonly id: string } {
  const fromDay = beginsOn(input.fromDay, todayOf(ctx));
  const of = input.kind === 'item' ? itemOf(ctx, input, fromDay) : panelOf(input);
  if (input.priceMinor === null && !listPriceRows(ctx.db).some((row) => thingOf(row) === thingOf(of)))
    refuse('NOT_FOUND', { what: 'listPrice', id: of.name });
  const id = putListPrice(ctx.db, {
    id: ctx.newId<string>(),
    ...of,
    priceMinor: input.priceMinor as Minor | null,
    fromDay,
    addedMs: ctx.now,
  });
  ctx.changed(id, 'priceMinor', 'fromDay');
  return { id };
}

type Input<Kind> = Extract<z.output<typeof listPriceInput>, { readonly kind: Kind }>;

function panelOf({ level, panel }: Input<'panel'>) {
  return {
    kind: 'panel',
    name: '',
    level,
    panel: panel ?? '',
    tax: 'standard',
    itemId: null,
    itemQty: 0,
  } as const;
}

function itemOf(ctx: WriteCtx, input: Input<'item'>, fromDay: LocalDay) {
  const name = cleanName(input.name, 'package');
  const own = listPriceRows(ctx.db).filter((row) => row.kind === 'item' && row.name === name);
  const standing = own.find((row) => row.fromDay <= fromDay) ?? own.at(-1);
  const { stock } = input;
  if (stock) checkKept(ctx, stock.itemId);
  const kept = { itemId: standing?.itemId ?? null, itemQty: standing?.itemQty ?? 0 };
  const from = stock === undefined ? kept : { itemId: stock?.itemId ?? null, itemQty: stock?.amount ?? 0 };
  const tax = input.tax ?? standing?.tax ?? 'standard';
  return { kind: 'item', name, level: '', panel: '', tax, ...from } as const;
}

/** What goes round in the shop, as pads do, is not sold. */
function checkKept(ctx: WriteCtx, itemId: ItemId): void {
  const item = knownItem(ctx.db, itemId);
  if (item.reusable) refuse('THING_GOES_ROUND', { item: item.name });
}
