import type { ReactNode } from 'react';
import { hours, hoursRange, money, percent } from '#core/shared/text/format.ts';
import { when } from '#core/shared/text/when.ts';
import type { EstimateView } from '#core/shared/views/estimate.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Figure } from '../../ui/Figure.tsx';
import css from './estimate.module.css';
import { evidenceWhy, priceWhy } from './evidence.ts';

/** The one figure of the page: hours with their range, what the promise rests on, the price, the gain. */
export function HoursHead(props: { readonly estimate: EstimateView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const e = props.estimate;
  const { totalMinor, taxIncluded } = e.price;
  return (
    <div className={css['head']}>
      <p className="t1 quiet">
        {t('estimate.version', { version: e.version })}, {t(`estimate.basis.${e.basis}`)},{' '}
        {when(manner, e.madeMs, Date.now())} {e.madeBy}
      </p>
      <Figure
        amount={hours(manner, e.hours.p50Min)}
        range={hoursRange(manner, e.hours.p20Min, e.hours.p80Min)}
        size={4}
        strong
        label={t('estimate.stageHours')}
        why={evidenceWhy(e, t, manner)}
      />
      <p className="quiet num">
        {t('estimate.promise', {
          p80: hours(manner, e.hours.p80Min).value,
          p95: hours(manner, e.hours.p95Min).value,
        })}
      </p>
      <Figure
        amount={{ value: money(manner, totalMinor), unit: '' }}
        size={3}
        strong
        label={t('estimate.price')}
        why={priceWhy(e, t, manner)}
      />
      <p className="t1 quiet">
        {t('estimate.gain', { percent: percent(manner, e.gainPpm / 1_000_000).value })}
        {', '}
        {t(taxIncluded ? 'estimate.withTax' : 'estimate.beforeTax')}
      </p>
    </div>
  );
}
