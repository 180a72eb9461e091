import { type ReactNode, useState } from 'react';
import { amountAsTyped } from '#core/shared/text/format.ts';
import { amountText } from '#core/shared/text/manner.ts';
import type { MovementView } from '#core/shared/views/stockItem.ts';
import type { BaseUnit } from '#core/shared/vocabulary.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { AmountField } from '../../ui/AmountField.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { Row, Stack } from '../../ui/Layout.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './Containers.module.css';

/** Says what a job really drew: the ledger keeps the line and gets another with the difference. */
export function CorrectDraw(props: {
  readonly of: MovementView;
  readonly drawn: number;
  readonly unit: BaseUnit;
  readonly onDone: () => void;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const { of, drawn, unit } = props;
  const [amount, setAmount] = useState<number | null>(drawn);
  const correct = useCommand('stock.correctDraw');
  const same = amount === drawn ? t('stock.ui.correctSame') : undefined;
  async function save(): Promise<void> {
    if (amount === null) return;
    if ((await correct.run({ movementId: of.id, amount })).ok) props.onDone();
  }
  return (
    <div className={css['correct']}>
      <Stack gap={1}>
        <AmountField
          label={t('stock.ui.reallyDrawn')}
          unit={unit}
          value={amount}
          autoFocus
          onChange={(typed) => {
            correct.clear();
            setAmount(typed);
          }}
        />
        <p className="t1 quiet">
          {t('stock.ui.correctSays', {
            drawn: amountText(amountAsTyped(manner, unit, drawn)),
            job: of.jobNumber ?? 'none',
          })}
        </p>
        <Refusal refusal={correct.refusal} />
        <Row>
          <Button
            kind="go"
            busy={correct.busy}
            why={amount === null ? t('stock.ui.countFirst') : same}
            onPress={() => void save()}
          >
            {t('stock.ui.correctSave')}
          </Button>
          <LinkButton onPress={props.onDone}>{t('stock.ui.leave')}</LinkButton>
        </Row>
      </Stack>
    </div>
  );
}
