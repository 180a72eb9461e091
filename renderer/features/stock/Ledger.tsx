import type { ReactNode } from 'react';
import { amountOf, moneyPlain } from '#core/shared/text/format.ts';
import { amountText } from '#core/shared/text/manner.ts';
import { clock, dayOf } from '#core/shared/text/when.ts';
import type { MovementView, StockItemPage } from '#core/shared/views/stockItem.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkTo } from '../../ui/Button.tsx';
import { Head } from '../../ui/Layout.tsx';
import { type Column, Table } from '../../ui/Table.tsx';

/** The latest lines of an item's ledger. */
export function Ledger(props: { readonly page: StockItemPage }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { movements, item } = props.page;
  const columns: readonly Column<MovementView>[] = [
    {
      key: 'when',
      head: t('stock.ui.when'),
      width: '184px',
      cell: (m) => (
        <time>
          {dayOf(manner, m.atMs, Date.now())}, {clock(manner, m.atMs)}
        </time>
      ),
    },
    {
      key: 'what',
      head: t('stock.ui.whatWhy'),
      cell: (m) => (
        <>
          {t('stock.ui.reason', { reason: m.reason })} <span className="dusty">{m.note}</span>
        </>
      ),
    },
    {
      key: 'job',
      head: t('stock.ui.forJob'),
      width: '72px',
      cell: (m) => (m.jobId ? <LinkTo to={`/jobs/${m.jobId}`}>{m.jobNumber}</LinkTo> : ''),
    },
    {
      key: 'who',
      head: t('stock.ui.who'),
      width: '120px',
      cell: (m) => <span className="quiet">{m.person}</span>,
    },
    {
      key: 'amount',
      head: t('stock.ui.amount'),
      width: '104px',
      align: 'right',
      cell: (m) => (m.amount === 0 ? '' : amountText(amountOf(manner, item.unit, m.amount))),
    },
    {
      key: 'value',
      head: t('stock.ui.value'),
      width: '88px',
      align: 'right',
      cell: (m) => moneyPlain(manner, m.valueMinor),
    },
  ];
  return (
    <section aria-label={t('stock.ui.ledger')}>
      <Head title={t('stock.ui.ledger')} note={t('stock.ui.ledgerNote', { count: movements.length })} />
      <Table label={t('stock.ui.ledger')} columns={columns} rows={movements} rowKey={(m) => String(m.id)} />
    </section>
  );
}
