import type { SupplierId } from '#core/shared/ids.ts';
import type { LocalDay } from '#core/shared/units.ts';
import type { PurchaseOrderLineView } from '#core/shared/views/stock.ts';
import type { MovementView, StockItemPage, SupplierLinkView } from '#core/shared/views/stockItem.ts';

/** What came of one line now: as ordered until somebody says otherwise. */
export type Came = {
  readonly packs: number | null;
  readonly packSize: number;
  /** null until somebody says it. */
  readonly priceMinor: number | null;
  readonly batch: string;
  readonly bestBefore: LocalDay | null;
};

/** Packs of a line that are still to come. */
export const dueOf = (l: PurchaseOrderLineView): number =>
  Math.max(0, l.packs - l.receivedPacks - l.cancelledPacks);

export function cameOf(line: PurchaseOrderLineView, all = false): Came {
  const due = dueOf(line);
  const { packSize, priceMinor } = line;
  return { packs: all && due > 0 ? due : null, packSize, priceMinor, batch: '', bestBefore: null };
}

/** Where a proposed price is from: the seller's own, the last delivery's, or nowhere. */
export type ProposedPack = {
  readonly packSize: number;
  readonly priceMinor: number | null;
  readonly as: 'seller' | 'last' | 'unknown';
};

type KnownOf = {
  readonly item: Pick<StockItemPage['item'], 'packSize'>;
  readonly links: readonly Pick<SupplierLinkView, 'supplierId' | 'packSize' | 'priceMinor'>[];
  /** The newest first. */
  readonly movements: readonly Pick<MovementView, 'reason' | 'amount' | 'valueMinor'>[];
};

/**
 * Pack and price of goods that nobody ordered: as this seller sells them, else as they were last paid. What came for
 * nothing is no price to go by.
 */
export function proposedPack(known: KnownOf, supplierId: SupplierId | null): ProposedPack {
  const link = known.links.find((l) => l.supplierId === supplierId);
  if (link) return { packSize: link.packSize, priceMinor: link.priceMinor, as: 'seller' };
  const { packSize } = known.item;
  const last = known.movements.find((m) => m.reason === 'delivery' && m.amount > 0 && m.valueMinor > 0);
  if (!last) return { packSize, priceMinor: null, as: 'unknown' };
  return { packSize, priceMinor: Math.round((last.valueMinor * packSize) / last.amount), as: 'last' };
}
