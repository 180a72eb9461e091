import { type ReactNode, useState } from 'react';
import type { ItemId } from '#core/shared/ids.ts';
import { amountAsTyped } from '#core/shared/text/format.ts';
import { amountText } from '#core/shared/text/manner.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { AmountField } from '../../ui/AmountField.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { Row, Stack } from '../../ui/Layout.tsx';
import { Refusal } from '../../ui/States.tsx';

/** Says what is on the shelf. The book is fixed when the form opens; what is drawn meanwhile stays. */
export function CountForm(props: { readonly itemId: ItemId; readonly onDone: () => void }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { itemId } = props;
  const sheet = useQuery('stock.showCount', { itemId });
  const [began, setBegan] = useState<number | null>(null);
  const [counted, setCounted] = useState<number | null>(null);
  const count = useCommand('stock.count');
  if (!sheet.data) return <Refusal refusal={sheet.error} />;
  const asOfMovementId = began ?? sheet.data.asOfMovementId;
  async function save(acceptMore: boolean): Promise<void> {
    if (counted === null) return;
    const done = await count.run({ itemId, counted, asOfMovementId, acceptMore });
    if (done.ok) props.onDone();
  }
  return (
    <Stack gap={1}>
      <AmountField
        label={t('stock.ui.onShelf')}
        unit={sheet.data.unit}
        value={counted}
        autoFocus
        onChange={(value) => {
          // What was asked about was another figure.
          count.clear();
          setBegan(asOfMovementId);
          setCounted(value);
        }}
      />
      <p className="t1 quiet">
        {t('stock.ui.bookSays', {
          book: amountText(amountAsTyped(manner, sheet.data.unit, sheet.data.book)),
        })}
      </p>
      <Refusal refusal={count.refusal}>
        {count.refusal?.code === 'COUNT_UNLIKELY' ? (
          <LinkButton onPress={() => void save(true)}>{t('stock.ui.countIsRight')}</LinkButton>
        ) : null}
      </Refusal>
      <Row>
        <Button
          kind="go"
          busy={count.busy}
          why={counted === null ? t('stock.ui.countFirst') : undefined}
          onPress={() => void save(false)}
        >
          {t('stock.ui.saveCount')}
        </Button>
        <LinkButton onPress={props.onDone}>{t('stock.ui.leave')}</LinkButton>
      </Row>
    </Stack>
  );
}
