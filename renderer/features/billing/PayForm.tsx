import { type ReactNode, useState } from 'react';
import { money } from '#core/shared/text/format.ts';
import { type InvoiceView, SURPLUS_KINDS, type SurplusKind } from '#core/shared/views/billing.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button } from '../../ui/Button.tsx';
import { Segmented } from '../../ui/Choice.tsx';
import { Head, Row } from '../../ui/Layout.tsx';
import { MoneyField } from '../../ui/NumberFields.tsx';
import { Select } from '../../ui/Select.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './billing.module.css';
import { OpenJobs } from './OpenJobs.tsx';
import { PayWay, type Way } from './PayWay.tsx';

/** What money above the amount owed is, and whose tip or which job's deposit. */
type Surplus = {
  readonly kind: SurplusKind | null;
  readonly tipPersonId: string | null;
  readonly depositJobId: string | null;
};
const UNNAMED: Surplus = { kind: null, tipPersonId: null, depositJobId: null };

/** Takes money for a document, all or a part; what is above it must be named. */
export function PayForm(props: { readonly invoice: InvoiceView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { invoice } = props;
  const [amount, setAmount] = useState<number | null>(invoice.owedMinor);
  const [way, setWay] = useState<Way>('card');
  const [surplus, setSurplus] = useState(UNNAMED);
  const take = useCommand('billing.takePayment');
  const all = (by: Way): number => (by === 'cash' ? invoice.owedCashMinor : invoice.owedMinor);
  const above = Math.max(0, (amount ?? 0) - all(way));
  function changeWay(by: Way): void {
    if (amount === all(way)) setAmount(all(by));
    setWay(by);
  }
  function run(): void {
    const { kind, ...whose } = above > 0 ? surplus : UNNAMED;
    const invoiceIds = [invoice.id];
    void take.run({ invoiceIds, amountMinor: amount ?? 0, way, surplus: kind, ...whose });
  }
  return (
    <section className={css['form']}>
      <Head level={3} title={t('invoice.pay')} />
      <div className={css['sums']}>
        <MoneyField label={t('invoice.payAmount')} value={amount} onChange={setAmount} min={1} />
        <PayWay value={way} onChange={changeWay} />
      </div>
      {above > 0 ? (
        <SurplusForm invoice={invoice} above={above} surplus={surplus} onChange={setSurplus} />
      ) : null}
      <Refusal refusal={take.refusal} />
      <Row>
        <Button
          kind="go"
          busy={take.busy}
          why={amount === null ? t('invoice.payAmount') : undefined}
          onPress={run}
        >
          {amount === null ? t('invoice.pay') : t('invoice.take', { amount: money(manner, amount) })}
        </Button>
      </Row>
    </section>
  );
}

function SurplusForm(props: {
  readonly invoice: InvoiceView;
  readonly above: number;
  readonly surplus: Surplus;
  readonly onChange: (surplus: Surplus) => void;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const { invoice, above, surplus, onChange } = props;
  return (
    <>
      <Segmented
        label={t('invoice.surplus', { amount: money(manner, above) })}
        value={surplus.kind}
        onChange={(kind) => onChange({ ...UNNAMED, kind })}
        options={SURPLUS_KINDS.map((value) => ({ value, label: t(`invoice.surplus.${value}`) }))}
      />
      {surplus.kind === 'deposit' ? (
        <OpenJobs
          customerId={invoice.customer.id}
          value={surplus.depositJobId}
          onChange={(depositJobId) => onChange({ ...surplus, depositJobId })}
        />
      ) : null}
      {surplus.kind === 'tip' ? (
        <WhoseTip
          value={surplus.tipPersonId}
          onChange={(tipPersonId) => onChange({ ...surplus, tipPersonId })}
        />
      ) : null}
    </>
  );
}

const EVERYBODY = 'all';

function WhoseTip(props: {
  readonly value: string | null;
  readonly onChange: (personId: string | null) => void;
}): ReactNode {
  const t = useText();
  const here = useQuery('access.here', {});
  const people = here.data?.people ?? [];
  return (
    <Select
      label={t('invoice.tipFor')}
      value={props.value ?? EVERYBODY}
      onChange={(value) => props.onChange(value === EVERYBODY ? null : value)}
      options={[
        { value: EVERYBODY, label: t('invoice.tipShared') },
        ...people.map((person) => ({ value: person.id, label: person.name })),
      ]}
    />
  );
}
