import { type ReactNode, useState } from 'react';
import type { VoucherPurpose } from '#core/shared/settings/billing.ts';
import { money } from '#core/shared/text/format.ts';
import type { CustomerHit } from '#core/shared/views/people.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Row, Stack } from '../../ui/Layout.tsx';
import { Item, List } from '../../ui/List.tsx';
import { MoneyField } from '../../ui/NumberFields.tsx';
import { Caution, Refusal } from '../../ui/States.tsx';
import css from './billing.module.css';
import { DateAnswers, type DateChoice } from './DateAnswers.tsx';
import { PayWay, type Way } from './PayWay.tsx';

/** Sells a gift voucher to a known customer, and says how it is taxed. */
export function SellVoucher(props: {
  readonly purpose: VoucherPurpose;
  readonly onSold: (voucherId: string) => void;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const [buyer, setBuyer] = useState<CustomerHit | null>(null);
  const [forName, setForName] = useState('');
  const [amount, setAmount] = useState<number | null>(null);
  const [way, setWay] = useState<Way>('card');
  const [last, setLast] = useState<number | null>(null);
  const sell = useCommand('billing.sellVoucher');
  const whole = buyer !== null && amount !== null;
  async function run(date: DateChoice): Promise<void> {
    if (!whole) return;
    const sold = await sell.run({ customerId: buyer.id, amountMinor: amount, way, forName, date });
    if (!sold.ok) return;
    setLast(sold.value.number);
    props.onSold(sold.value.voucherId);
    setForName('');
    setAmount(null);
  }
  return (
    <Stack>
      <p className="quiet">{t(`voucher.rule.${props.purpose}`)}</p>
      <Buyer buyer={buyer} onChange={setBuyer} />
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
          why={whole ? undefined : t('voucher.sellFirst')}
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

const FOUND = 5;

function Buyer(props: {
  readonly buyer: CustomerHit | null;
  readonly onChange: (buyer: CustomerHit | null) => void;
}): ReactNode {
  const t = useText();
  const [text, setText] = useState('');
  const hits = useQuery('people.findCustomers', { text, limit: FOUND }, { when: text !== '', keep: true });
  const { buyer } = props;
  function change(to: string): void {
    setText(to);
    props.onChange(null);
  }
  function choose(hit: CustomerHit): void {
    setText('');
    props.onChange(hit);
  }
  return (
    <div>
      <TextField
        label={t('voucher.buyer')}
        kind="search"
        value={buyer ? buyer.name : text}
        onChange={change}
        maxLength={120}
      />
      {text === '' || !hits.data ? null : (
        <List label={t('voucher.buyer')}>
          {hits.data.map((hit) => (
            <Item key={hit.id}>
              <span className={css['grow']}>
                <LinkButton onPress={() => choose(hit)}>{hit.name}</LinkButton>
              </span>
              <span className="t1 dusty num">{hit.phone}</span>
            </Item>
          ))}
        </List>
      )}
    </div>
  );
}
