import type { LocalDay } from '#core/shared/units.ts';
import type { PurchaseOrderLineView } from '#core/shared/views/stock.ts';

/** What came of one line now: as ordered until somebody says otherwise. */
export type Came = {
  readonly packs: number | null;
  readonly packSize: number;
  readonly priceMinor: number;
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
