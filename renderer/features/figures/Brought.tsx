import type { ReactNode } from 'react';
import { count, hours, moneyPlain } from '#core/shared/text/format.ts';
import type { Manner } from '#core/shared/text/manner.ts';
import type { MoneyRow, MoneySums } from '#core/shared/views/figuresMoney.ts';
import { type Say, useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { Head } from '../../ui/Layout.tsx';
import { type Column, Table } from '../../ui/Table.tsx';
import css from './figures.module.css';

type Cell = { readonly key: string; readonly head: string; readonly of: (sums: MoneySums) => string };

function cells(t: Say, manner: Manner): readonly Cell[] {
  const money = (minor: number | null): string => (minor === null ? '–' : moneyPlain(manner, minor));
  return [
    { key: 'jobs', head: t('figures.jobs'), of: (s) => count(manner, s.jobs) },
    { key: 'net', head: t('figures.net'), of: (s) => money(s.netMinor) },
    { key: 'material', head: t('figures.materials'), of: (s) => money(s.materialMinor) },
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
  const figures = cells(t, manner);
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
      <Head title={props.title} note={t('figures.marginNote', { jobs: props.total.jobs })}>
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
