import { z } from 'zod';
import { document, type Entry, read, write } from '../entry.ts';
import type { ItemId, PurchaseOrderId, SupplierId } from '../ids.ts';
import type {
  DrawnForStage,
  DrawResult,
  ItemHit,
  ItemImportReport,
  JobMaterialCost,
  OpenCountView,
  PadRow,
  ProposedDraw,
  PurchaseOrderRow,
  StockBoard,
  StockItemDetail,
  StockItemPage,
  StockNeeds,
  SupplierView,
} from '../views/stock.ts';
import { jobIdInput, localDayInput, revisionInput } from './inputs.ts';
import {
  addItemInput,
  addSupplierInput,
  amountInput,
  changeItemInput,
  changeSupplierInput,
  drawInput,
  itemIdInput,
  lineIdInput,
  linkSupplierInput,
  padStateInput,
  purchaseOrderIdInput,
  receiveInput,
  someAmountInput,
  stockStageIdInput,
  supplierIdInput,
} from './stockInputs.ts';

const note = z.string().trim().max(300).default('');
const pieces = z.int().min(1).max(10_000);
const csvText = z.string().max(900_000);

/** Commands and queries of the stock area. */
export const stockEntries = {
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
  'stock.addSupplier': write<{ readonly supplierId: SupplierId }>()({
    needs: 'desk',
    about: 'Writes down a supplier: lead time in their working days, when they are shut, smallest order.',
    input: addSupplierInput,
    touches: ['stock', 'orders'],
  }),
  'stock.changeSupplier': write<null>()({
    needs: 'desk',
    about: 'Changes a supplier.',
    input: changeSupplierInput,
    touches: ['stock', 'orders'],
  }),
  'stock.listSuppliers': read<readonly SupplierView[]>()({
    needs: 'desk',
    about: 'Suppliers still used, with what was learned of their lead time.',
    input: z.strictObject({}),
    listens: ['stock', 'orders'],
  }),
  'stock.linkSupplier': write<null>()({
    needs: 'desk',
    about: 'Says in what packs and at what price a supplier sells an item; again to change it.',
    input: linkSupplierInput,
    touches: ['stock', 'orders'],
  }),
  'stock.receive': write<{ readonly deliveryId: string; readonly raised: readonly string[] }>()({
    needs: 'desk',
    about:
      'Books in a delivery, whole or in part. More than ordered, or another pack, needs an explicit yes.',
    input: receiveInput,
    touches: ['stock', 'orders'],
  }),
  'stock.proposeDraws': read<readonly ProposedDraw[]>()({
    needs: 'technician',
    about: 'What a stage will have used by the plan and by what stages like it really used.',
    input: z.strictObject({ stageId: stockStageIdInput }),
    listens: ['stock', 'jobs', 'work'],
  }),
  'stock.drawForStage': write<DrawnForStage>()({
    needs: 'technician',
    about: 'Books what a stage used. Beyond book stock it is saved and opens a count.',
    input: z.strictObject({ stageId: stockStageIdInput, draws: z.array(drawInput).max(60) }),
    touches: ['stock', 'jobs', 'work'],
  }),
  'stock.correctDraw': write<DrawResult>()({
    needs: 'technician',
    about: 'Corrects a draw to what was really used, by a further ledger line.',
    input: z.strictObject({ movementId: z.int().min(1), amount: amountInput }),
    touches: ['stock', 'jobs'],
  }),
  'stock.waste': write<DrawResult>()({
    needs: 'technician',
    about: 'Takes out what was dropped, spilt, dried up or out of date, with the reason.',
    input: z.strictObject({
      itemId: itemIdInput,
      amount: someAmountInput,
      why: z.string().trim().min(1).max(300),
      jobId: jobIdInput.nullable().default(null),
    }),
    touches: ['stock'],
  }),
  'stock.returnItem': write<DrawResult>()({
    needs: 'desk',
    about: 'Takes out what goes back to the supplier.',
    input: z.strictObject({ itemId: itemIdInput, amount: someAmountInput, why: note }),
    touches: ['stock'],
  }),
  'stock.askCount': write<{ readonly opened: number }>()({
    needs: 'desk',
    about: 'Asks for counts: of the items named, or of everything.',
    input: z.strictObject({
      itemIds: z.array(itemIdInput).max(2000).default([]),
      all: z.boolean().default(false),
    }),
    touches: ['stock'],
  }),
  'stock.showCount': read<OpenCountView>()({
    needs: 'technician',
    about: 'The book of one item at this moment, to count against.',
    input: z.strictObject({ itemId: itemIdInput }),
    listens: ['stock'],
  }),
  'stock.count': write<{ readonly difference: number; readonly onHand: number; readonly since: number }>()({
    needs: 'technician',
    about: 'Says what is on the shelf. Draws booked after the ledger line named stay as they are.',
    input: z.strictObject({
      itemId: itemIdInput,
      counted: amountInput,
      asOfMovementId: z.int().min(0),
    }),
    touches: ['stock'],
  }),
  'stock.showPads': read<readonly PadRow[]>()({
    needs: 'technician',
    about: 'Pads and towels by where they are in their round, and which job will lack clean ones.',
    input: z.strictObject({}),
    listens: ['stock', 'orders', 'jobs', 'plan', 'shop'],
  }),
  'stock.padsUsed': write<null>()({
    needs: 'technician',
    about: 'Says that clean pads or towels are dirty now, outside a stage.',
    input: z.strictObject({ itemId: itemIdInput, pieces, jobId: jobIdInput.nullable().default(null) }),
    touches: ['stock'],
  }),
  'stock.padsWash': write<null>()({
    needs: 'technician',
    about: 'Puts dirty pieces in the wash, or takes washed ones out clean.',
    input: z.strictObject({ itemId: itemIdInput, pieces, step: z.enum(['in', 'out']) }),
    touches: ['stock'],
  }),
  'stock.padsRetire': write<null>()({
    needs: 'technician',
    about: 'Throws worn pieces away: out of the round and out of the ledger.',
    input: z.strictObject({ itemId: itemIdInput, pieces, from: padStateInput, why: note }),
    touches: ['stock'],
  }),
  'stock.notToday': write<{ readonly untilDay: string }>()({
    needs: 'desk',
    about: 'Keeps a suggestion away until a day, tomorrow if none is named.',
    input: z.strictObject({ itemId: itemIdInput, untilDay: localDayInput.nullable().default(null) }),
    touches: ['stock'],
  }),
  'stock.makeOrders': write<{
    readonly orders: readonly { readonly id: PurchaseOrderId; readonly number: number }[];
  }>()({
    needs: 'desk',
    about: 'Makes one purchase order per supplier from the lines given.',
    input: z.strictObject({
      lines: z
        .array(
          z.strictObject({
            supplierId: supplierIdInput,
            itemId: itemIdInput,
            packs: z.int().min(1).max(100_000),
          }),
        )
        .min(1)
        .max(300),
      note,
    }),
    touches: ['stock', 'orders'],
  }),
  'stock.listOrders': read<readonly PurchaseOrderRow[]>()({
    needs: 'desk',
    about: 'Purchase orders, newest first.',
    input: z.strictObject({ open: z.boolean().default(true), limit: z.int().min(1).max(500).default(100) }),
    listens: ['orders', 'stock'],
  }),
  'stock.showOrder': read<PurchaseOrderRow>()({
    needs: 'desk',
    about: 'One purchase order with what came of it.',
    input: z.strictObject({ orderId: purchaseOrderIdInput }),
    listens: ['orders', 'stock'],
  }),
  'stock.cancelOrderLine': write<null>()({
    needs: 'desk',
    about: 'Gives up what is still missing of an ordered line.',
    input: z.strictObject({ orderId: purchaseOrderIdInput, lineId: lineIdInput, revision: revisionInput }),
    touches: ['orders', 'stock'],
  }),
  'stock.jobCost': read<JobMaterialCost>()({
    needs: 'desk',
    about: 'What a job used, from the ledger, with the wear of pads and towels.',
    input: z.strictObject({ jobId: jobIdInput }),
    listens: ['stock', 'jobs'],
  }),
  'stock.orderFile': document()({
    needs: 'desk',
    about: 'A purchase order to print or send: as PDF, as CSV, or as an e-mail draft with the PDF attached.',
    input: z.strictObject({
      orderId: purchaseOrderIdInput,
      as: z.enum(['pdf', 'csv', 'eml']).default('pdf'),
    }),
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
