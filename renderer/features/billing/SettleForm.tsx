import { type ReactNode, useState } from 'react';
import { money } from '#core/shared/text/format.ts';
import type { QuoteView } from '#core/shared/views/billing.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button } from '../../ui/Button.tsx';
import { Segmented } from '../../ui/Choice.tsx';
import { Head, Row } from '../../ui/Layout.tsx';
import { MoneyField } from '../../ui/NumberFields.tsx';
import { Select } from '../../ui/Select.tsx';
import { Caution, Refusal } from '../../ui/States.tsx';
import css from './billing.module.css';
import { DateAnswers, type DateChoice } from './DateAnswers.tsx';
import { WAYS, type Way } from './DepositForm.tsx';

const OUTCOMES = ['kept', 'returned', 'moved'] as const;
type Outcome = (typeof OUTCOMES)[number];

/** Ends the deposit of a job that will not be done: kept as a fee, paid back, or moved to another job. */
export function SettleForm(props: { readonly quote: QuoteView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { jobId, customer, depositHeldMinor } = props.quote;
  const [outcome, setOutcome] = useState<Outcome>('returned');
  const [fee, setFee] = useState<number | null>(null);
  const [way, setWay] = useState<Way>('card');
  const [toJobId, setTo] = useState<string | null>(null);
  const jobs = useQuery('bookings.jobsOf', { customerId: customer.id }, { when: outcome === 'moved' });
  const settle = useCommand('billing.settleDeposit');
  const others = (jobs.data?.rows ?? []).filter(
    (job) => job.id !== jobId && !['cancelled', 'noShow', 'collected'].includes(job.state),
  );
  const run = (date: DateChoice): void =>
    void settle.run({ jobId, outcome, feeMinor: fee, way, toJobId, date });
  return (
    <section className={css['form']}>
      <Head level={3} title={t('settle.title')} note={money(manner, depositHeldMinor)} />
      <Segmented
        label={t('settle.outcome')}
        value={outcome}
        onChange={setOutcome}
        options={OUTCOMES.map((value) => ({ value, label: t(`settle.${value}`) }))}
      />
      {outcome === 'moved' ? (
        <Select
          label={t('settle.toJob')}
          value={toJobId}
          onChange={setTo}
          note={others.length === 0 ? t('settle.noOther') : undefined}
          options={others.map((job) => ({
            value: job.id,
            label: t('money.toBillLine', { job: job.number, vehicle: job.makeModel }),
          }))}
        />
      ) : null}
      <div className={css['sums']}>
        <MoneyField
          label={t('settle.fee')}
          note={outcome === 'kept' ? t('settle.feeWhole') : undefined}
          value={fee}
          onChange={setFee}
          min={0}
        />
        <Segmented
          label={t('invoice.payWay')}
          value={way}
          onChange={setWay}
          options={WAYS.map((value) => ({ value, label: t(`invoice.way.${value}`) }))}
        />
      </div>
      <Refusal refusal={settle.refusal}>
        <DateAnswers code={settle.refusal?.code} onDate={run} />
      </Refusal>
      <Row>
        <Button
          kind="final"
          busy={settle.busy}
          why={outcome === 'moved' && toJobId === null ? t('settle.toJob') : undefined}
          onPress={() => run('ask')}
        >
          {t(`settle.do.${outcome}`)}
        </Button>
      </Row>
      <Caution>{t('settle.caution')}</Caution>
    </section>
  );
}
