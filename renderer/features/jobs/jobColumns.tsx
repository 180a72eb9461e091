import type { JobId } from '#core/shared/ids.ts';
import { money, percent } from '#core/shared/text/format.ts';
import { amountText, type Manner } from '#core/shared/text/manner.ts';
import { when } from '#core/shared/text/when.ts';
import { PPM, type Ppm } from '#core/shared/units.ts';
import type { JobRow } from '#core/shared/views/jobList.ts';
import type { Say } from '../../bridge/texts.tsx';
import type { Column } from '../../ui/Table.tsx';

type SureNow = (jobId: JobId) => Ppm | null;

/** Columns of the list of jobs: who and what, when it is promised and how surely, the money. */
export function jobColumns(t: Say, manner: Manner, sureNow: SureNow): readonly Column<JobRow>[] {
  return [...whoColumns(t), ...promiseColumns(t, manner, sureNow), ...moneyColumns(t, manner)];
}

function whoColumns(t: Say): readonly Column<JobRow>[] {
  const now = (row: JobRow): string => {
    const state = t(`word.jobState.${row.state}`);
    return row.stage === null || row.state === 'enquiry'
      ? state
      : `${state}, ${t(`word.stage.${row.stage}`)}`;
  };
  return [
    {
      key: 'no',
      head: t('jobs.no'),
      width: '64px',
      cell: (r) => <span className="num quiet">{r.number}</span>,
    },
    {
      key: 'customer',
      head: t('jobs.customer'),
      cell: (r) => (
        <a className="cut strong" href={`#/jobs/${r.id}`} title={r.customer}>
          {r.customer}
        </a>
      ),
    },
    { key: 'vehicle', head: t('jobs.vehicle'), cell: (r) => <span className="cut">{r.makeModel}</span> },
    { key: 'now', head: t('jobs.now'), cell: (r) => <span className="cut">{now(r)}</span> },
  ];
}

function promiseColumns(t: Say, manner: Manner, sureNow: SureNow): readonly Column<JobRow>[] {
  const promise = (row: JobRow): string =>
    row.pickUpMin === null ? '' : when(manner, row.pickUpMin * 60_000, Date.now());
  return [
    {
      key: 'promise',
      head: t('jobs.promise'),
      width: '202px',
      cell: (r) => (
        <span className={r.late ? 'lamp' : undefined}>
          {r.forVisit ? t('jobs.visit') : null} {promise(r)} {r.late ? t('jobs.late') : null}
        </span>
      ),
    },
    {
      key: 'sure',
      head: t('jobs.sure'),
      align: 'right',
      width: '90px',
      cell: (r) => {
        const ppm = r.forVisit ? null : sureNow(r.id);
        return ppm === null ? '' : amountText(percent(manner, ppm / PPM));
      },
    },
  ];
}

function moneyColumns(t: Say, manner: Manner): readonly Column<JobRow>[] {
  return [
    {
      key: 'money',
      head: t('jobs.quoted'),
      align: 'right',
      width: '104px',
      cell: (r) => (r.quotedMinor === null ? '' : money(manner, r.quotedMinor)),
    },
    {
      key: 'owed',
      head: t('jobs.owed'),
      align: 'right',
      width: '104px',
      cell: (r) => (r.owedMinor ? <span className="lamp">{money(manner, r.owedMinor)}</span> : ''),
    },
  ];
}
