import type { ReactNode } from 'react';
import { hoursMinutes } from '#core/shared/text/format.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Table } from '../../ui/Table.tsx';
import { type HeatRow, minutesOf, PARTS } from './parts.ts';

/** The heat as figures, to the minute: all that it shows, added up per bay and technician. */
export function HeatTable(props: { readonly rows: readonly HeatRow[] }): ReactNode {
  const t = useText();
  const manner = useManner();
  const closed = (row: HeatRow): number => row.cells.reduce((sum, cell) => sum + cell.closedMin, 0);
  return (
    <Table<HeatRow>
      label={t('figures.heat')}
      rows={props.rows}
      rowKey={(row) => row.key}
      columns={[
        { key: 'name', head: t('figures.who'), cell: (row) => row.name },
        ...PARTS.map((part) => ({
          key: part,
          head: t(`figures.part.${part}`),
          align: 'right' as const,
          cell: (row: HeatRow) => hoursMinutes(manner, minutesOf(row.total, part)),
        })),
        {
          key: 'open',
          head: t('figures.available'),
          align: 'right',
          cell: (row) => hoursMinutes(manner, row.total.availableMin),
        },
        {
          key: 'closed',
          head: t('figures.part.closed'),
          align: 'right',
          cell: (row) => hoursMinutes(manner, closed(row)),
        },
      ]}
    />
  );
}
