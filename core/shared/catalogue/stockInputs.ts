import { z } from 'zod';
import type { ItemId, PurchaseOrderId, StageId, SupplierId } from '../ids.ts';
import type { Minor } from '../units.ts';
import { BASE_UNITS, MATERIALS } from '../vocabulary.ts';
import { idOf, localDayInput, revisionInput } from './inputs.ts';

export const itemIdInput = idOf<ItemId>();
export const supplierIdInput = idOf<SupplierId>();
export const purchaseOrderIdInput = idOf<PurchaseOrderId>();
export const stockStageIdInput = idOf<StageId>();
export const lineIdInput = idOf<string>();

/** Base units; a thousand litres of anything is a slip of the keyboard. */
export const amountInput = z.int().min(0).max(1_000_000_000);
export const someAmountInput = z.int().min(1).max(1_000_000_000);
export const minorInput = z.int().min(0).max(1_000_000_000_000) as unknown as z.ZodType<Minor, number>;
const text = (most: number): z.ZodDefault<z.ZodString> => z.string().max(most).default('');

/** What an item is. Amounts are in the base unit; a pack holds `packSize` of it. */
const itemShape = {
  name: z.string().trim().min(1).max(120),
  material: z.enum(MATERIALS).nullable(),
  packSize: someAmountInput,
  packWord: z.string().trim().max(30),
  place: z.string().trim().max(60),
  shelfPacks: z.int().min(1).max(100_000).nullable(),
  sealedLifeDays: z.int().min(1).max(20_000).nullable(),
  openedLifeDays: z.int().min(1).max(20_000).nullable(),
  hazards: z.string().trim().max(300),
  sheet: z.string().trim().max(300),
  barcode: z.string().trim().max(60),
  usesPerLife: z.int().min(1).max(10_000).nullable(),
  preference: z.int().min(0).max(1000),
} as const;

export const addItemInput = z.strictObject({
  ...itemShape,
  unit: z.enum(BASE_UNITS),
  reusable: z.boolean().default(false),
  material: itemShape.material.default(null),
  packWord: itemShape.packWord.default('pack'),
  place: itemShape.place.default(''),
  shelfPacks: itemShape.shelfPacks.default(null),
  sealedLifeDays: itemShape.sealedLifeDays.default(null),
  openedLifeDays: itemShape.openedLifeDays.default(null),
  hazards: itemShape.hazards.default(''),
  sheet: itemShape.sheet.default(''),
  barcode: itemShape.barcode.default(''),
  usesPerLife: itemShape.usesPerLife.default(null),
  preference: itemShape.preference.default(0),
  /** What is on the shelf when the item is first written down, and what it cost in all. */
  opening: z.strictObject({ amount: amountInput, valueMinor: minorInput }).nullable().default(null),
});
export type AddItemInput = z.output<typeof addItemInput>;

export const changeItemInput = z.strictObject({
  itemId: itemIdInput,
  revision: revisionInput,
  changes: z.strictObject({ ...itemShape, endedDay: localDayInput.nullable() }).partial(),
});
export type ChangeItemInput = z.output<typeof changeItemInput>;

const supplierShape = {
  name: z.string().trim().min(1).max(120),
  email: z.string().trim().max(200),
  leadDays: z.int().min(0).max(365),
  openWeekdays: z.array(z.int().min(1).max(7)).max(7),
  closedDays: z.array(localDayInput).max(400),
  minOrderMinor: minorInput,
} as const;
export const addSupplierInput = z.strictObject({
  ...supplierShape,
  email: supplierShape.email.default(''),
  openWeekdays: supplierShape.openWeekdays.default([1, 2, 3, 4, 5]),
  closedDays: supplierShape.closedDays.default([]),
  minOrderMinor: minorInput.default(0 as Minor),
});
export const changeSupplierInput = z.strictObject({
  supplierId: supplierIdInput,
  revision: revisionInput,
  changes: z.strictObject({ ...supplierShape, endedDay: localDayInput.nullable() }).partial(),
});

export const linkSupplierInput = z.strictObject({
  supplierId: supplierIdInput,
  itemId: itemIdInput,
  /** Of what is known of it so far; null = this supplier does not sell the item yet. */
  revision: revisionInput.nullable().default(null),
  code: text(60),
  packSize: someAmountInput,
  priceMinor: minorInput,
  breaks: z
    .array(z.strictObject({ fromPacks: z.int().min(2).max(100_000), priceMinor: minorInput }))
    .max(10)
    .default([]),
  preferred: z.boolean().default(true),
});

/** A yes to what was asked of these items alone, or of all. */
const yesInput = z.union([z.boolean(), z.array(itemIdInput).max(200)]).default(false);

export const receiveInput = z.strictObject({
  supplierId: supplierIdInput,
  orderId: purchaseOrderIdInput.nullable().default(null),
  lines: z
    .array(
      z.strictObject({
        /** The ordered line it belongs to; null = came without being ordered. */
        lineId: lineIdInput.nullable().default(null),
        itemId: itemIdInput,
        packs: z.int().min(1).max(100_000),
        packSize: someAmountInput,
        priceMinor: minorInput,
        batch: text(60),
        bestBefore: localDayInput.nullable().default(null),
      }),
    )
    .min(1)
    .max(200),
  /** Say yes to more packs than were ordered, to packs of another size, to a price far from the agreed one. */
  acceptMore: yesInput,
  acceptOtherPack: yesInput,
  acceptPrice: yesInput,
  note: text(300),
});
export type ReceiveInput = z.output<typeof receiveInput>;

/** A draw names an item, or a material of which the program picks the item. */
export const drawInput = z.union([
  z.strictObject({ material: z.enum(MATERIALS), amount: amountInput }),
  z.strictObject({ itemId: itemIdInput, amount: amountInput }),
]);
export type DrawInput = z.output<typeof drawInput>;

export const padStateInput = z.enum(['clean', 'dirty', 'washing']);
