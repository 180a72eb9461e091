import { type ReactNode, useState } from 'react';
import { isOut } from '#core/shared/stockList.ts';
import { amountOf } from '#core/shared/text/format.ts';
import { amountText } from '#core/shared/text/manner.ts';
import { dayText } from '#core/shared/text/when.ts';
import { addLocalDays } from '#core/shared/time.ts';
import type { StockItemPage } from '#core/shared/views/stockItem.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { ChartBox } from '../../ui/charts/ChartBox.tsx';
import { Stack } from '../../ui/Layout.tsx';
import { Forward } from './ItemList.tsx';
import { outlookTable } from './outlookTable.ts';
import { Reasoning } from './Said.tsx';
import css from './stock.module.css';

/** Where an item's stock goes: one sentence, the chart with its scale and days, and on demand how that is reckoned. */
export function ItemOutlook(props: { readonly page: StockItemPage; readonly days: number }): ReactNode {
  const t = useText();
  const manner = useManner();
  const [open, setOpen] = useState(false);
  const { page } = props;
  return (
    <Stack gap={2}>
      {page.idle ? (
        <p className="quiet">{t('stock.ui.idle', { round: page.item.reusable ? 'yes' : 'no' })}</p>
      ) : (
        <>
          <Sentence {...props} />
          <ChartBox
            title={t('stock.ui.dayByDay')}
            table={outlookTable(page, t, manner)}
            fileName="stock-ahead"
          >
            <Chart {...props} />
          </ChartBox>
        </>
      )}
      <p>
        <LinkButton quiet onPress={() => setOpen(!open)}>
          {open ? t('stock.ui.hideReasoning') : t('stock.ui.showReasoning')}
        </LinkButton>
      </p>
      {open ? <Reasoning reason={page.reason} /> : null}
    </Stack>
  );
}

type Props = { readonly page: StockItemPage; readonly days: number };

function Sentence({ page, days }: Props): ReactNode {
  const t = useText();
  const manner = useManner();
  const { row, today } = page;
  const amount = (value: number): string => amountText(amountOf(manner, row.unit, value));
  return (
    <p className={row.needsHand && row.runOutDay ? 'lamp' : ''}>
      {t('stock.ui.outlook', {
        out: isOut(row) ? 'now' : row.runOutDay ? 'yes' : 'no',
        day: dayText(manner, row.runOutDay ?? today),
        end: dayText(manner, addLocalDays(today, days - 1)),
        onHand: amount(row.onHand),
        coming: row.onOrder > 0 ? 'yes' : 'no',
        onOrder: amount(row.onOrder),
        booked: amount(row.booked),
      })}
      {row.orderByDay === null || row.reusable ? null : (
        <b>
          {' '}
          {t('stock.ui.orderByThen', {
            when: row.orderByDay > today ? 'later' : 'now',
            day: dayText(manner, row.orderByDay),
          })}
        </b>
      )}
    </p>
  );
}

/** The most the chart shows stands at its top, nothing at its foot; days below. */
function Chart({ page, days }: Props): ReactNode {
  const t = useText();
  const manner = useManner();
  const { row, today } = page;
  const most = Math.max(row.reorderPoint, ...row.series.high, 0);
  const at = (share: number): string => dayText(manner, addLocalDays(today, Math.round(share * (days - 1))));
  return (
    <div className={css['ahead']}>
      <span className={css['scale']} aria-hidden="true">
        <i>{amountText(amountOf(manner, row.unit, most))}</i>
        <i>0</i>
      </span>
      <Forward item={row} board={{ today, horizonDays: days }} height={96} />
      <span />
      <span className={css['axis']} aria-hidden="true">
        <i>{t('stock.ui.now')}</i>
        <i data-at="half">{at(1 / 2)}</i>
        <i data-at="end">{at(1)}</i>
      </span>
    </div>
  );
}
