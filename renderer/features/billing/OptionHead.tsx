import type { ReactNode } from 'react';
import { hours, hoursRange, percent } from '#core/shared/text/format.ts';
import { PPM } from '#core/shared/units.ts';
import type { QuoteOptionView } from '#core/shared/views/billing.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Figure } from '../../ui/Figure.tsx';
import css from './billing.module.css';

/** What an option is called, how long it takes, how much of the damage it takes out, and whether it is agreed. */
export function OptionHead(props: {
  readonly option: QuoteOptionView;
  readonly side: 'a' | 'b';
  readonly agreed: boolean;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const { option } = props;
  return (
    <section
      className={css['option']}
      data-side={props.side}
      aria-label={t('quote.option', { letter: option.letter })}
    >
      <div className={css['letter']}>
        <span className="t4">{option.letter}</span>
        {props.agreed ? <span className={css['agreed']}>{t('quote.optionAgreed')}</span> : null}
      </div>
      <div className="strong">{option.title}</div>
      <div>
        <Figure
          amount={hours(manner, option.hours.p50Min)}
          range={hoursRange(manner, option.hours.p20Min, option.hours.p80Min)}
        />
      </div>
      <div className="t1 dusty">{t('quote.pricedAt', { hours: hours(manner, option.chargedMin).value })}</div>
      {option.gainPpm > 0 ? (
        <div className="quiet">
          {t('quote.comesOut', { share: percent(manner, option.gainPpm / PPM).value })}
        </div>
      ) : null}
    </section>
  );
}
