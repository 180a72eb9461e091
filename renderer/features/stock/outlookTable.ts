import { toShown } from '#core/shared/amounts.ts';
import { unitWord } from '#core/shared/text/format.ts';
import type { Manner } from '#core/shared/text/manner.ts';
import { dayText } from '#core/shared/text/when.ts';
import { addLocalDays } from '#core/shared/time.ts';
import type { StockItemPage } from '#core/shared/views/stockItem.ts';
import type { Say } from '../../bridge/texts.tsx';
import type { ChartTable } from '../../ui/charts/csv.ts';

/** What the chart of an item's way forward draws, a row for each day: what is expected at its end, and what happens on it. */
export function outlookTable(page: Pick<StockItemPage, 'row' | 'today'>, t: Say, manner: Manner): ChartTable {
  const { row, today } = page;
  const style = { volume: manner.volumeUnit, length: manner.lengthUnit };
  const figure = (amount: number): number => Math.round(toShown(amount, row.unit, style).value * 10) / 10;
  const unit = unitWord(manner, row.unit) || t('stock.ui.pieces');
  return {
    columns: [
      t('stock.ui.atDay'),
      t('stock.ui.expectedIn', { unit }),
      t('stock.ui.lowIn', { unit }),
      t('stock.ui.highIn', { unit }),
      t('stock.ui.onThatDay'),
    ],
    rows: row.series.mid.map((mid, k) => {
      const day = addLocalDays(today, k);
      const comes = row.arrivals.includes(day) ? t('stock.ui.dayArrival') : '';
      const out = row.runOutDay === day ? t('stock.ui.dayOut') : '';
      return [
        dayText(manner, day),
        figure(mid),
        figure(row.series.low[k] ?? mid),
        figure(row.series.high[k] ?? mid),
        [comes, out].filter(Boolean).join(', '),
      ];
    }),
  };
}
