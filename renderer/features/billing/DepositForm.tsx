import { type ReactNode, useState } from 'react';
import { money } from '#core/shared/text/format.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useDocument } from '../../bridge/documents.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { Head, Row } from '../../ui/Layout.tsx';
import { MoneyField } from '../../ui/NumberFields.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './billing.module.css';
import { DateAnswers, type DateChoice } from './DateAnswers.tsx';
import { GiveBack } from './GiveBack.tsx';
import { PayWay, type Way } from './PayWay.tsx';

/** Takes a deposit for a job; what is held already is said first. */
export function DepositForm(props: {
  readonly jobId: string;
  readonly heldMinor: number;
  readonly suggestedMinor: number;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const [amount, setAmount] = useState<number | null>(
    props.heldMinor > 0 ? null : props.suggestedMinor || null,
  );
  const [way, setWay] = useState<Way>('card');
  const take = useCommand('billing.takeDeposit');
  const receipt = useDocument('billing.receiptFile');
  const [number, setNumber] = useState<number | null>(null);
  /** What was answered so far goes along: another question may follow. */
  const [aboveQuote, setAboveQuote] = useState(false);
  async function run(date: DateChoice, above: boolean): Promise<void> {
    setAboveQuote(above);
    const { jobId } = props;
    const done = await take.run({ jobId, amountMinor: amount ?? 0, way, date, aboveQuote: above });
    if (!done.ok) return;
    setNumber(done.value.receipt);
    // Held now: the same money must not be taken again by a second press.
    setAmount(null);
  }
  return (
    <section className={css['form']}>
      <Head level={3} title={t('quote.deposit')} />
      {props.heldMinor > 0 ? (
        <p>{t('quote.depositHeld', { amount: money(manner, props.heldMinor) })}</p>
      ) : null}
      <div className={css['sums']}>
        <MoneyField label={t('invoice.payAmount')} value={amount} onChange={setAmount} min={1} />
        <PayWay value={way} onChange={setWay} />
      </div>
      <Refusal refusal={take.refusal ?? receipt.refusal}>
        <DateAnswers code={take.refusal?.code} onDate={(date) => void run(date, aboveQuote)} />
        {take.refusal?.code === 'DEPOSIT_ABOVE_QUOTE' && amount !== null ? (
          <TakeAbove amount={amount} onYes={() => void run('ask', true)} />
        ) : null}
      </Refusal>
      <Row>
        <Button
          busy={take.busy}
          why={amount === null ? t('invoice.payAmount') : undefined}
          onPress={() => void run('ask', false)}
        >
          {amount === null ? t('quote.takeSome') : t('quote.takeDeposit', { amount: money(manner, amount) })}
        </Button>
        {number === null ? null : (
          <LinkButton onPress={() => void receipt.open({ receipt: number })}>
            {t('invoice.receipt', { number })}
          </LinkButton>
        )}
      </Row>
      {props.heldMinor > 0 ? <GiveBack jobId={props.jobId} heldMinor={props.heldMinor} /> : null}
    </section>
  );
}

/** The answer that the amount is meant, although it goes above the quote. */
function TakeAbove(props: { readonly amount: number; readonly onYes: () => void }): ReactNode {
  const t = useText();
  const manner = useManner();
  return (
    <LinkButton onPress={props.onYes}>
      {t('quote.takeAbove', { amount: money(manner, props.amount) })}
    </LinkButton>
  );
}
