import { type ReactNode, useState } from 'react';
import { money } from '#core/shared/text/format.ts';
import type { InvoiceView } from '#core/shared/views/billing.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button } from '../../ui/Button.tsx';
import { Segmented } from '../../ui/Choice.tsx';
import { Row } from '../../ui/Layout.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './billing.module.css';
import { WAYS, type Way } from './DepositForm.tsx';

/** Pays back what the shop owes on a document after a credit note. */
export function RefundForm(props: { readonly invoice: InvoiceView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { invoice } = props;
  const [way, setWay] = useState<Way>('card');
  const refund = useCommand('billing.refund');
  const amountMinor = -invoice.owedMinor;
  return (
    <section className={css['form']}>
      <Segmented
        label={t('invoice.payWay')}
        value={way}
        onChange={setWay}
        options={WAYS.map((value) => ({ value, label: t(`invoice.way.${value}`) }))}
      />
      <Refusal refusal={refund.refusal} />
      <Row>
        <Button
          kind="final"
          busy={refund.busy}
          onPress={() => void refund.run({ from: 'invoice', id: invoice.id, amountMinor, way })}
        >
          {t('invoice.refund', { amount: money(manner, amountMinor) })}
        </Button>
      </Row>
    </section>
  );
}
