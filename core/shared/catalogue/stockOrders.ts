import { z } from 'zod';
import { document, type Entry, read, write } from '../entry.ts';
import type { PurchaseOrderId, SupplierId } from '../ids.ts';
import type { PurchaseOrderRow, SupplierView } from '../views/stock.ts';
import { localDayInput, revisionInput } from './inputs.ts';
import {
  addSupplierInput,
  changeSupplierInput,
  itemIdInput,
  lineIdInput,
  linkSupplierInput,
  purchaseOrderIdInput,
  receiveInput,
  supplierIdInput,
} from './stockInputs.ts';

const note = z.string().trim().max(300).default('');

/** Commands and queries of buying: suppliers, prices, orders, deliveries. */
export const stockOrderEntries = {
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
      'Books in a delivery, whole or in part. More than ordered, another pack or a price far off needs an explicit yes.',
    input: receiveInput,
    touches: ['stock', 'orders'],
  }),
  'stock.notToday': write<{ readonly untilDay: string }>()({
    needs: 'desk',
    about: 'Keeps a suggestion away until a day, tomorrow if none is named.',
    input: z.strictObject({ itemId: itemIdInput, untilDay: localDayInput.nullable().default(null) }),
    touches: ['stock'],
  }),
  'stock.askAgain': write<null>()({
    needs: 'desk',
    about: 'Takes a “not today” back: the suggestion is there again.',
    input: z.strictObject({ itemId: itemIdInput }),
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
  'stock.expectLine': write<null>()({
    needs: 'desk',
    about: 'Says when the supplier will send what is missing of an ordered line.',
    input: z.strictObject({
      orderId: purchaseOrderIdInput,
      lineId: lineIdInput,
      revision: revisionInput,
      dueDay: localDayInput,
    }),
    touches: ['orders', 'stock'],
  }),
  'stock.orderFile': document()({
    needs: 'desk',
    about: 'A purchase order to print or send: as PDF, as CSV, or as an e-mail draft with the PDF attached.',
    input: z.strictObject({
      orderId: purchaseOrderIdInput,
      as: z.enum(['pdf', 'csv', 'eml']).default('pdf'),
    }),
  }),
} as const satisfies Readonly<Record<string, Entry>>;
