import type { ReactNode } from 'react';
import { moneyPlain } from '#core/shared/text/format.ts';
import type { LocalDay } from '#core/shared/units.ts';
import type { TipRow } from '#core/shared/views/statement.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Head } from '../../ui/Layout.tsx';
import { Refusal } from '../../ui/States.tsx';
import { type Column, Table } from '../../ui/Table.tsx';

/** Tips of a period by person. */
export function Tips(props: {
  readonly period: { readonly fromDay: LocalDay; readonly toDay: LocalDay };
  readonly when: boolean;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const tips = useQuery('billing.readTips', props.period, { when: props.when, keep: true });
  const columns: readonly Column<TipRow>[] = [
    { key: 'name', head: t('tips.person'), cell: (r) => r.name || t('invoice.tipShared') },
    { key: 'tips', head: t('tips.count'), align: 'right', cell: (r) => r.tips },
    { key: 'amount', head: t('tips.amount'), align: 'right', cell: (r) => moneyPlain(manner, r.amountMinor) },
  ];
  return (
    <section>
      <Head level={3} title={t('tips.title')} />
      <Refusal refusal={tips.error} />
      {tips.data?.rows.length === 0 ? <p className="quiet">{t('tips.none')}</p> : null}
      {tips.data && tips.data.rows.length > 0 ? (
        <Table
          label={t('tips.title')}
          columns={columns}
          rows={tips.data.rows}
          rowKey={(r) => r.personId ?? ''}
          sum={['', '', moneyPlain(manner, tips.data.amountMinor)]}
        />
      ) : null}
    </section>
  );
}
