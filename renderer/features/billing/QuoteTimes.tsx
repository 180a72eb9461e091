import type { ReactNode } from 'react';
import { percent } from '#core/shared/text/format.ts';
import { amountText } from '#core/shared/text/manner.ts';
import { dayTimeFrom } from '#core/shared/text/when.ts';
import { PPM } from '#core/shared/units.ts';
import type { QuoteOptionView, QuoteView } from '#core/shared/views/billing.ts';
import { useManner, useText } from '../../bridge/texts.tsx';

/** What an option does to the dates of a car that is booked: whether they hold, or from when on. */
export function QuoteTimes(props: {
  readonly quote: QuoteView;
  readonly option: QuoteOptionView;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const { pickUpMin: agreedMin } = props.quote;
  const { letter, pickUp } = props.option;
  if (!pickUp || agreedMin === null) return null;
  const at = (min: number): string => dayTimeFrom(manner, min * 60_000, Date.now());
  const share = amountText(percent(manner, pickUp.agreedPpm / PPM));
  const booked = t('quote.timesBooked', { letter, when: at(agreedMin), share });
  if (pickUp.pickUpMin === agreedMin) return <p className="quiet">{booked}</p>;
  return (
    <p className="lit">
      {booked}{' '}
      {pickUp.pickUpMin === null
        ? t('quote.timesAnew')
        : t('quote.timesLater', { when: at(pickUp.pickUpMin) })}
    </p>
  );
}
