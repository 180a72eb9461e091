import type { ReactNode } from 'react';
import { currencyDigits } from '#core/shared/money.ts';
import { count, hours, money, moneyPlain } from '#core/shared/text/format.ts';
import { date } from '#core/shared/text/when.ts';
import type { MoneyFiguresView } from '#core/shared/views/figuresMoney.ts';
import { useManner, useText, useToday } from '../../bridge/texts.tsx';
import { Columns } from '../../ui/charts/Columns.tsx';
import { type Column, Table } from '../../ui/Table.tsx';
import { Chart } from './Chart.tsx';
import { knowsLabour } from './parts.ts';
import { periodHead, periodText } from './periods.ts';

type Period = MoneyFiguresView['overTime'][number];

/** The margin week by week or month by month. */
export function MarginOver(props: {
  readonly view: MoneyFiguresView;
  readonly busy: boolean;
  readonly onCsv: () => void;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const today = useToday();
  const { overTime, by, total } = props.view;
  const title = t('figures.marginOver', { labour: knowsLabour(total) });
  return (
    <Chart
      title={title}
      note={
        total.perBayHourMinor === null
          ? undefined
          : t('figures.perBayHour', { money: money(manner, total.perBayHourMinor) })
      }
      busy={props.busy}
      onCsv={props.onCsv}
      chart={
        <Columns
          label={title}
          format={(value) => count(manner, value / 10 ** currencyDigits(manner.currency))}
          columns={overTime.map((p) => ({
            key: p.day,
            ...periodHead(manner, p, by),
            value: p.jobs === 0 ? null : p.marginMinor,
            lit: p.marginMinor < 0,
            said: `${periodText(manner, p, today)}: ${money(manner, p.marginMinor)}`,
          }))}
        />
      }
      table={<PeriodTable title={title} view={props.view} />}
    />
  );
}

function PeriodTable(props: { readonly title: string; readonly view: MoneyFiguresView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { overTime, total } = props.view;
  const sum = (key: string, head: string, of: (p: Period) => number): Column<Period> => ({
    ...{ key, head, align: 'right' },
    cell: (p) => moneyPlain(manner, of(p)),
  });
  return (
    <Table<Period>
      label={props.title}
      rows={overTime}
      rowKey={(p) => p.day}
      columns={[
        { key: 'day', head: t('figures.csv.from'), cell: (p) => date(manner, p.day) },
        { key: 'to', head: t('figures.csv.to'), cell: (p) => date(manner, p.toDay) },
        sum('net', t('figures.net'), (p) => p.netMinor),
        sum('mat', t('figures.materials'), (p) => p.materialMinor),
        ...(knowsLabour(total) ? [sum('labour', t('figures.labour'), (p) => p.labourMinor)] : []),
        sum('margin', t('figures.marginWord'), (p) => p.marginMinor),
        {
          ...{ key: 'worked', head: t('figures.workedHours'), align: 'right' },
          cell: (p) => hours(manner, p.workedMin).value,
        },
      ]}
    />
  );
}
