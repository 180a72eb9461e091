import type { ReadCtx } from '../context.ts';
import { orderPdf } from '../documents/orderPdf.ts';
import { itemsCsv, orderCsv } from '../documents/stockCsv.ts';
import type { PurchaseOrderId } from '../shared/ids.ts';
import type { DocumentFile } from '../shared/reply.ts';
import { sellerOf } from '../views/billingParty.ts';
import { orderById } from '../views/stockOrders.ts';
import { itemRows } from '../views/stockOutlook.ts';

const CSV = 'text/csv; charset=utf-8';
const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);

/** A purchase order, gathered now and rendered afterwards. */
export function orderFile(
  ctx: ReadCtx,
  input: { readonly orderId: PurchaseOrderId; readonly as: 'pdf' | 'csv' },
): () => Promise<DocumentFile> {
  const order = orderById(ctx.db, ctx.now, input.orderId);
  const shop = sellerOf(ctx.db);
  const name = `purchase-order-${order.number}`;
  if (input.as === 'csv')
    return async () => ({
      fileName: `${name}.csv`,
      mime: CSV,
      bytes: bytesOf(orderCsv(order, shop.currency)),
    });
  return async () => ({
    fileName: `${name}.pdf`,
    mime: 'application/pdf',
    bytes: await orderPdf(order, shop, ctx.now),
  });
}

/** All items kept, as a list that can be read back. */
export function itemsFile(ctx: ReadCtx): () => Promise<DocumentFile> {
  const items = itemRows(ctx.db, false).map((i) => ({
    ...i,
    reusable: i.reusable === 1 ? ('yes' as const) : ('no' as const),
  }));
  return async () => ({ fileName: 'stock-items.csv', mime: CSV, bytes: bytesOf(itemsCsv(items)) });
}
