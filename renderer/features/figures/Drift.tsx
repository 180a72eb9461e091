import type { ReactNode } from 'react';
import { count } from '#core/shared/text/format.ts';
import { date } from '#core/shared/text/when.ts';
import type { HonestyPeriod, HonestyView } from '#core/shared/views/figures.ts';
import { useManner, useText, useToday } from '../../bridge/texts.tsx';
import { Columns } from '../../ui/charts/Columns.tsx';
import { Table } from '../../ui/Table.tsx';
import { Chart } from './Chart.tsx';
import { LIT_PPM, signed } from './Either.tsx';
import { periodHead, periodText } from './periods.ts';

/** Bias over time, and how many stayed within their longer time beside the eight in ten that should. */
export function Drift(props: {
  readonly view: HonestyView;
  readonly busy: boolean;
  readonly onCsv: () => void;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const today = useToday();
  const { overTime, by } = props.view;
  const percent = (value: number): string => `${count(manner, value)} %`;
  const drift = (p: HonestyPeriod): number => p.driftPpm / 10_000 - 100;
  const kept = (p: HonestyPeriod): number => (p.within / p.stages) * 100;
  const marks = (of: (p: HonestyPeriod) => number, lit: (p: HonestyPeriod) => boolean) =>
    overTime.map((p) => ({
      key: p.day,
      ...periodHead(manner, p, by),
      value: p.stages === 0 ? null : of(p),
      lit: p.stages > 0 && lit(p),
      said: t('figures.periodSaid', {
        ...{ when: periodText(manner, p, today), stages: p.stages, within: p.within },
        over: p.stages === 0 ? '–' : percent(drift(p)),
      }),
    }));
  return (
    <Chart
      title={t('figures.bias')}
      note={t(by === 'week' ? 'figures.biasByWeek' : 'figures.biasByMonth')}
      busy={props.busy}
      onCsv={props.onCsv}
      table={<DriftTable rows={overTime} />}
      chart={
        <>
          <Columns
            label={t('figures.bias')}
            format={percent}
            columns={marks(drift, (p) => Math.abs(p.driftPpm - 1_000_000) > LIT_PPM)}
          />
          <Columns
            label={t('figures.keptOver')}
            format={percent}
            line={{ at: 80, label: t('figures.keptLine') }}
            columns={marks(kept, (p) => kept(p) < 70)}
          />
        </>
      }
    />
  );
}

function DriftTable(props: { readonly rows: readonly HonestyPeriod[] }): ReactNode {
  const t = useText();
  const manner = useManner();
  const right = 'right' as const;
  return (
    <Table<HonestyPeriod>
      label={t('figures.bias')}
      rows={props.rows}
      rowKey={(row) => row.day}
      columns={[
        { key: 'day', head: t('figures.csv.from'), cell: (row) => date(manner, row.day) },
        { key: 'to', head: t('figures.csv.to'), cell: (row) => date(manner, row.toDay) },
        { key: 'n', head: t('figures.stages'), align: right, cell: (row) => count(manner, row.stages) },
        {
          key: 'over',
          head: t('figures.drift'),
          align: right,
          cell: (row) => `${signed(manner, row.driftPpm / 10_000 - 100)} %`,
        },
        { key: 'kept', head: t('figures.keptShare'), align: right, cell: (row) => count(manner, row.within) },
      ]}
    />
  );
}
