import { type ReactNode, useState } from 'react';
import type { StockItemDetail } from '#core/shared/views/stock.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useText } from '../../bridge/texts.tsx';
import { AmountField } from '../../ui/AmountField.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Row, Stack } from '../../ui/Layout.tsx';
import { Refusal } from '../../ui/States.tsx';

/** Takes out what was dropped, spilt or out of date, with the reason. */
export function WasteForm(props: { readonly item: StockItemDetail; readonly onDone: () => void }): ReactNode {
  const t = useText();
  const [amount, setAmount] = useState<number | null>(null);
  const [why, setWhy] = useState('');
  const waste = useCommand('stock.waste');
  const ready = amount !== null && amount > 0 && why.trim() !== '';
  async function save(): Promise<void> {
    if (amount === null) return;
    const done = await waste.run({ itemId: props.item.id, amount, why });
    if (done.ok) props.onDone();
  }
  return (
    <Stack gap={1}>
      <AmountField
        label={t('stock.ui.wasteAmount')}
        unit={props.item.unit}
        value={amount}
        onChange={setAmount}
        autoFocus
      />
      <TextField label={t('stock.ui.wasteWhy')} value={why} onChange={setWhy} maxLength={300} />
      <Refusal refusal={waste.refusal} />
      <Row>
        <Button
          kind="go"
          busy={waste.busy}
          why={ready ? undefined : t('stock.ui.whyFirst')}
          onPress={() => void save()}
        >
          {t('stock.ui.wasteSave')}
        </Button>
        <LinkButton onPress={props.onDone}>{t('stock.ui.leave')}</LinkButton>
      </Row>
    </Stack>
  );
}
