import type { ReactNode } from 'react';
import { money } from '#core/shared/text/format.ts';
import type { MoneyDesk } from '#core/shared/views/moneyDesk.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkTo } from '../../ui/Button.tsx';
import { Head } from '../../ui/Layout.tsx';
import { Refusal, Waiting } from '../../ui/States.tsx';
import css from './figures.module.css';

/** What is owed to the shop, and what it should order today; both open in their own place. */
export function OwedAndOrder(props: { readonly money: MoneyDesk }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { ageing, depositsMinor } = props.money;
  const overdue = ageing.owedMinor - ageing.notDueMinor;
  const facts = [
    { key: 'owed', label: t('figures.owed'), value: ageing.owedMinor, lit: false },
    { key: 'overdue', label: t('figures.overdue'), value: overdue, lit: overdue > 0 },
    { key: 'deposits', label: t('figures.deposits'), value: depositsMinor, lit: false },
  ];
  return (
    <section aria-label={t('figures.rest')}>
      <Head title={t('figures.rest')}>
        <LinkTo to="/money" quiet>
          {t('figures.openMoney')}
        </LinkTo>
      </Head>
      <dl className={css['facts']}>
        {facts.map((f) => (
          <div key={f.key} data-lit={f.lit}>
            <dt>{f.label}</dt>
            <dd>{money(manner, f.value)}</dd>
          </div>
        ))}
      </dl>
      <ToOrder />
    </section>
  );
}

function ToOrder(): ReactNode {
  const t = useText();
  const board = useQuery('stock.showBoard', {});
  const lines =
    board.data?.suggestions.flatMap((s) => s.lines.map((line) => ({ supplier: s.supplierName, ...line }))) ??
    [];
  return (
    <>
      <Head level={3} title={t('figures.order')}>
        <LinkTo to="/stock" quiet>
          {t('figures.openStock')}
        </LinkTo>
      </Head>
      <Refusal refusal={board.error} />
      {board.loading ? <Waiting /> : null}
      {board.data && lines.length === 0 ? <p className={css['say']}>{t('figures.orderNothing')}</p> : null}
      <ul className={css['orders']}>
        {lines.slice(0, 6).map((line) => (
          <li key={line.itemId}>
            <span>{line.itemName}</span>
            <b>{t('figures.orderPacks', { packs: line.packs })}</b>
            <span className={css['supplier']}>{line.supplier}</span>
          </li>
        ))}
      </ul>
    </>
  );
}
