import { z } from 'zod';
import { document, type Entry, read, write } from '../entry.ts';
import { SHEET_MOST_MB } from '../fileSizes.ts';
import type { ItemId } from '../ids.ts';
import type { Minor } from '../units.ts';
import type { ItemHit, StockBoard, StockNeeds } from '../views/stock.ts';
import type { ItemImportReport, StockItemDetail, StockItemPage } from '../views/stockItem.ts';
import { localDayInput } from './inputs.ts';
import { addItemInput, changeItemInput, itemIdInput } from './stockInputs.ts';

const csvText = z.string().max(900_000);

/** Commands and queries of items: what is kept, how it looks ahead, lists and labels. */
export const stockItemEntries = {
  'stock.showBoard': read<StockBoard>()({
    needs: 'desk',
    about:
      'Everything on the Stock screen: what to order and why, items looking forward, pads, orders, counts.',
    input: z.strictObject({ horizonDays: z.int().min(7).max(120).default(42) }),
    listens: ['stock', 'orders', 'jobs', 'plan', 'shop'],
  }),
  'stock.listItems': read<readonly (StockItemDetail & { readonly onHand: number })[]>()({
    needs: 'technician',
    about: 'Every item that is kept, with what is on hand.',
    input: z.strictObject({ withEnded: z.boolean().default(false) }),
    listens: ['stock'],
  }),
  'stock.showItem': read<StockItemPage>()({
    needs: 'desk',
    about: 'One item: its ledger, its way forward, its suppliers and the reasoning behind reordering.',
    input: z.strictObject({ itemId: itemIdInput, horizonDays: z.int().min(7).max(120).default(42) }),
    listens: ['stock', 'orders', 'jobs', 'plan', 'shop'],
  }),
  'stock.needs': read<StockNeeds>()({
    needs: 'desk',
    about: 'How many things wait in Stock: to order, to count, to wash, and orders that are late.',
    input: z.strictObject({}),
    listens: ['stock', 'orders', 'jobs', 'plan', 'shop'],
  }),
  'stock.findItems': read<readonly ItemHit[]>()({
    needs: 'technician',
    about: 'Items kept whose name has every word of a text, or that carry it as barcode.',
    input: z.strictObject({
      text: z.string().trim().min(1).max(120),
      limit: z.int().min(1).max(50).default(8),
    }),
    listens: ['stock'],
  }),
  'stock.findBarcode': read<{ readonly itemId: ItemId; readonly name: string } | null>()({
    needs: 'technician',
    about: 'The item that carries a barcode.',
    input: z.strictObject({ barcode: z.string().trim().min(1).max(60) }),
    listens: ['stock'],
  }),
  'stock.valueAt': read<{ readonly valueMinor: Minor }>()({
    needs: 'desk',
    about: 'What all stock was worth at the end of a day, at the moving average.',
    input: z.strictObject({ day: localDayInput }),
    listens: ['stock', 'shop'],
  }),
  'stock.addItem': write<{ readonly itemId: ItemId }>()({
    needs: 'desk',
    about: 'Writes down a new item, with what is on the shelf now.',
    input: addItemInput,
    touches: ['stock'],
  }),
  'stock.changeItem': write<null>()({
    needs: 'desk',
    about: 'Changes an item, or says that it is no longer kept.',
    input: changeItemInput,
    touches: ['stock'],
  }),
  'stock.addSheet': write<{ readonly sheetId: string }>()({
    needs: 'desk',
    about: `Keeps an item’s safety data sheet (PDF, JPEG or PNG, base64, up to ${SHEET_MOST_MB} MB) in place of the one before.`,
    input: z.strictObject({
      itemId: itemIdInput,
      calledAs: z.string().trim().min(1).max(200),
      sheetBase64: z.string().min(16).max(20_000_000),
    }),
    touches: ['stock'],
  }),
  'stock.removeSheet': write<null>()({
    needs: 'desk',
    about: 'Takes the safety data sheet out of an item.',
    input: z.strictObject({ itemId: itemIdInput }),
    touches: ['stock'],
  }),
  'stock.sheetFile': document()({
    needs: 'technician',
    about: 'The safety data sheet of an item, to read.',
    input: z.strictObject({ itemId: itemIdInput }),
  }),
  'stock.labels': document()({
    needs: 'desk',
    about: 'Shelf labels with barcode as PDF, for the items named or for all.',
    input: z.strictObject({ itemIds: z.array(itemIdInput).max(2000).default([]) }),
  }),
  'stock.giveCodes': write<{ readonly given: number }>()({
    needs: 'desk',
    about: 'Gives every item kept that has no barcode one of the shop’s own, for its label.',
    input: z.strictObject({}),
    touches: ['stock'],
  }),
  'stock.exportItems': document()({
    needs: 'desk',
    about: 'All items as a CSV file that can be read back.',
    input: z.strictObject({}),
  }),
  'stock.checkItems': read<ItemImportReport>()({
    needs: 'desk',
    about: 'What a CSV list of items would add and change, and where it does not fit. Changes nothing.',
    input: z.strictObject({ csv: csvText }),
    listens: ['stock'],
  }),
  'stock.importItems': write<ItemImportReport>()({
    needs: 'desk',
    about: 'Takes over a CSV list of items whole; with one fault in it nothing is taken.',
    input: z.strictObject({ csv: csvText }),
    touches: ['stock'],
  }),
} as const satisfies Readonly<Record<string, Entry>>;
