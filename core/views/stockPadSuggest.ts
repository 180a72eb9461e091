import type { Minor } from '../shared/units.ts';
import type { SuggestionView, SupplierView } from '../shared/views/stock.ts';
import type { SentenceValue } from '../shared/views/stockSentence.ts';
import { packPrice } from '../stock/rules/quantity.ts';
import type { Outlook } from './stockOutlook.ts';
import type { PadLook } from './stockPads.ts';
import type { Link } from './stockSuppliers.ts';

/** Pieces to order when even washing every night leaves a day short; null when it does not. */
export function padSuggestion(
  of: Outlook,
  pad: PadLook,
  supplier: SupplierView,
  link: Link,
): SuggestionView | null {
  const { row } = pad;
  const { onOrder } = of;
  const lacking = pad.lacking - onOrder;
  if (lacking <= 0 || !row.shortage) return null;
  const packs = Math.ceil(lacking / link.packSize);
  const priceMinor = packPrice(packs, link.priceMinor, link.breaks) as Minor;
  return {
    itemId: row.itemId,
    itemName: row.itemName,
    supplierId: supplier.id,
    packs,
    packSize: link.packSize,
    packWord: of.item.packWord,
    unit: of.item.unit,
    packPriceMinor: priceMinor,
    totalMinor: (packs * priceMinor) as Minor,
    sentence: {
      key: 'stock.say.pads',
      values: {
        order: { is: 'packs', packs, packSize: link.packSize, unit: of.item.unit },
        item: row.itemName,
        customer: row.shortage.customer,
        needs: row.shortage.needs,
        has: row.shortage.has,
        day: { is: 'day', day: row.shortage.day },
      },
    },
    because: null,
    conflicts: [],
    reason: reasonOf(pad, onOrder, priceMinor),
  };
}

function reasonOf(pad: PadLook, onOrder: number, priceMinor: Minor): SuggestionView['reason'] {
  const { row } = pad;
  const plain = (key: string, value: SentenceValue) => ({ key: `stock.in.${key}`, value });
  return {
    inputs: [
      plain('clean', row.clean),
      plain('round', pad.round),
      plain('onOrder', onOrder),
      plain('usesPerLife', row.usesPerLife),
      plain('learnedFrom', row.learnedFrom),
      plain('washDays', pad.wash.days),
      plain('lacking', pad.lacking),
      plain('price', { is: 'money', minor: priceMinor }),
    ],
    rule: 'stock.rule.pads',
    source: 'stock.source.pads',
  };
}
