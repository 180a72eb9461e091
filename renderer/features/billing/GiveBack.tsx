import { type ReactNode, useState } from 'react';
import { money } from '#core/shared/text/format.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { Row } from '../../ui/Layout.tsx';
import { MoneyField } from '../../ui/NumberFields.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './billing.module.css';
import { PayWay, type Way } from './PayWay.tsx';

/** Pays back of a deposit while its job goes on: taken by mistake, or more than was meant. */
export function GiveBack(props: { readonly jobId: string; readonly heldMinor: number }): ReactNode {
  const t = useText();
  const manner = useManner();
  const [open, setOpen] = useState(false);
  const [amount, setAmount] = useState<number | null>(null);
  const [way, setWay] = useState<Way>('card');
  const refund = useCommand('billing.refund');
  if (!open) return <LinkButton onPress={() => setOpen(true)}>{t('quote.giveBack')}</LinkButton>;
  async function run(): Promise<void> {
    const back = { from: 'deposit' as const, id: props.jobId, amountMinor: amount ?? 0, way };
    const done = await refund.run(back);
    if (done.ok) setOpen(false);
  }
  return (
    <>
      <div className={css['sums']}>
        <MoneyField
          label={t('quote.giveBackAmount')}
          value={amount}
          onChange={setAmount}
          min={1}
          max={props.heldMinor}
          autoFocus
        />
        <PayWay value={way} onChange={setWay} />
      </div>
      <Refusal refusal={refund.refusal} />
      <Row>
        <Button
          kind="final"
          busy={refund.busy}
          why={amount === null ? t('quote.giveBackAmount') : undefined}
          onPress={() => void run()}
        >
          {amount === null ? t('quote.giveBack') : t('invoice.refund', { amount: money(manner, amount) })}
        </Button>
        <LinkButton onPress={() => setOpen(false)}>{t('quote.giveBackNot')}</LinkButton>
      </Row>
    </>
  );
}
