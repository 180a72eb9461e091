import type { ReactNode } from 'react';
import { exact, when } from '#core/shared/text/when.ts';
import { MS_PER_MIN } from '#core/shared/units.ts';
import type { JobLine } from '#core/shared/views/people.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { go } from '../../ui/router.ts';
import { Empty } from '../../ui/States.tsx';
import { Table } from '../../ui/Table.tsx';

/** Visits, latest first; Enter opens the job. */
export function VisitTable(props: {
  readonly jobs: readonly JobLine[];
  readonly who: 'customer' | 'vehicle';
}): ReactNode {
  const t = useText();
  const manner = useManner();
  if (props.jobs.length === 0) return <Empty title={t('people.noVisits')} text={t('people.noVisitsText')} />;
  const at = (job: JobLine): number =>
    job.dropOffMin === null ? job.createdMs : job.dropOffMin * MS_PER_MIN;
  return (
    <Table
      label={t('people.visits')}
      rows={props.jobs}
      rowKey={(job) => job.id}
      onOpen={(id) => go(`/jobs/${id}`)}
      columns={[
        {
          key: 'number',
          head: t('people.jobNumber'),
          width: '72px',
          cell: (job) => <a href={`#/jobs/${job.id}`}>{job.number}</a>,
        },
        {
          key: 'when',
          head: t('people.when'),
          width: '160px',
          cell: (job) => <span title={exact(manner, at(job))}>{when(manner, at(job), Date.now())}</span>,
        },
        {
          key: 'what',
          width: '22%',
          head: props.who === 'customer' ? t('money.vehicle') : t('money.customer'),
          cell: (job) => (
            <span className="cut">{props.who === 'customer' ? job.makeModel : job.customer}</span>
          ),
        },
        { key: 'wish', head: t('takeIn.words'), cell: (job) => <span className="cut">{job.wish}</span> },
        {
          key: 'state',
          head: t('people.state'),
          width: '112px',
          cell: (job) => t(`word.jobState.${job.state}`),
        },
      ]}
    />
  );
}
