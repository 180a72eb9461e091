import { stringify } from 'csv-stringify/sync';
import { currencyDigits } from '../shared/money.ts';
import { ITEM_COLUMNS, type ItemLine } from '../shared/stockList.ts';
import { minorToDecimal } from '../shared/text/format.ts';
import type { PurchaseOrderRow } from '../shared/views/stock.ts';

/** Lines of a text that a spreadsheet would run as a formula get an apostrophe in front. */
function safe(text: string): string {
  return /^[=+\-@\t\r]/.test(text) ? `'${text}` : text;
}

/** All items in the form that can be read back. @source RFC 4180 */
export function itemsCsv(items: readonly ItemLine[]): string {
  const rows = items.map((item) =>
    ITEM_COLUMNS.map((c) => {
      const value = item[c];
      return typeof value === 'string' ? safe(value) : value === null ? '' : String(value);
    }),
  );
  return stringify(rows, { header: true, columns: [...ITEM_COLUMNS], record_delimiter: '\r\n' });
}

/** A purchase order for the supplier's own program; amounts in base units, prices before tax. @source RFC 4180 */
export function orderCsv(order: PurchaseOrderRow, currency: string): string {
  const digits = currencyDigits(currency);
  const rows = order.lines
    .filter((l) => l.packs > l.cancelledPacks)
    .map((l) => [
      String(order.number),
      safe(l.supplierCode),
      safe(l.itemName),
      String(l.packSize),
      l.unit,
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
