import { type ReactNode, useState } from 'react';
import type { VoucherPurpose } from '#core/shared/settings/billing.ts';
import { money } from '#core/shared/text/format.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button } from '../../ui/Button.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Row, Stack } from '../../ui/Layout.tsx';
import { MoneyField } from '../../ui/NumberFields.tsx';
import { Caution, Refusal } from '../../ui/States.tsx';
import { DateAnswers, type DateChoice } from './DateAnswers.tsx';
import { PayWay, type Way } from './PayWay.tsx';
import { type Buyer, VoucherBuyer } from './VoucherBuyer.tsx';

/** Sells a gift voucher, to a customer or to somebody who need not be named, and says how it is taxed. */
export function SellVoucher(props: {
  readonly purpose: VoucherPurpose;
  readonly onSold: (voucherId: string) => void;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const [buyer, setBuyer] = useState<Buyer | null>(null);
  const [forName, setForName] = useState('');
  const [amount, setAmount] = useState<number | null>(null);
  const [way, setWay] = useState<Way>('card');
  const [last, setLast] = useState<number | null>(null);
  const sell = useCommand('billing.sellVoucher');
  const named = buyer !== null || props.purpose === 'multi';
  const whole = named && amount !== null;
  async function run(date: DateChoice): Promise<void> {
    if (!whole) return;
    const sold = await sell.run({ customerId: buyer?.id ?? null, amountMinor: amount, way, forName, date });
    if (!sold.ok) return;
    setLast(sold.value.number);
    props.onSold(sold.value.voucherId);
    setBuyer(null);
    setForName('');
    setAmount(null);
  }
  return (
    <Stack>
      <p className="quiet">{t(`voucher.rule.${props.purpose}`)}</p>
      <VoucherBuyer buyer={buyer} hint={t(`voucher.buyerHint.${props.purpose}`)} onChange={setBuyer} />
      <TextField label={t('voucher.forWhom')} value={forName} onChange={setForName} maxLength={120} />
      <MoneyField label={t('voucher.amount')} value={amount} onChange={setAmount} min={1} />
      <PayWay value={way} onChange={setWay} />
      <Refusal refusal={sell.refusal}>
        <DateAnswers code={sell.refusal?.code} onDate={(date) => void run(date)} />
      </Refusal>
      <Row>
        <Button
          kind="go"
          busy={sell.busy}
          why={whole ? undefined : t(named ? 'voucher.worthFirst' : 'voucher.sellFirst')}
          onPress={() => void run('ask')}
        >
          {amount === null ? t('voucher.sell') : t('voucher.sellNow', { amount: money(manner, amount) })}
        </Button>
      </Row>
      <p className="t1 quiet" role="status">
        {last === null ? null : t('voucher.soldNow', { number: last })}
      </p>
      <Caution>{t('voucher.caution')}</Caution>
    </Stack>
  );
}
