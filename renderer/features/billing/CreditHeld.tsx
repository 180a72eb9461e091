import type { ReactNode } from 'react';
import { money } from '#core/shared/text/format.ts';
import type { InvoiceView } from '#core/shared/views/billing.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button } from '../../ui/Button.tsx';
import { Row } from '../../ui/Layout.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './billing.module.css';

/** Credit that the payer has on account: it can be laid on what is still to pay. */
export function CreditHeld(props: { readonly invoice: InvoiceView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { id: invoiceId, owedMinor, creditHeldMinor, customer } = props.invoice;
  const amountMinor = Math.min(owedMinor, creditHeldMinor);
  const apply = useCommand('billing.applyCredit');
  return (
    <section className={css['form']}>
      <p>{t('invoice.creditHeld', { name: customer.name, amount: money(manner, creditHeldMinor) })}</p>
      <Refusal refusal={apply.refusal} />
      <Row>
        <Button busy={apply.busy} onPress={() => void apply.run({ invoiceId, amountMinor })}>
          {t('invoice.applyCredit', { amount: money(manner, amountMinor) })}
        </Button>
      </Row>
    </section>
  );
}
