import type { ReactNode } from 'react';
import { hours } from '#core/shared/text/format.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Table } from '../../ui/Table.tsx';

import { type BayWeeks, minutesOf, PARTS } from './parts.ts';

/** The strips as figures. */
export function HoursTable(props: { readonly bays: readonly BayWeeks[] }): ReactNode {
  const t = useText();
  const manner = useManner();
  return (
    <Table
      label={t('figures.bayHours')}
      rows={props.bays}
      rowKey={(bay) => bay.bayId}
      columns={[
        { key: 'bay', head: t('figures.bay'), cell: (bay) => bay.name },
        ...PARTS.map((part) => ({
          key: part,
          head: t(`figures.part.${part}`),
          align: 'right' as const,
          cell: (bay: BayWeeks) => hours(manner, minutesOf(bay.total, part)).value,
        })),
        {
          key: 'open',
          head: t('figures.sum'),
          align: 'right',
          cell: (bay) => hours(manner, bay.total.availableMin).value,
        },
      ]}
    />
  );
}
