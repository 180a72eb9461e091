import { amountOf, count, money, moneyPlain } from '../shared/text/format.ts';
import { amountText, type Manner, mannerFor } from '../shared/text/manner.ts';
import { say } from '../shared/text/say.ts';
import { date } from '../shared/text/when.ts';
import type { SellerView } from '../shared/views/billing.ts';
import type { PurchaseOrderLineView, PurchaseOrderRow } from '../shared/views/stock.ts';
import { openLetter, small } from './letter.ts';
import { finishPdf, paragraph, space } from './pdfKit.ts';
import { table } from './pdfTable.ts';

/** A purchase order as a letter to the supplier. Prices are before tax, as agreed when it was made. */
export async function orderPdf(
  order: PurchaseOrderRow,
  shop: SellerView,
  createdMs: number,
): Promise<Uint8Array> {
  const manner = mannerFor(shop);
  const { locale } = manner;
  const title = say(locale, 'stock.file.order', { number: order.number });
  const days = { day: date(manner, order.orderedDay), due: date(manner, order.dueDay) };
  const under = [say(locale, 'stock.file.day', days)];
  const pdf = openLetter(shop, { title, under, createdMs }, manner);
  small(pdf, say(locale, 'stock.file.to'));
  paragraph(pdf, order.supplierName, { style: 'strong' });
  if (order.supplierEmail !== '') paragraph(pdf, order.supplierEmail);
  if (order.note !== '') {
    space(pdf, 10);
    paragraph(pdf, order.note);
  }
  space(pdf, 14);
  table(
    pdf,
    [
      { title: say(locale, 'stock.file.item'), share: 5 },
      { title: say(locale, 'stock.file.code'), share: 2 },
      { title: say(locale, 'stock.file.pack'), share: 3, align: 'right' },
      { title: say(locale, 'stock.file.packs'), share: 1, align: 'right' },
      { title: say(locale, 'stock.file.price'), share: 2, align: 'right' },
      { title: say(locale, 'stock.file.sum'), share: 2, align: 'right' },
    ],
    [
      ...order.lines.filter((l) => l.packs > l.cancelledPacks).map((l) => ({ cells: cellsOf(l, manner) })),
      {
        cells: [say(locale, 'stock.file.total'), '', '', '', '', money(manner, order.totalMinor)],
        style: 'strong' as const,
        rule: 'strong' as const,
      },
    ],
  );
  return finishPdf(pdf);
}

function cellsOf(line: PurchaseOrderLineView, manner: Manner): string[] {
  const packs = line.packs - line.cancelledPacks;
  return [
    line.itemName,
    line.supplierCode,
    `${amountText(amountOf(manner, line.unit, line.packSize))} ${line.packWord}`,
    count(manner, packs),
    moneyPlain(manner, line.priceMinor),
    moneyPlain(manner, packs * line.priceMinor),
  ];
}
