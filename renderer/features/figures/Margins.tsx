import type { ReactNode } from 'react';
import { hours, money, moneyPlain } from '#core/shared/text/format.ts';
import type { Manner } from '#core/shared/text/manner.ts';
import type { LocalDay } from '#core/shared/units.ts';
import type { JobMarginRow } from '#core/shared/views/figures.ts';
import { useQuery } from '../../bridge/queries.ts';
import { type Say, useManner, useText } from '../../bridge/texts.tsx';
import { Head } from '../../ui/Layout.tsx';
import { go } from '../../ui/router.ts';
import { Empty, Refusal, Waiting } from '../../ui/States.tsx';
import { type Column, Table } from '../../ui/Table.tsx';
import css from './figures.module.css';
import { knowsLabour } from './parts.ts';

/** The latest jobs that were collected; all of the range count in the sums. */
const SHOWN = 8;

/** What collected jobs brought: before tax, material at the ledger's cost, hours worked. */
export function Margins(props: { readonly fromDay: LocalDay; readonly toDay: LocalDay }): ReactNode {
  const t = useText();
  const manner = useManner();
  const view = useQuery('figures.margin', props);
  const jobs = view.data?.jobs ?? [];
  const labour = view.data ? knowsLabour(view.data) : false;
  const note = view.data ? t('figures.marginNote', { jobs: jobs.length }) : undefined;
  return (
    <section aria-label={t('figures.margin')}>
      <Head title={t('figures.margin')} note={note} />
      <Refusal refusal={view.error} />
      {view.loading ? <Waiting /> : null}
      {view.data && jobs.length === 0 ? <Empty title={t('figures.marginNone')} /> : null}
      {view.data && jobs.length > 0 ? (
        <>
          <p className={css['say']}>
            {t('figures.perHour', { money: money(manner, view.data.perHourMinor), labour })}
          </p>
          <Table<JobMarginRow>
            label={t('figures.margin')}
            rows={jobs.slice(-SHOWN).toReversed()}
            rowKey={(row) => row.jobId}
            onOpen={(key) => go(`/jobs/${key}`)}
            columns={marginColumns(t, manner, labour)}
            sum={[
              '',
              t('figures.all.jobs'),
              moneyPlain(manner, view.data.netMinor),
              moneyPlain(manner, view.data.materialMinor),
              ...(labour ? [moneyPlain(manner, view.data.labourMinor)] : []),
              hours(manner, view.data.workedMin).value,
            ]}
          />
        </>
      ) : null}
    </section>
  );
}

function marginColumns(t: Say, manner: Manner, labour: boolean): readonly Column<JobMarginRow>[] {
  return [
    {
      key: 'job',
      head: t('figures.job'),
      width: '52px',
      cell: (row) => <a href={`#/jobs/${row.jobId}`}>{row.jobNumber}</a>,
    },
    { key: 'who', head: '', cell: (row) => <span title={row.customer}>{row.customer}</span> },
    {
      key: 'net',
      head: t('figures.net'),
      align: 'right',
      width: '96px',
      cell: (row) => moneyPlain(manner, row.netMinor),
    },
    {
      key: 'material',
      head: t('figures.materials'),
      align: 'right',
      width: '84px',
      cell: (row) => moneyPlain(manner, row.materialMinor),
    },
    ...(labour ? [labourColumn(t, manner)] : []),
    {
      key: 'worked',
      head: t('figures.worked'),
      align: 'right',
      width: '56px',
      cell: (row) => hours(manner, row.workedMin).value,
    },
  ];
}

function labourColumn(t: Say, manner: Manner): Column<JobMarginRow> {
  return {
    key: 'labour',
    head: t('figures.labour'),
    align: 'right',
    width: '96px',
    cell: (row) => moneyPlain(manner, row.labourMinor),
  };
}
