import { stringify } from 'csv-stringify/sync';
import { currencyDigits } from '../shared/money.ts';
import {
  COUNT_COLUMNS,
  ITEM_COLUMNS,
  type ItemColumn,
  type ItemLine,
  LIST_UNITS,
  listAmount,
} from '../shared/stockList.ts';
import { minorToDecimal } from '../shared/text/format.ts';
import type { PurchaseOrderRow } from '../shared/views/stock.ts';
import type { CountPlanRow } from '../shared/views/stockCounts.ts';
import { cellText } from './csvText.ts';

/** Units by their everyday word, amounts in it. */
function shownCell(item: ItemLine, c: ItemColumn): ItemLine[ItemColumn] {
  if (c === 'unit') return LIST_UNITS[item.unit].word as ItemLine['name'];
  return c === 'packSize' ? listAmount(item.packSize, item.unit) : item[c];
}

/** All items in the form that can be read back. @source RFC 4180 */
export function itemsCsv(items: readonly ItemLine[]): string {
  const rows = items.map((item) =>
    ITEM_COLUMNS.map((c) => {
      const value = shownCell(item, c);
      return typeof value === 'string' ? cellText(value) : value === null ? '' : String(value);
    }),
  );
  return stringify(rows, { header: true, columns: [...ITEM_COLUMNS], record_delimiter: '\r\n' });
}

/** A purchase order for the supplier's own program; packs in ml, g, m or pieces, prices before tax. @source RFC 4180 */
export function orderCsv(order: PurchaseOrderRow, currency: string): string {
  const digits = currencyDigits(currency);
  const rows = order.lines
    .filter((l) => l.packs > l.cancelledPacks)
    .map((l) => [
      String(order.number),
      cellText(l.supplierCode),
      cellText(l.itemName),
      listAmount(l.packSize, l.unit),
      LIST_UNITS[l.unit].word,
      String(l.packs - l.cancelledPacks),
      minorToDecimal(l.priceMinor, digits),
      currency,
    ]);
  return stringify(rows, {
    header: true,
    columns: ['order', 'code', 'item', 'pack', 'unit', 'packs', 'price', 'currency'],
    record_delimiter: '\r\n',
  });
}

/** The day's count list to fill in: amounts go into the last column, in the unit beside it. @source RFC 4180 */
export function countCsv(rows: readonly CountPlanRow[]): string {
  const lines = rows.map((r) => [
    cellText(r.itemName),
    cellText(r.barcode),
    cellText(r.place),
    LIST_UNITS[r.unit].word,
    String(r.asOfMovementId),
    '',
  ]);
  return stringify(lines, { header: true, columns: [...COUNT_COLUMNS], record_delimiter: '\r\n' });
}
