import type { ReactNode } from 'react';
import { currencyDigits } from '#core/shared/money.ts';
import { count, hours, money, moneyPlain } from '#core/shared/text/format.ts';
import type { MoneyFiguresView } from '#core/shared/views/figuresMoney.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Columns } from '../../ui/charts/Columns.tsx';
import { Table } from '../../ui/Table.tsx';
import { Chart } from './Chart.tsx';
import { periodHead } from './Drift.tsx';

type Period = MoneyFiguresView['overTime'][number];

/** The margin week by week or month by month. */
export function MarginOver(props: {
  readonly view: MoneyFiguresView;
  readonly busy: boolean;
  readonly onCsv: () => void;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const { overTime, by, total } = props.view;
  const plain = (minor: number): string => moneyPlain(manner, minor);
  const right = 'right' as const;
  return (
    <Chart
      title={t('figures.marginOver')}
      note={
        total.perBayHourMinor === null
          ? undefined
          : t('figures.perBayHour', { money: money(manner, total.perBayHourMinor) })
      }
      busy={props.busy}
      onCsv={props.onCsv}
      chart={
        <Columns
          label={t('figures.marginOver')}
          format={(value) => count(manner, value / 10 ** currencyDigits(manner.currency))}
          columns={overTime.map((p) => ({
            key: p.day,
            head: periodHead(p, by),
            value: p.jobs === 0 ? null : p.marginMinor,
            lit: p.marginMinor < 0,
            said: `${p.day} – ${p.toDay}: ${money(manner, p.marginMinor)}`,
          }))}
        />
      }
      table={
        <Table<Period>
          label={t('figures.marginOver')}
          rows={overTime}
          rowKey={(p) => p.day}
          columns={[
            { key: 'day', head: t('figures.csv.from'), cell: (p) => p.day },
            { key: 'to', head: t('figures.csv.to'), cell: (p) => p.toDay },
            { key: 'net', head: t('figures.net'), align: right, cell: (p) => plain(p.netMinor) },
            { key: 'mat', head: t('figures.materials'), align: right, cell: (p) => plain(p.materialMinor) },
            { key: 'margin', head: t('figures.marginWord'), align: right, cell: (p) => plain(p.marginMinor) },
            {
              key: 'worked',
              head: t('figures.workedHours'),
              align: right,
              cell: (p) => hours(manner, p.workedMin).value,
            },
          ]}
        />
      }
    />
  );
}
