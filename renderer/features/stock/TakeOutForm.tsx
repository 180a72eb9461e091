import { type ReactNode, useState } from 'react';
import type { StockItemDetail } from '#core/shared/views/stockItem.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useText } from '../../bridge/texts.tsx';
import { AmountField } from '../../ui/AmountField.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Row, Stack } from '../../ui/Layout.tsx';
import { Refusal } from '../../ui/States.tsx';

/** Takes out what was dropped, spilt or out of date, or what goes back to the supplier, with the reason. */
export function TakeOutForm(props: {
  readonly kind: 'waste' | 'return';
  readonly item: StockItemDetail;
  readonly onDone: () => void;
}): ReactNode {
  const t = useText();
  const [amount, setAmount] = useState<number | null>(null);
  const [why, setWhy] = useState('');
  const { kind } = props;
  const waste = useCommand('stock.waste');
  const back = useCommand('stock.returnItem');
  const take = kind === 'waste' ? waste : back;
  const ready = amount !== null && amount > 0 && why.trim() !== '';
  async function save(): Promise<void> {
    if (amount === null) return;
    const done = await take.run({ itemId: props.item.id, amount, why });
    if (done.ok) props.onDone();
  }
  return (
    <Stack gap={1}>
      <AmountField
        label={t(`stock.ui.${kind}Amount`)}
        unit={props.item.unit}
        value={amount}
        onChange={setAmount}
        autoFocus
      />
      <TextField label={t('stock.ui.wasteWhy')} value={why} onChange={setWhy} maxLength={300} />
      <Refusal refusal={take.refusal} />
      <Row>
        <Button
          kind="go"
          busy={take.busy}
          why={ready ? undefined : t('stock.ui.whyFirst')}
          onPress={() => void save()}
        >
          {t(`stock.ui.${kind}Save`)}
        </Button>
        <LinkButton onPress={props.onDone}>{t('stock.ui.leave')}</LinkButton>
      </Row>
    </Stack>
  );
}
