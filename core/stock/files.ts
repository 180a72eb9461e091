import type { ReadCtx } from '../context.ts';
import { emlDraft } from '../documents/eml.ts';
import { labelsPdf } from '../documents/labelsPdf.ts';
import { orderPdf } from '../documents/orderPdf.ts';
import { itemsCsv, orderCsv } from '../documents/stockCsv.ts';
import type { ItemId, PurchaseOrderId } from '../shared/ids.ts';
import type { DocumentFile } from '../shared/reply.ts';
import { amountOf } from '../shared/text/format.ts';
import { amountText, mannerFor } from '../shared/text/manner.ts';
import { say } from '../shared/text/say.ts';
import { date } from '../shared/text/when.ts';
import type { EpochMs } from '../shared/units.ts';
import type { SellerView } from '../shared/views/billing.ts';
import type { PurchaseOrderRow } from '../shared/views/stock.ts';
import { sellerOf } from '../views/billingParty.ts';
import { withLogo } from '../views/logo.ts';
import { orderById } from '../views/stockOrders.ts';
import { itemRows } from '../views/stockOutlook.ts';

const CSV = 'text/csv; charset=utf-8';
const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);

/** A purchase order, gathered now and rendered afterwards. */
export function orderFile(
  ctx: ReadCtx,
  input: { readonly orderId: PurchaseOrderId; readonly as: 'pdf' | 'csv' | 'eml' },
): () => Promise<DocumentFile> {
  const order = orderById(ctx.db, ctx.now, input.orderId);
  const shop = withLogo(ctx.db, sellerOf(ctx.db));
  if (input.as === 'csv') return async () => orderList(order, shop);
  if (input.as === 'eml') return async () => orderMail(order, shop, ctx.now);
  return () => orderPrint(order, shop, ctx.now);
}

const nameOf = (order: PurchaseOrderRow): string => `purchase-order-${order.number}`;

function orderList(order: PurchaseOrderRow, shop: SellerView): DocumentFile {
  return { fileName: `${nameOf(order)}.csv`, mime: CSV, bytes: bytesOf(orderCsv(order, shop.currency)) };
}

async function orderPrint(order: PurchaseOrderRow, shop: SellerView, now: EpochMs): Promise<DocumentFile> {
  const bytes = await orderPdf(order, shop, now);
  return { fileName: `${nameOf(order)}.pdf`, mime: 'application/pdf', bytes };
}

/** A draft to the supplier with the order attached; without an address the mail program asks for one. */
async function orderMail(order: PurchaseOrderRow, shop: SellerView, now: EpochMs): Promise<DocumentFile> {
  const manner = mannerFor(shop);
  const { number, supplierName: supplier } = order;
  const due = date(manner, order.dueDay);
  const bytes = emlDraft({
    to: order.supplierEmail,
    from: shop.email,
    fromName: shop.name,
    subject: say(manner.locale, 'stock.file.order', { number }),
    body: say(manner.locale, 'stock.file.mail', { number, supplier, due, shop: shop.name }),
    atMs: now,
    attachments: [await orderPrint(order, shop, now)],
  });
  return { fileName: `${nameOf(order)}.eml`, mime: 'message/rfc822', bytes };
}

/** All items kept, as a list that can be read back. */
export function itemsFile(ctx: ReadCtx): () => Promise<DocumentFile> {
  const items = itemRows(ctx.db, false).map((i) => ({
    ...i,
    reusable: i.reusable === 1 ? ('yes' as const) : ('no' as const),
  }));
  return async () => ({ fileName: 'stock-items.csv', mime: CSV, bytes: bytesOf(itemsCsv(items)) });
}

/** Shelf labels with barcode for the items named, or for everything kept. */
export function labelsFile(
  ctx: ReadCtx,
  input: { readonly itemIds: readonly ItemId[] },
): () => Promise<DocumentFile> {
  const shop = withLogo(ctx.db, sellerOf(ctx.db));
  const manner = mannerFor(shop);
  const wanted = new Set(input.itemIds);
  const items = itemRows(ctx.db, false).filter((i) => wanted.size === 0 || wanted.has(i.id));
  const labels = items.map((i) => {
    const pack = `${amountText(amountOf(manner, i.unit, i.packSize))} ${i.packWord}`;
    const under = [i.place, pack].filter(Boolean).join(' · ');
    return { name: i.name, under, hazards: i.hazards, code: i.barcode };
  });
  const title = say(manner.locale, 'stock.file.labels');
  return async () => ({
    fileName: 'stock-labels.pdf',
    mime: 'application/pdf',
    bytes: await labelsPdf(labels, shop, title, ctx.now),
  });
}
