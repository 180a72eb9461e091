import type { ReactNode } from 'react';
import { dayText } from '#core/shared/text/when.ts';
import type { PutOffView } from '#core/shared/views/stock.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton, LinkTo } from '../../ui/Button.tsx';
import { Refusal } from '../../ui/States.tsx';

/** A suggestion that somebody said "not today" to, and the way back to it. */
export function PutOff(props: { readonly of: PutOffView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const again = useCommand('stock.askAgain');
  const { itemId, itemName, untilDay, person } = props.of;
  return (
    <div data-put-off={itemId}>
      <p className="t1 quiet">
        <LinkTo to={`/stock/items/${itemId}`}>{itemName}</LinkTo>{' '}
        {t('stock.ui.putOff', { day: dayText(manner, untilDay), person })}{' '}
        <LinkButton quiet busy={again.busy} onPress={() => void again.run({ itemId })}>
          {t('stock.ui.askAgain')}
        </LinkButton>
      </p>
      <Refusal refusal={again.refusal} />
    </div>
  );
}
