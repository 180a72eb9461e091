import type { ReactNode } from 'react';
import { percent } from '#core/shared/text/format.ts';
import { amountText } from '#core/shared/text/manner.ts';
import { dayTimeFrom } from '#core/shared/text/when.ts';
import { type EpochMin, PPM, type Ppm } from '#core/shared/units.ts';
import type { QuoteOptionView, QuoteView } from '#core/shared/views/billing.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Check } from '../../ui/Choice.tsx';

export type LaterPickUp = { readonly pickUpMin: EpochMin; readonly surePpm: Ppm };

/** The pick-up that goes with an option where it is not the booked one; null where that holds, or there is none. */
export function laterPickUp(quote: QuoteView, { pickUp }: QuoteOptionView): LaterPickUp | null {
  if (!pickUp || pickUp.pickUpMin === null || pickUp.surePpm === null) return null;
  if (quote.pickUpMin === null || pickUp.pickUpMin === quote.pickUpMin) return null;
  return { pickUpMin: pickUp.pickUpMin, surePpm: pickUp.surePpm };
}

/** What an option does to the dates of a car that is booked: how sure they still are. */
export function QuoteTimes(props: {
  readonly quote: QuoteView;
  readonly option: QuoteOptionView;
}): ReactNode {
  const t = useText();
  const said = useSaid();
  const { pickUpMin: agreedMin } = props.quote;
  const { letter, pickUp } = props.option;
  if (!pickUp || agreedMin === null) return null;
  if (pickUp.agreedPpm === null) return <p className="lit">{t('quote.timesNoPlace', { letter })}</p>;
  const booked = t('quote.timesBooked', { letter, ...said(agreedMin, pickUp.agreedPpm) });
  if (pickUp.pickUpMin === agreedMin) return <p className="quiet">{booked}</p>;
  return (
    <p className="lit">
      {booked} {pickUp.pickUpMin === null ? t('quote.timesAnew') : t('quote.timesLater')}
    </p>
  );
}

/** The customer's word on another pick-up: without it the booked one stays. */
export function PickUpCheck(props: {
  readonly later: LaterPickUp | null;
  readonly agreedMin: EpochMin | null;
  readonly onAgree: (pickUpMin: EpochMin | null) => void;
}): ReactNode {
  const t = useText();
  const said = useSaid();
  const { later, agreedMin, onAgree } = props;
  if (!later) return null;
  return (
    <Check
      label={t('quote.timesAgree', said(later.pickUpMin, later.surePpm))}
      value={agreedMin === later.pickUpMin}
      onChange={(yes) => onAgree(yes ? later.pickUpMin : null)}
    />
  );
}

function useSaid(): (min: number, ppm: number) => { readonly when: string; readonly share: string } {
  const manner = useManner();
  return (min, ppm) => ({
    when: dayTimeFrom(manner, min * 60_000, Date.now()),
    share: amountText(percent(manner, ppm / PPM)),
  });
}
