import { type ReactNode, useState } from 'react';
import { money } from '#core/shared/text/format.ts';
import { type InvoiceView, SURPLUS_KINDS, type SurplusKind } from '#core/shared/views/billing.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button } from '../../ui/Button.tsx';
import { Segmented } from '../../ui/Choice.tsx';
import { Head, Row } from '../../ui/Layout.tsx';
import { MoneyField } from '../../ui/NumberFields.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './billing.module.css';
import { WAYS, type Way } from './DepositForm.tsx';

/** Takes money for a document, all or a part; what is above it must be named. */
export function PayForm(props: { readonly invoice: InvoiceView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { invoice } = props;
  const [amount, setAmount] = useState<number | null>(invoice.owedMinor);
  const [way, setWay] = useState<Way>('card');
  const [surplus, setSurplus] = useState<SurplusKind | null>(null);
  const take = useCommand('billing.takePayment');
  const above = Math.max(0, (amount ?? 0) - invoice.owedMinor);
  return (
    <section className={css['form']}>
      <Head level={3} title={t('invoice.pay')} />
      <div className={css['sums']}>
        <MoneyField label={t('invoice.payAmount')} value={amount} onChange={setAmount} min={1} />
        <Segmented
          label={t('invoice.payWay')}
          value={way}
          onChange={setWay}
          options={WAYS.map((value) => ({ value, label: t(`invoice.way.${value}`) }))}
        />
      </div>
      {above > 0 ? (
        <Segmented
          label={t('invoice.surplus', { amount: money(manner, above) })}
          value={surplus}
          onChange={setSurplus}
          options={SURPLUS_KINDS.map((value) => ({ value, label: t(`invoice.surplus.${value}`) }))}
        />
      ) : null}
      <Refusal refusal={take.refusal} />
      <Row>
        <Button
          kind="go"
          busy={take.busy}
          why={amount === null ? t('invoice.payAmount') : undefined}
          onPress={() =>
            void take.run({
              invoiceIds: [invoice.id],
              amountMinor: amount ?? 0,
              way,
              surplus: above > 0 ? surplus : null,
            })
          }
        >
          {t('invoice.take', { amount: money(manner, amount ?? 0) })}
        </Button>
      </Row>
    </section>
  );
}
