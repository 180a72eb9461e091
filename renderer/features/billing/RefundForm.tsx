import { type ReactNode, useState } from 'react';
import { money } from '#core/shared/text/format.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { Row } from '../../ui/Layout.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './billing.module.css';
import { InCoins } from './InCoins.tsx';
import { PayWay, type Way } from './PayWay.tsx';

/**
 * Pays back all that the shop owes: on a document after a credit note, or as a customer's credit on account. What is
 * owed on a document can stay as such a credit.
 */
export function RefundForm(props: {
  readonly from: 'invoice' | 'credit';
  /** Of the document, or of the customer whose credit it is. */
  readonly id: string;
  readonly amountMinor: number;
  /** The same in coins, where cash is rounded. */
  readonly cashMinor?: number;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const { from, id, amountMinor, cashMinor = amountMinor } = props;
  const [way, setWay] = useState<Way>('card');
  const back = way === 'cash' ? cashMinor : amountMinor;
  const refund = useCommand('billing.refund');
  const keep = useCommand('billing.keepAsCredit');
  return (
    <section className={css['form']}>
      <PayWay value={way} onChange={setWay} />
      <InCoins way={way} exactMinor={amountMinor} cashMinor={cashMinor} />
      <Refusal refusal={refund.refusal ?? keep.refusal} />
      <Row>
        <Button
          kind="final"
          busy={refund.busy}
          onPress={() => void refund.run({ from, id, amountMinor: back, way })}
        >
          {t('invoice.refund', { amount: money(manner, back) })}
        </Button>
        {from === 'invoice' ? (
          <LinkButton onPress={() => void keep.run({ invoiceId: id, amountMinor })}>
            {t('invoice.keepCredit')}
          </LinkButton>
        ) : null}
      </Row>
    </section>
  );
}
