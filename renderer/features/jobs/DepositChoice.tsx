import type { ReactNode } from 'react';
import type { SentFor } from '#core/shared/catalogue.ts';
import { money } from '#core/shared/text/format.ts';
import type { JobView } from '#core/shared/views/bookings.ts';
import { useOpenJobs } from '../../bridge/openJobs.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Segmented } from '../../ui/Choice.tsx';
import { Select } from '../../ui/Select.tsx';

const OUTCOMES = ['held', 'kept', 'returned', 'moved'] as const;
const WAYS = ['cash', 'card', 'transfer'] as const;
export type IssueDate = 'ask' | 'today' | 'lastDay';

/** What becomes of the deposit of a job that will not be done: how it is paid back, or where it goes. */
export type DepositSaid = {
  readonly outcome: (typeof OUTCOMES)[number];
  readonly way: (typeof WAYS)[number];
  readonly toJobId: string | null;
};
export const HELD: DepositSaid = { outcome: 'held', way: 'transfer', toJobId: null };

/** As it is sent with the end of the job; nothing where the deposit stays held for now. */
export function settledBy(
  { outcome, way, toJobId }: DepositSaid,
  date: IssueDate,
): SentFor<'bookings.cancelJob'>['deposit'] {
  if (outcome === 'held') return null;
  return { outcome, way, date, toJobId: outcome === 'moved' ? toJobId : null };
}

/** Asks what becomes of the money held for a job; nothing where none is. */
export function DepositChoice(props: {
  readonly job: JobView;
  readonly value: DepositSaid;
  readonly onChange: (value: DepositSaid) => void;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const { job, value, onChange } = props;
  const open = useOpenJobs(job.customer.id, job.id);
  const held = job.money.depositMinor ?? 0;
  if (held <= 0) return null;
  return (
    <>
      <Select
        label={t('jobs.depositDone', { money: money(manner, held) })}
        note={open?.length === 0 ? t('settle.noOther') : undefined}
        value={value.outcome}
        onChange={(outcome) => onChange({ ...value, outcome })}
        options={OUTCOMES.filter((outcome) => outcome !== 'moved' || open?.length).map((outcome) => ({
          value: outcome,
          label: t(`jobs.deposit.${outcome}`),
        }))}
      />
      {value.outcome === 'returned' ? (
        <Segmented
          label={t('invoice.payWay')}
          value={value.way}
          onChange={(way) => onChange({ ...value, way })}
          options={WAYS.map((way) => ({ value: way, label: t(`invoice.way.${way}`) }))}
        />
      ) : null}
      {value.outcome === 'moved' ? (
        <Select
          label={t('settle.toJob')}
          value={value.toJobId}
          onChange={(toJobId) => onChange({ ...value, toJobId })}
          options={(open ?? []).map((to) => ({
            value: to.id,
            label: t('money.toBillLine', { job: to.number, vehicle: to.makeModel }),
          }))}
        />
      ) : null}
    </>
  );
}
