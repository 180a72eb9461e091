import { type ReactNode, useState } from 'react';
import type { CustomerId } from '#core/shared/ids.ts';
import { money } from '#core/shared/text/format.ts';
import type { ToBill } from '#core/shared/views/moneyDesk.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button, LinkTo } from '../../ui/Button.tsx';
import { Check } from '../../ui/Choice.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Column, Head, Place, Row, Stack } from '../../ui/Layout.tsx';
import { go } from '../../ui/router.ts';
import { Empty, Refusal, Waiting } from '../../ui/States.tsx';
import css from './billing.module.css';

/** One invoice for several jobs that a customer pays for, such as a fleet's of a month. */
export function CollectiveScreen(props: { readonly params: Readonly<Record<string, string>> }): ReactNode {
  const t = useText();
  const customerId = props.params['customerId'] as CustomerId;
  const desk = useQuery('billing.readDesk', {});
  const page = useQuery('people.customerPage', { customerId });
  const jobs = desk.data?.toBill.filter((job) => job.payerId === customerId);
  return (
    <Place label={t('collective.title')}>
      <Column>
        <Head title={t('collective.title')} note={page.data?.customer.name}>
          <LinkTo to="/money" quiet>
            {t('invoice.back')}
          </LinkTo>
        </Head>
        <Refusal refusal={desk.error ?? page.error} />
        {jobs ? <JobsForm customerId={customerId} jobs={jobs} /> : <Waiting />}
      </Column>
    </Place>
  );
}

function JobsForm(props: { readonly customerId: CustomerId; readonly jobs: readonly ToBill[] }): ReactNode {
  const t = useText();
  const draft = useCommand('billing.draftCollective');
  const [out, setOut] = useState<readonly string[]>([]);
  const [orders, setOrders] = useState<Readonly<Record<string, string>>>({});
  const chosen = props.jobs.filter((job) => !out.includes(job.jobId));
  if (props.jobs.length === 0) return <Empty title={t('collective.none')} />;
  async function make(): Promise<void> {
    const jobs = chosen.map(({ jobId }) => ({ jobId, orderNumber: orders[jobId] ?? '' }));
    const made = await draft.run({ customerId: props.customerId, jobs });
    if (made.ok) go(`/money/${made.value.invoiceId}`);
  }
  return (
    <Stack>
      {props.jobs.map((job) => (
        <JobRow
          key={job.jobId}
          job={job}
          on={!out.includes(job.jobId)}
          order={orders[job.jobId] ?? ''}
          onTick={(on) => setOut(on ? out.filter((id) => id !== job.jobId) : [...out, job.jobId])}
          onOrder={(order) => setOrders({ ...orders, [job.jobId]: order })}
        />
      ))}
      <Refusal refusal={draft.refusal} />
      <Row>
        <Button
          kind="go"
          busy={draft.busy}
          why={chosen.length === 0 ? t('collective.few') : undefined}
          onPress={() => void make()}
        >
          {t('collective.draft')}
        </Button>
        <span className="t1 dusty">{t('collective.note')}</span>
      </Row>
    </Stack>
  );
}

function JobRow(props: {
  readonly job: ToBill;
  readonly on: boolean;
  readonly order: string;
  readonly onTick: (on: boolean) => void;
  readonly onOrder: (order: string) => void;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const { job } = props;
  return (
    <div className={css['collected']}>
      <Check
        label={t('collective.job', { job: job.jobNumber, vehicle: job.makeModel })}
        value={props.on}
        onChange={props.onTick}
      />
      <TextField
        label={t('collective.order', { job: job.jobNumber })}
        value={props.order}
        onChange={props.onOrder}
        maxLength={60}
      />
      <span className={css['end']}>
        {job.agreedMinor === null ? t('money.byTime') : money(manner, job.agreedMinor)}
      </span>
    </div>
  );
}

/** Payers with more than one job to bill, each with the way to one invoice for them. */
export function Collectives(props: { readonly jobs: readonly ToBill[] }): ReactNode {
  const t = useText();
  const payers = new Map<string, readonly ToBill[]>();
  for (const job of props.jobs) payers.set(job.payerId, [...(payers.get(job.payerId) ?? []), job]);
  return [...payers]
    .filter(([, jobs]) => jobs.length > 1)
    .map(([payerId, jobs]) => (
      <p key={payerId}>
        <LinkTo to={`/customers/${payerId}/collective`} quiet>
          {t('collective.open', { n: jobs.length, name: jobs[0]?.payer ?? '' })}
        </LinkTo>
      </p>
    ));
}
