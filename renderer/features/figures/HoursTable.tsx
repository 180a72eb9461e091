import type { ReactNode } from 'react';
import { hoursMinutes } from '#core/shared/text/format.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Table } from '../../ui/Table.tsx';

import { type BayWeeks, minutesOf, PARTS } from './parts.ts';

/** The strips as figures, to the minute: the parts of a bay add up as printed. */
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
          cell: (bay: BayWeeks) => hoursMinutes(manner, minutesOf(bay.total, part)),
        })),
        {
          key: 'open',
          head: t('figures.sum'),
          align: 'right',
          cell: (bay) => hoursMinutes(manner, bay.total.availableMin),
        },
      ]}
    />
  );
}
