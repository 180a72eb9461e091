import type { ReactNode } from 'react';
import { useOpenJobs } from '../../bridge/openJobs.ts';
import { useText } from '../../bridge/texts.tsx';
import { Select } from '../../ui/Select.tsx';

/** Jobs of a customer that are still to be done, to choose one. */
export function OpenJobs(props: {
  readonly customerId: string;
  readonly except?: string;
  readonly value: string | null;
  readonly onChange: (jobId: string) => void;
}): ReactNode {
  const t = useText();
  const open = useOpenJobs(props.customerId, props.except);
  return (
    <Select
      label={t('settle.toJob')}
      value={props.value}
      onChange={props.onChange}
      note={open?.length === 0 ? t('settle.noOther') : undefined}
      options={(open ?? []).map((job) => ({
        value: job.id,
        label: t('money.toBillLine', { job: job.number, vehicle: job.makeModel }),
      }))}
    />
  );
}
