import type { ReactNode } from 'react';
import { hoursMinutes } from '#core/shared/text/format.ts';
import type { CellJobRow, UtilizationParts } from '#core/shared/views/figures.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText, useToday } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { Head } from '../../ui/Layout.tsx';
import { go } from '../../ui/router.ts';
import { Refusal, Waiting } from '../../ui/States.tsx';
import { Table } from '../../ui/Table.tsx';
import type { OpenCell } from './parts.ts';
import { periodText } from './periods.ts';
import { Strip } from './Strip.tsx';

const PARTS = ['attended', 'cure', 'waiting', 'blocked'] as const;

/** Somebody with two cars in hand: each has the minutes, and the cell has them once. */
function comesToMore(jobs: readonly CellJobRow[], cell: UtilizationParts): boolean {
  const minutes = (of: Pick<UtilizationParts, `${(typeof PARTS)[number]}Min`>): number =>
    PARTS.reduce((sum, part) => sum + of[`${part}Min`], 0);
  return jobs.reduce((sum, job) => sum + minutes(job), 0) > minutes(cell);
}

/** One cell of the heat: its parts as a strip, and the jobs behind them. */
export function CellJobs(props: { readonly open: OpenCell; readonly onClose: () => void }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { row, cell } = props.open;
  const { bayId, personId } = row;
  const view = useQuery('figures.cellJobs', { fromDay: cell.day, toDay: cell.toDay, bayId, personId });
  const days = periodText(manner, cell, useToday());
  return (
    <section aria-label={t('figures.cell', { name: row.name, when: days })}>
      <Head
        title={t('figures.cell', { name: row.name, when: days })}
        note={t('figures.cellOpen', { open: hoursMinutes(manner, cell.availableMin) })}
      >
        <LinkButton quiet onPress={props.onClose}>
          {t('figures.cellClose')}
        </LinkButton>
      </Head>
      <Strip parts={cell} ofMin={Math.max(1, cell.availableMin)} label={row.name} />
      <Refusal refusal={view.error} />
      {view.loading ? <Waiting /> : null}
      {view.data?.jobs.length === 0 ? <p className="quiet">{t('figures.cellNone')}</p> : null}
      {view.data && comesToMore(view.data.jobs, cell) ? (
        <p className="t1 dusty">{t('figures.cellTwice')}</p>
      ) : null}
      {view.data && view.data.jobs.length > 0 ? (
        <Table<CellJobRow>
          label={t('figures.cellJobs')}
          rows={view.data.jobs}
          rowKey={(job) => job.jobId}
          onOpen={(key) => go(`/jobs/${key}`)}
          columns={[
            {
              key: 'job',
              head: t('figures.job'),
              width: '64px',
              cell: (job) => <a href={`#/jobs/${job.jobId}`}>{job.jobNumber}</a>,
            },
            { key: 'who', head: t('figures.customer'), cell: (job) => job.customer },
            { key: 'car', head: t('figures.car'), cell: (job) => job.makeModel },
            ...PARTS.map((part) => ({
              key: part,
              head: t(`figures.part.${part}`),
              align: 'right' as const,
              width: '136px',
              cell: (job: CellJobRow) => hoursMinutes(manner, job[`${part}Min`]),
            })),
          ]}
        />
      ) : null}
    </section>
  );
}
