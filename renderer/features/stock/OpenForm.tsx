import { type ReactNode, useState } from 'react';
import type { LocalDay } from '#core/shared/units.ts';
import type { StockItemDetail } from '#core/shared/views/stockItem.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useText } from '../../bridge/texts.tsx';
import { AmountField } from '../../ui/AmountField.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { DayField } from '../../ui/DateFields.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Row, Stack } from '../../ui/Layout.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './Containers.module.css';

/** Says that a container was opened, today or a few days ago. */
export function OpenForm(props: {
  readonly item: StockItemDetail;
  readonly today: LocalDay;
  readonly onDone: () => void;
}): ReactNode {
  const t = useText();
  const { item, today } = props;
  const [openedDay, setOpenedDay] = useState<LocalDay | null>(today);
  const [holds, setHolds] = useState<number | null>(item.packSize);
  const [batch, setBatch] = useState('');
  const open = useCommand('stock.openContainer');
  async function save(): Promise<void> {
    const done = await open.run({ itemId: item.id, holds, openedDay, batch });
    if (done.ok) props.onDone();
  }
  return (
    <Stack gap={2}>
      <div className={css['fields']}>
        <DayField label={t('stock.ui.openedOn')} value={openedDay} onChange={setOpenedDay} />
        <AmountField label={t('stock.ui.packSize')} unit={item.unit} value={holds} onChange={setHolds} />
        <TextField label={t('stock.ui.batch')} value={batch} onChange={setBatch} maxLength={60} />
      </div>
      <Refusal refusal={open.refusal} />
      <Row>
        <Button kind="go" busy={open.busy} onPress={() => void save()}>
          {t('stock.ui.openSave')}
        </Button>
        <LinkButton onPress={props.onDone}>{t('stock.ui.leave')}</LinkButton>
      </Row>
    </Stack>
  );
}
