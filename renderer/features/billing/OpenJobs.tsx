import type { ReactNode } from 'react';
import { useQuery } from '../../bridge/queries.ts';
import { useText } from '../../bridge/texts.tsx';
import { Select } from '../../ui/Select.tsx';

const OVER: readonly string[] = ['cancelled', 'noShow', 'collected'];

/** Jobs of a customer that are still to be done, to choose one. */
export function OpenJobs(props: {
  readonly customerId: string;
  readonly except?: string;
  readonly value: string | null;
  readonly onChange: (jobId: string) => void;
}): ReactNode {
  const t = useText();
  const jobs = useQuery('bookings.jobsOf', { customerId: props.customerId });
  const open = (jobs.data?.rows ?? []).filter((job) => job.id !== props.except && !OVER.includes(job.state));
  return (
    <Select
      label={t('settle.toJob')}
      value={props.value}
      onChange={props.onChange}
      note={jobs.data && open.length === 0 ? t('settle.noOther') : undefined}
      options={open.map((job) => ({
        value: job.id,
        label: t('money.toBillLine', { job: job.number, vehicle: job.makeModel }),
      }))}
    />
  );
}
