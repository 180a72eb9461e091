import type { ReactNode } from 'react';
import type { StockBoard } from '#core/shared/views/stock.ts';
import type { ThrowAwayView } from '#core/shared/views/stockContainers.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton, LinkTo } from '../../ui/Button.tsx';
import { Head, Row, Stack } from '../../ui/Layout.tsx';
import { Refusal } from '../../ui/States.tsx';
import { partsOf } from './looks.ts';
import { Said } from './Said.tsx';

/** What is past its life and still counted as on hand, to be thrown away and written off with the reason. */
export function ToThrow(props: { readonly board: StockBoard }): ReactNode {
  const t = useText();
  const { toThrow } = props.board;
  if (toThrow.length === 0) return null;
  return (
    <section aria-label={t('stock.ui.toThrow')}>
      <Head level={3} title={t('stock.ui.toThrow')} note={t('stock.ui.toThrowNote')} />
      <Stack gap={1}>
        {toThrow.map((line) => (
          <Line key={line.containerId ?? `${line.itemId} ${JSON.stringify(line.why.values)}`} of={line} />
        ))}
      </Stack>
    </section>
  );
}

function Line(props: { readonly of: ThrowAwayView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const close = useCommand('stock.closeContainer');
  const waste = useCommand('stock.waste');
  const { containerId, itemId, amount, sentence } = props.of;
  const why = partsOf(manner, props.of.why)
    .map((part) => part.text)
    .join('');
  async function away(): Promise<void> {
    if (containerId === null) await waste.run({ itemId, amount, why, sealed: true });
    else await close.run({ containerId, as: 'thrown', why });
  }
  return (
    <div className="lit" data-throw={itemId}>
      <p>
        <Said sentence={sentence} />
      </p>
      <Row>
        <LinkButton onPress={() => void away()}>{t('stock.ui.thrown')}</LinkButton>
        <LinkTo quiet to={`/stock/items/${itemId}`}>
          {t('stock.ui.lookAt')}
        </LinkTo>
      </Row>
      <Refusal refusal={close.refusal ?? waste.refusal} />
    </div>
  );
}
