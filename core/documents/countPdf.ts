import { amountOf } from '../shared/text/format.ts';
import { amountText, type Manner, mannerFor } from '../shared/text/manner.ts';
import { say } from '../shared/text/say.ts';
import { date, dayOf } from '../shared/text/when.ts';
import type { SellerView } from '../shared/views/billing.ts';
import type { CountPlan, CountPlanRow } from '../shared/views/stockCounts.ts';
import { openLetter, small } from './letter.ts';
import { finishPdf, space } from './pdfKit.ts';
import { table } from './pdfTable.ts';

/** Room to write a figure in. */
const BLANK = '…………………';

/** The day's count as a page to take along the shelves. The book is left out: who counts should not know it. */
export async function countPdf(plan: CountPlan, shop: SellerView, createdMs: number): Promise<Uint8Array> {
  const manner = mannerFor(shop);
  const { locale } = manner;
  const under = [date(manner, plan.today)];
  const pdf = openLetter(shop, { title: say(locale, 'stock.file.count'), under, createdMs }, manner);
  small(pdf, say(locale, 'stock.file.countText'));
  space(pdf, 10);
  table(
    pdf,
    [
      { title: say(locale, 'stock.file.place'), share: 2 },
      { title: say(locale, 'stock.file.item'), share: 5 },
      { title: say(locale, 'stock.file.pack'), share: 3 },
      { title: say(locale, 'stock.file.lastCount'), share: 3 },
      { title: say(locale, 'stock.file.counted'), share: 3, align: 'right' },
    ],
    plan.rows.map((row) => ({ cells: cellsOf(row, manner, createdMs) })),
  );
  return finishPdf(pdf);
}

function cellsOf(row: CountPlanRow, manner: Manner, nowMs: number): string[] {
  const last = row.lastCountMs === null ? '' : dayOf(manner, row.lastCountMs, nowMs);
  const pack = `${amountText(amountOf(manner, row.unit, row.packSize))} ${row.packWord}`;
  const { unit } = amountOf(manner, row.unit, row.packSize);
  return [row.place, row.itemName, pack, last, `${BLANK} ${unit}`.trim()];
}
