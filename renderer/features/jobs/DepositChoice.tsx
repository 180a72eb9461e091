import type { ReactNode } from 'react';
import type { SentFor } from '#core/shared/catalogue.ts';
import { money } from '#core/shared/text/format.ts';
import type { JobView } from '#core/shared/views/bookings.ts';
import { useOpenJobs } from '../../bridge/openJobs.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Segmented } from '../../ui/Choice.tsx';
import { MoneyField } from '../../ui/NumberFields.tsx';
import { Select } from '../../ui/Select.tsx';
import { Caution } from '../../ui/States.tsx';

const OUTCOMES = ['held', 'kept', 'returned', 'moved'] as const;
const WAYS = ['cash', 'card', 'transfer'] as const;
export type IssueDate = 'ask' | 'today' | 'lastDay';

/** What becomes of the deposit of a job that will not be done, and the fee for it; how it is paid back, or where it goes. */
export type DepositSaid = {
  readonly outcome: (typeof OUTCOMES)[number];
  /** With tax; null is none, of a deposit that is kept all of it. */
  readonly feeMinor: number | null;
  readonly way: (typeof WAYS)[number];
  readonly toJobId: string | null;
};
export const HELD: DepositSaid = { outcome: 'held', feeMinor: null, way: 'transfer', toJobId: null };

/** As it is sent with the end of the job; nothing where the deposit stays held for now and no fee is asked. */
export function settledBy(
  { outcome, feeMinor, way, toJobId }: DepositSaid,
  date: IssueDate,
): SentFor<'bookings.cancelJob'>['deposit'] {
  if (outcome === 'held' && feeMinor === null) return null;
  const becomes = outcome === 'held' ? 'kept' : outcome;
  return { outcome: becomes, feeMinor, way, date, toJobId: outcome === 'moved' ? toJobId : null };
}

type Props = {
  readonly job: JobView;
  readonly value: DepositSaid;
  readonly onChange: (value: DepositSaid) => void;
};

/** Asks what becomes of the money held for a job, and whether there is a fee. */
export function DepositChoice(props: Props): ReactNode {
  const t = useText();
  const { job, value, onChange } = props;
  const held = job.money.depositMinor ?? 0;
  const asksFee = held <= 0 || value.outcome !== 'held';
  const rest = value.outcome === 'returned' || (value.outcome === 'kept' && (value.feeMinor ?? held) < held);
  return (
    <>
      {held > 0 ? <Outcome {...props} heldMinor={held} /> : null}
      {asksFee ? (
        <MoneyField
          label={t('settle.fee')}
          note={t(held > 0 && value.outcome === 'kept' ? 'settle.feeWhole' : 'settle.feeNone')}
          value={value.feeMinor}
          onChange={(feeMinor) => onChange({ ...value, feeMinor })}
          min={1}
        />
      ) : null}
      {rest ? (
        <Segmented
          label={t('jobs.restBack')}
          value={value.way}
          onChange={(way) => onChange({ ...value, way })}
          options={WAYS.map((way) => ({ value: way, label: t(`invoice.way.${way}`) }))}
        />
      ) : null}
      {value.feeMinor === null && value.outcome !== 'kept' ? null : <Caution>{t('settle.caution')}</Caution>}
    </>
  );
}

function Outcome(props: Props & { readonly heldMinor: number }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { job, value, onChange } = props;
  const open = useOpenJobs(job.customer.id, job.id);
  return (
    <>
      <Select
        label={t('jobs.depositDone', { money: money(manner, props.heldMinor) })}
        note={open?.length === 0 ? t('settle.noOther') : undefined}
        value={value.outcome}
        // A fee belongs to what it was said for: what is held for now has none yet.
        onChange={(outcome) => onChange({ ...value, outcome, feeMinor: null })}
        options={OUTCOMES.filter((outcome) => outcome !== 'moved' || open?.length).map((outcome) => ({
          value: outcome,
          label: t(`jobs.deposit.${outcome}`),
        }))}
      />
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
