import { type ReactNode, useState } from 'react';
import { count } from '#core/shared/text/format.ts';
import type { PadRow } from '#core/shared/views/stock.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { Row } from '../../ui/Layout.tsx';
import { Caution, Refusal } from '../../ui/States.tsx';
import css from './stock.module.css';

/** One step of the round for pieces of an item: used, washed, taken out clean, thrown away. */
export function PadActs(props: { readonly pad: PadRow }): ReactNode {
  const t = useText();
  const manner = useManner();
  const use = useCommand('stock.padsUsed');
  const [said, setSaid] = useState<string | null>(null);
  const wash = useCommand('stock.padsWash');
  const retire = useCommand('stock.padsRetire');
  const { pad } = props;
  const { itemId } = pad;
  const none = t('stock.ui.padNone');
  const why = (pieces: number): string | undefined => (pieces === 0 ? none : undefined);
  async function takeOne(): Promise<void> {
    const done = await use.run({ itemId, pieces: 1 });
    if (done.ok) setSaid(pad.clean > 0 ? null : t('stock.ui.padBeyond', done.value));
  }
  return (
    <div className={css['padActs']}>
      <Row>
        <LinkButton onPress={() => void takeOne()}>{t('stock.ui.useOne')}</LinkButton>
        <LinkButton
          why={why(pad.dirty)}
          onPress={() => void wash.run({ itemId, pieces: pad.dirty, step: 'in' })}
        >
          {t('stock.ui.washAll', { pieces: pad.dirty })}
        </LinkButton>
        <LinkButton
          why={why(pad.washing)}
          onPress={() => void wash.run({ itemId, pieces: pad.washing, step: 'out' })}
        >
          {t('stock.ui.washedAll', { pieces: pad.washing })}
        </LinkButton>
        {(['dirty', 'clean'] as const).map((state) => (
          <LinkButton
            key={state}
            why={why(pad[state])}
            onPress={() =>
              void retire.run({ itemId, pieces: 1, from: state, why: t('stock.ui.retireWhy', { state }) })
            }
          >
            {t('stock.ui.retireOne', { state })}
          </LinkButton>
        ))}
        <span className="t1 dusty">
          {t('stock.ui.padLife', {
            uses: count(manner, pad.usesPerLife, pad.usesPerLife < 10 ? 1 : 0),
            from: pad.learnedFrom,
          })}
        </span>
      </Row>
      {said ? <Caution>{said}</Caution> : null}
      <Refusal refusal={use.refusal ?? wash.refusal ?? retire.refusal} />
    </div>
  );
}
