import type { z } from 'zod';
import type { WriteCtx } from '../../context.ts';
import { cleanEmail } from '../../people/rules/names.ts';
import type {
  AddItemInput,
  addSupplierInput,
  ChangeItemInput,
  changeSupplierInput,
  linkSupplierInput,
} from '../../shared/catalogue/stockInputs.ts';
import { refuse } from '../../shared/errors.ts';
import type { ItemId, SupplierId } from '../../shared/ids.ts';
import { MATERIAL_UNITS } from '../../shared/materialUnits.ts';
import { addLocalDays, localDayOf } from '../../shared/time.ts';
import type { LocalDay } from '../../shared/units.ts';
import type { BaseUnit, Material } from '../../shared/vocabulary.ts';
import { shopOf } from '../../views/shop.ts';
import {
  dropLater,
  findItemByBarcode,
  findItemByName,
  findLink,
  findSupplier,
  insertItem,
  insertSupplier,
  keptItems,
  putLater,
  putLink,
  saveItem,
  saveSupplier,
} from '../store/items.ts';
import { addPieces } from './pads.ts';
import { itemOf, postIn } from './post.ts';

type Named = {
  readonly id: ItemId | null;
  readonly name: string;
  readonly barcode: string;
  readonly material: Material | null;
  readonly unit: BaseUnit;
  readonly reusable: boolean;
};

/** @throws ITEM_NAME_TAKEN, BARCODE_TAKEN, REUSABLE_IN_PIECES, MATERIAL_UNIT */
function checkItem(ctx: WriteCtx, item: Named): void {
  const twin = findItemByName(ctx.db, item.name);
  if (twin && twin.id !== item.id) refuse('ITEM_NAME_TAKEN', { item: twin.name });
  const other = findItemByBarcode(ctx.db, item.barcode);
  if (other && other.id !== item.id) refuse('BARCODE_TAKEN', { barcode: item.barcode, item: other.name });
  if (item.reusable && item.unit !== 'piece') refuse('REUSABLE_IN_PIECES', { item: item.name });
  if (!item.material) return;
  const needs = MATERIAL_UNITS[item.material];
  if (needs !== item.unit) refuse('MATERIAL_UNIT', { item: item.name, unit: item.unit, needs });
}

/**
 * Writes down a new item with what is on the shelf.
 * @throws ITEM_NAME_TAKEN, BARCODE_TAKEN when another item has it
 * @throws REUSABLE_IN_PIECES, MATERIAL_UNIT when the unit does not fit what it is
 */
export function addItem(ctx: WriteCtx, input: AddItemInput): { readonly itemId: ItemId } {
  const id = ctx.newId<ItemId>();
  checkItem(ctx, { ...input, id: null });
  const { opening, ...fields } = input;
  insertItem(ctx.db, { id, ...fields });
  ctx.changed(id, 'name');
  if (opening && opening.amount > 0) {
    postIn(ctx, id, opening.amount, opening.valueMinor, { reason: 'open' });
    const item = itemOf(ctx, id);
    if (item.reusable) addPieces(ctx, item, opening.amount, '');
  }
  return { itemId: id };
}

/**
 * Changes an item. Unit and going round stay as they were written down: the ledger is counted in them.
 * @throws STALE when somebody else changed it
 * @throws ITEM_NAME_TAKEN, BARCODE_TAKEN, MATERIAL_UNIT as for a new one
 */
export function changeItem(ctx: WriteCtx, input: ChangeItemInput): null {
  const item = itemOf(ctx, input.itemId);
  if (item.revision !== input.revision) refuse('STALE', { what: 'stockItem' });
  const changes = Object.fromEntries(Object.entries(input.changes).filter(([, v]) => v !== undefined));
  checkItem(ctx, { ...item, ...changes });
  saveItem(ctx.db, item.id, changes);
  ctx.changed(item.id, ...Object.keys(changes));
  return null;
}

