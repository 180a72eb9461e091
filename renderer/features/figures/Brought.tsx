import type { ReactNode } from 'react';
import { currencyDigits } from '#core/shared/money.ts';
import { count, hours, moneyPlain } from '#core/shared/text/format.ts';
import type { Manner } from '#core/shared/text/manner.ts';
import type { MoneyRow, MoneySums } from '#core/shared/views/figuresMoney.ts';
import { type Say, useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { Head } from '../../ui/Layout.tsx';
import { type Column, Table } from '../../ui/Table.tsx';
import css from './figures.module.css';
import { knowsLabour } from './parts.ts';

type Cell = { readonly key: string; readonly head: string; readonly of: (sums: MoneySums) => string };

function cells(t: Say, manner: Manner, labour: boolean): readonly Cell[] {
  const money = (minor: number | null): string => (minor === null ? '–' : moneyPlain(manner, minor));
  const whole = (minor: number): string => count(manner, minor / 10 ** currencyDigits(manner.currency));
  return [
    { key: 'jobs', head: t('figures.jobs'), of: (s) => count(manner, s.jobs) },
    { key: 'net', head: t('figures.net'), of: (s) => whole(s.netMinor) },
    { key: 'material', head: t('figures.materials'), of: (s) => whole(s.materialMinor) },
    ...(labour
      ? [{ key: 'labour', head: t('figures.labour'), of: (s: MoneySums) => whole(s.labourMinor) }]
      : []),
    { key: 'worked', head: t('figures.workedHours'), of: (s) => hours(manner, s.workedMin).value },
    { key: 'hour', head: t('figures.perWorked'), of: (s) => money(s.perHourMinor) },
    { key: 'bay', head: t('figures.perBay'), of: (s) => money(s.perBayHourMinor) },
  ];
}

/** What jobs brought by kind or technician; the rows sum to the line below them. */
export function Brought<R extends MoneyRow<string>>(props: {
  readonly title: string;
  readonly rows: readonly R[];
  readonly total: MoneySums;
  readonly nameOf: (row: R) => string;
  readonly busy: boolean;
  readonly onCsv: () => void;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const figures = cells(t, manner, knowsLabour(props.total));
  const columns: readonly Column<R>[] = [
    {
      key: 'name',
      head: '',
      cell: (row) => (
        <span className={css['kindName']} title={props.nameOf(row)}>
          {props.nameOf(row)}
        </span>
      ),
    },
    ...figures.map((f) => ({
      key: f.key,
      head: f.head,
      align: 'right' as const,
      cell: (row: R) => f.of(row),
    })),
  ];
  return (
    <section aria-label={props.title}>
      <Head
        title={props.title}
        note={t('figures.whole', { jobs: props.total.jobs, currency: manner.currency })}
      >
        <LinkButton
          quiet
          busy={props.busy}
          label={t('figures.csvOf', { title: props.title })}
          onPress={props.onCsv}
        >
          {t('figures.csv')}
        </LinkButton>
      </Head>
      <Table<R>
        label={props.title}
        rows={props.rows}
        rowKey={(row) => row.key}
        columns={columns}
        sum={[t('figures.all.jobs'), ...figures.map((f) => f.of(props.total))]}
      />
    </section>
  );
}
