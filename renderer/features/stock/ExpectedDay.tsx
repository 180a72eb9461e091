import { type ReactNode, useState } from 'react';
import type { LocalDay } from '#core/shared/units.ts';
import type { PurchaseOrderLineView, PurchaseOrderRow } from '#core/shared/views/stock.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useText } from '../../bridge/texts.tsx';
import { Button } from '../../ui/Button.tsx';
import { DayField } from '../../ui/DateFields.tsx';
import { Row, Stack } from '../../ui/Layout.tsx';
import { Refusal } from '../../ui/States.tsx';

/** The day on which the supplier will send what is missing of a line. */
export function ExpectedDay(props: {
  readonly order: PurchaseOrderRow;
  readonly line: PurchaseOrderLineView;
  readonly onDone: () => void;
}): ReactNode {
  const t = useText();
  const { order, line } = props;
  const [day, setDay] = useState<LocalDay | null>(line.dueDay);
  const expect = useCommand('stock.expectLine');
  async function keep(): Promise<void> {
    if (day === null) return;
    const sent = { orderId: order.id, lineId: line.id, revision: order.revision, dueDay: day };
    if ((await expect.run(sent)).ok) props.onDone();
  }
  return (
    <Stack gap={1}>
      <Row>
        <DayField label={t('stock.ui.newDay')} value={day} onChange={setDay} />
        <Button
          busy={expect.busy}
          why={day === null ? t('stock.ui.dayFirst') : undefined}
          onPress={() => void keep()}
        >
          {t('stock.ui.keepDay')}
        </Button>
      </Row>
      <Refusal refusal={expect.refusal} />
    </Stack>
  );
}
