import { type ReactNode, useState } from 'react';
import { amountOf } from '#core/shared/text/format.ts';
import { amountText } from '#core/shared/text/manner.ts';
import { dayText } from '#core/shared/text/when.ts';
import type { OpenCountView, PurchaseOrderRow, StockBoard } from '#core/shared/views/stock.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton, LinkTo } from '../../ui/Button.tsx';
import { Head, Stack } from '../../ui/Layout.tsx';
import { CountForm } from './CountForm.tsx';
import { packsText } from './looks.ts';

/** Counts that the book asks for, or somebody did. */
export function CountsToDo(props: { readonly board: StockBoard }): ReactNode {
  const t = useText();
  const { counts } = props.board;
  if (counts.length === 0) return null;
  return (
    <section aria-label={t('stock.ui.counts')}>
      <Head level={3} title={t('stock.ui.counts')} note={String(counts.length)} />
      <Stack gap={1}>
        {counts.map((c) => (
          <CountLine key={c.id} count={c} />
        ))}
      </Stack>
    </section>
  );
}

function CountLine(props: { readonly count: OpenCountView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const [open, setOpen] = useState(false);
  const { count } = props;
  const book = amountText(amountOf(manner, count.unit, count.book));
  return (
    <div className="lit" data-count={count.itemId}>
      <p>
        <b>{count.itemName}</b>{' '}
        <span className="quiet">
          {t('stock.ui.countWhy', {
            why: count.why,
            book,
            place: count.place === '' ? '' : `, ${count.place}`,
          })}
        </span>
      </p>
      {open ? (
        <CountForm itemId={count.itemId} onDone={() => setOpen(false)} />
      ) : (
        <LinkButton onPress={() => setOpen(true)}>{t('stock.ui.countNow')}</LinkButton>
      )}
    </div>
  );
}

/** Orders of which something is still due. */
export function OnItsWay(props: { readonly board: StockBoard }): ReactNode {
  const t = useText();
  const { orders } = props.board;
  if (orders.length === 0) return null;
  return (
    <section aria-label={t('stock.ui.onItsWay')}>
      <Head level={3} title={t('stock.ui.onItsWay')} />
      <Stack gap={1}>
        {orders.map((order) => (
          <Coming key={order.id} order={order} />
        ))}
      </Stack>
    </section>
  );
}

function Coming(props: { readonly order: PurchaseOrderRow }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { order } = props;
  const due = order.lines.filter((l) => l.packs > l.receivedPacks + l.cancelledPacks);
  const first = due[0];
  const what = first
    ? `${first.itemName}, ${packsText(manner, first.packs, first.packSize, first.unit)}`
    : '';
  return (
    <p className={order.late ? 'lit' : 'quiet'}>
      <LinkTo to={`/stock/orders/${order.id}`}>{t('stock.ui.orderNumber', { number: order.number })}</LinkTo>{' '}
      {t('stock.ui.comingLine', {
        what,
        more: due.length - 1,
        supplier: order.supplierName,
        day: dayText(manner, order.dueDay),
        late: order.late ? 'yes' : 'no',
        part: order.state === 'part' ? 'yes' : 'no',
      })}
    </p>
  );
}