/** Gives items without a barcode one of the shop's own: `RL` and the last signs of the item's id, which are its own. */
export function giveCodes(ctx: WriteCtx): { readonly given: number } {
  const bare = keptItems(ctx.db).filter((item) => item.barcode === '');
  for (const item of bare) {
    saveItem(ctx.db, item.id, { barcode: `RL${item.id.slice(-10).toUpperCase()}` });
    ctx.changed(item.id, 'barcode');
  }
  return { given: bare.length };
}

/** Writes down a supplier. @throws EMAIL_UNREADABLE when an e-mail is given that can't be one */
export function addSupplier(
  ctx: WriteCtx,
  input: z.output<typeof addSupplierInput>,
): { readonly supplierId: SupplierId } {
  const id = ctx.newId<SupplierId>();
  insertSupplier(ctx.db, { id, ...input, email: cleanEmail(input.email) });
  ctx.changed(id, 'name');
  return { supplierId: id };
}

/** @throws STALE when somebody else changed it; EMAIL_UNREADABLE as for a new one */
export function changeSupplier(ctx: WriteCtx, input: z.output<typeof changeSupplierInput>): null {
  const supplier = supplierOf(ctx, input.supplierId);
  if (supplier.revision !== input.revision) refuse('STALE', { what: 'supplier' });
  const { email } = input.changes;
  const said = email === undefined ? input.changes : { ...input.changes, email: cleanEmail(email) };
  const changes = Object.fromEntries(Object.entries(said).filter(([, v]) => v !== undefined));
  saveSupplier(ctx.db, supplier.id, changes);
  ctx.changed(supplier.id, ...Object.keys(changes));
  return null;
}

/** @throws NOT_FOUND when there is no such supplier */
export function supplierOf(ctx: WriteCtx, id: SupplierId): NonNullable<ReturnType<typeof findSupplier>> {
  return findSupplier(ctx.db, id) ?? refuse('NOT_FOUND', { what: 'supplier', id });
}

/**
 * Says in what packs and at what price a supplier sells an item.
 * @throws BREAKS_NOT_RISING when the price breaks are not in order; STALE when somebody else said so meanwhile
 */
export function linkSupplier(ctx: WriteCtx, input: z.output<typeof linkSupplierInput>): null {
  const supplier = supplierOf(ctx, input.supplierId);
  const item = itemOf(ctx, input.itemId);
  const rising = input.breaks.every((b, i) => i === 0 || b.fromPacks > (input.breaks[i - 1]?.fromPacks ?? 0));
  if (!rising) refuse('BREAKS_NOT_RISING', { item: item.name });
  const { revision, ...link } = input;
  if ((findLink(ctx.db, supplier.id, item.id)?.revision ?? null) !== revision)
    refuse('STALE', { what: 'stockItem' });
  putLink(ctx.db, { ...link, supplierId: supplier.id, itemId: item.id });
  ctx.changed(item.id, 'supplier');
  return null;
}

/**
 * Keeps a suggestion away until a day; tomorrow when none is named.
 * @throws LATER_IS_PAST when the day is not ahead
 */
export function notToday(
  ctx: WriteCtx,
  input: { readonly itemId: ItemId; readonly untilDay: LocalDay | null },
): { readonly untilDay: LocalDay } {
  const item = itemOf(ctx, input.itemId);
  const today = localDayOf(ctx.now, shopOf(ctx.db).zone);
  const untilDay = input.untilDay ?? addLocalDays(today, 1);
  if (untilDay <= today) return refuse('LATER_IS_PAST', { untilDay });
  const personId = ctx.actor?.personId;
  if (!personId) return refuse('SESSION_ENDED', {});
  putLater(ctx.db, { itemId: item.id, untilDay, personId, atMs: ctx.now });
  ctx.changed(item.id, 'later');
  return { untilDay };
}

/** Takes a "not today" back; where nobody said so nothing changes. @throws NOT_FOUND when there is no such item */
export function askAgain(ctx: WriteCtx, input: { readonly itemId: ItemId }): null {
  const item = itemOf(ctx, input.itemId);
  dropLater(ctx.db, item.id);
  ctx.changed(item.id, 'later');
  return null;
}
