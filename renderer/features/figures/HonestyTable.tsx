import type { ReactNode } from 'react';
import { count, hours } from '#core/shared/text/format.ts';
import type { HonestyRow } from '#core/shared/views/figures.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Table } from '../../ui/Table.tsx';
import { nameOf, signed } from './Either.tsx';

/** The tape's groups as plain figures. */
export function HonestyTable(props: { readonly rows: readonly HonestyRow[] }): ReactNode {
  const t = useText();
  const manner = useManner();
  const right = 'right' as const;
  return (
    <Table<HonestyRow>
      label={t('figures.honest')}
      rows={props.rows}
      rowKey={(row) => row.key}
      columns={[
        { key: 'name', head: t('figures.group'), cell: (row) => nameOf(t, row) },
        { key: 'n', head: t('figures.stages'), align: right, cell: (row) => count(manner, row.stages) },
        {
          key: 'said',
          head: t('figures.estimatedHours'),
          align: right,
          cell: (row) => hours(manner, row.estimatedMin).value,
        },
        {
          key: 'took',
          head: t('figures.actualHours'),
          align: right,
          cell: (row) => hours(manner, row.actualMin).value,
        },
        {
          key: 'drift',
          head: t('figures.drift'),
          align: right,
          cell: (row) => `${signed(manner, row.driftPpm / 10_000 - 100)} %`,
        },
        { key: 'kept', head: t('figures.keptShare'), align: right, cell: (row) => count(manner, row.within) },
      ]}
    />
  );
}
