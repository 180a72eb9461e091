import type { ReactNode } from 'react';
import { money } from '#core/shared/text/format.ts';
import type { QuoteOptionView, QuoteView } from '#core/shared/views/billing.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Caution } from '../../ui/States.tsx';

/** Says of each option that asks for more than the customer named as the most. */
export function AboveCeiling(props: {
  readonly quote: Pick<QuoteView, 'ceilingMinor' | 'customer'>;
  readonly options: readonly QuoteOptionView[];
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const ceiling = props.quote.ceilingMinor;
  if (ceiling === null) return null;
  return props.options
    .filter((o) => o.totals.toPayMinor > ceiling)
    .map(({ letter, totals }) => (
      <Caution key={letter}>
        {t('quote.aboveCeiling', {
          letter,
          above: money(manner, totals.toPayMinor - ceiling),
          ceiling: money(manner, ceiling),
          name: props.quote.customer.name,
        })}
      </Caution>
    ));
}
