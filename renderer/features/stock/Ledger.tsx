import { type ReactNode, useState } from 'react';
import { amountOf, moneyPlain } from '#core/shared/text/format.ts';
import { amountText, type Manner } from '#core/shared/text/manner.ts';
import { clock, dayOf, when } from '#core/shared/text/when.ts';
import type { MovementView, StockItemPage } from '#core/shared/views/stockItem.ts';
import type { BaseUnit } from '#core/shared/vocabulary.ts';
import { type Say, useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton, LinkTo } from '../../ui/Button.tsx';
import { Head } from '../../ui/Layout.tsx';
import { type Column, Table } from '../../ui/Table.tsx';
import { CorrectDraw } from './CorrectDraw.tsx';

/** The latest lines of an item's ledger. */
export function Ledger(props: { readonly page: StockItemPage }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { movements, item } = props.page;
  const [correcting, setCorrecting] = useState<number | null>(null);
  const chosen = movements.find((m) => m.id === correcting);
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
      cell: (m) => <What of={m} unit={item.unit} onCorrect={() => setCorrecting(m.id)} />,
    },
    ...whose(t),
    ...figures(t, manner, item.unit),
  ];
  return (
    <section aria-label={t('stock.ui.ledger')}>
      <Head title={t('stock.ui.ledger')} note={t('stock.ui.ledgerNote', { count: movements.length })} />
      {chosen && chosen.drawn !== null ? (
        <CorrectDraw
          key={chosen.id}
          of={chosen}
          drawn={chosen.drawn}
          unit={item.unit}
          onDone={() => setCorrecting(null)}
        />
      ) : null}
      <Table label={t('stock.ui.ledger')} columns={columns} rows={movements} rowKey={(m) => String(m.id)} />
    </section>
  );
}

function whose(t: Say): readonly Column<MovementView>[] {
  return [
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
  ];
}

function figures(t: Say, manner: Manner, unit: BaseUnit): readonly Column<MovementView>[] {
  return [
    {
      key: 'amount',
      head: t('stock.ui.amount'),
      width: '104px',
      align: 'right',
      cell: (m) => (m.amount === 0 ? '' : amountText(amountOf(manner, unit, m.amount))),
    },
    {
      key: 'value',
      head: t('stock.ui.value'),
      width: '88px',
      align: 'right',
      cell: (m) => moneyPlain(manner, m.valueMinor),
    },
  ];
}

/** Why the line is there; of a draw what it comes to by now, and the way to correct it. */
function What(props: {
  readonly of: MovementView;
  readonly unit: BaseUnit;
  readonly onCorrect: () => void;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const { of, unit } = props;
  const { drawn } = of;
  const amount = (value: number): string => amountText(amountOf(manner, unit, value));
  return (
    <>
      {t('stock.ui.reason', { reason: of.correctsId === null ? of.reason : 'corrected' })}{' '}
      {drawn === null || drawn === -of.amount ? null : (
        <span className="quiet">{t('stock.ui.drawnNow', { amount: amount(drawn) })} </span>
      )}
      <span className="dusty">{of.note}</span>
      {drawn === null ? null : (
        <LinkButton
          quiet
          label={t('stock.ui.correctLabel', {
            amount: amount(drawn),
            when: when(manner, of.atMs, Date.now()),
          })}
          onPress={props.onCorrect}
        >
          {t('stock.ui.correct')}
        </LinkButton>
      )}
    </>
  );
}
