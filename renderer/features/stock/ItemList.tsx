import type { ReactNode } from 'react';
import { isOut } from '#core/shared/stockList.ts';
import { amountOf, money } from '#core/shared/text/format.ts';
import { amountText } from '#core/shared/text/manner.ts';
import { dayText } from '#core/shared/text/when.ts';
import { addLocalDays, localDaysBetween } from '#core/shared/time.ts';
import type { StockBoard, StockItemRow } from '#core/shared/views/stock.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { RunOut } from '../../ui/charts/RunOut.tsx';
import css from './stock.module.css';

/** What is used up, each item with its way forward on one axis of days. */
export function ItemList(props: {
  readonly board: StockBoard;
  readonly items: readonly StockItemRow[];
}): ReactNode {
  const t = useText();
  return (
    <>
      <Axis board={props.board} />
      <ul className={css['items']} aria-label={t('stock.ui.items')}>
        {props.items.map((item) => (
          <li key={item.id}>
            <ItemLine item={item} board={props.board} />
          </li>
        ))}
      </ul>
    </>
  );
}

function Axis(props: { readonly board: StockBoard }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { today, horizonDays } = props.board;
  const at = (share: number): string =>
    dayText(manner, addLocalDays(today, Math.round(share * (horizonDays - 1))));
  return (
    <div className={css['head']} aria-hidden="true">
      <span>{t('stock.ui.item')}</span>
      <span className="right">{t('stock.ui.onHand')}</span>
      <span className="right">{t('stock.ui.booked')}</span>
      <span className={css['axis']}>
        <i>{t('stock.ui.now')}</i>
        <i data-at="half">{at(1 / 2)}</i>
        <i data-at="end">{at(1)}</i>
      </span>
      <span>{t('stock.ui.runsOut')}</span>
    </div>
  );
}

function ItemLine(props: { readonly item: StockItemRow; readonly board: StockBoard }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { item, board } = props;
  const onHand = amountOf(manner, item.unit, item.onHand);
  const booked = amountOf(manner, item.unit, item.booked);
  const pack = amountText(amountOf(manner, item.unit, item.packSize));
  const price = item.packPriceMinor === null ? '' : money(manner, item.packPriceMinor);
  return (
    <a className={css['item']} href={`#/stock/items/${item.id}`} data-lit={item.needsHand}>
      <span className={css['name']} title={item.name}>
        <b className="cut">{item.name}</b>
        <span className="t1 quiet cut">
          {item.countOpen ? <span className="lamp">{t('stock.ui.countIt')} </span> : null}
          {t('stock.ui.packLine', { pack, word: item.packWord, price })}
        </span>
      </span>
      <span className="right num">
        <span className="unseen">{t('stock.ui.onHand')} </span>
        <b>{onHand.value}</b>
        <span className="unit">{onHand.unit}</span>
      </span>
      <span className="right num">
        <span className="unseen">{t('stock.ui.booked')} </span>
        {booked.value}
        <span className="unit">{booked.unit}</span>
      </span>
      <span>
        <Forward item={item} board={board} />
      </span>
      <RunsOut item={item} board={board} />
    </a>
  );
}

/** The day on which the item runs out, or that it is out already. */
function RunsOut(props: { readonly item: StockItemRow; readonly board: StockBoard }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { item, board } = props;
  const end = addLocalDays(board.today, board.horizonDays - 1);
  const orderBy = item.orderByDay !== null && item.orderByDay > board.today ? item.orderByDay : null;
  if (isOut(item))
    return <span className={item.needsHand ? 'lamp strong' : 'quiet'}>{t('stock.ui.outNow')}</span>;
  return (
    <span className={item.needsHand && item.runOutDay ? 'lamp num strong' : 'num quiet'}>
      <span className="unseen">{t('stock.ui.runsOut')} </span>
      {item.runOutDay ? dayText(manner, item.runOutDay) : t('stock.ui.after', { day: dayText(manner, end) })}
      {orderBy ? (
        <span className={css['orderBy']}>{t('stock.ui.orderBy', { day: dayText(manner, orderBy) })}</span>
      ) : null}
    </span>
  );
}

/** The run-out chart of one item. */
export function Forward(props: {
  readonly item: StockItemRow;
  readonly board: Pick<StockBoard, 'today' | 'horizonDays'>;
  readonly height?: number;
}): ReactNode {
  const t = useText();
  const { item, board } = props;
  const at = (day: (typeof item.arrivals)[number]): number => localDaysBetween(board.today, day);
  return (
    <RunOut
      label={t('stock.ui.forward', { item: item.name })}
      from={0}
      to={board.horizonDays - 1}
      points={item.series.mid.map((level, k) => ({
        at: k,
        level,
        low: item.series.low[k] ?? level,
        high: item.series.high[k] ?? level,
      }))}
      reorder={item.reorderPoint > 0 ? item.reorderPoint : null}
      outAt={item.runOutDay ? at(item.runOutDay) : null}
      arrivals={item.arrivals.map(at)}
      height={props.height ?? 40}
    />
  );
}
