import { type ReactNode, useState } from 'react';
import { money } from '#core/shared/text/format.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button } from '../../ui/Button.tsx';
import { Row } from '../../ui/Layout.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './billing.module.css';
import { PayWay, type Way } from './PayWay.tsx';

/** Pays back all that the shop owes: on a document after a credit note, or as a customer's credit on account. */
export function RefundForm(props: {
  readonly from: 'invoice' | 'credit';
  /** Of the document, or of the customer whose credit it is. */
  readonly id: string;
  readonly amountMinor: number;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const { from, id, amountMinor } = props;
  const [way, setWay] = useState<Way>('card');
  const refund = useCommand('billing.refund');
  return (
    <section className={css['form']}>
      <PayWay value={way} onChange={setWay} />
      <Refusal refusal={refund.refusal} />
      <Row>
        <Button
          kind="final"
          busy={refund.busy}
          onPress={() => void refund.run({ from, id, amountMinor, way })}
        >
          {t('invoice.refund', { amount: money(manner, amountMinor) })}
        </Button>
      </Row>
    </section>
  );
}
