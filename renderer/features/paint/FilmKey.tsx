import type { ReactNode } from 'react';
import { film } from '#core/shared/text/format.ts';
import { amountText } from '#core/shared/text/manner.ts';
import type { InspectionView } from '#core/shared/views/paint.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import css from './paint.module.css';

/** What the tones mean: the neutral ramp, thin film that leaves it, likely refinished. */
export function FilmKey(props: { readonly view: InspectionView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const said = (tenth: number): string => amountText(film(manner, tenth));
  return (
    <p className={css['key']}>
      <span className={css['ramp']} aria-hidden="true">
        {[2, 3, 4, 5, 6, 7, 8, 9, 10].map((tone) => (
          <i key={tone} style={{ background: `var(--f${tone})` }} />
        ))}
      </span>
      <span className="num">
        {said(1000)}–{said(2000)}, {t('paint.between3')}
      </span>
      <span className={css['mark']} data-form="late" aria-hidden="true" />
      <span>{t('paint.legendThin', { value: said(props.view.thinTenthUm) })}</span>
      <span className={css['mark']} data-form="cross" aria-hidden="true" />
      <span>{t('paint.legendRefinished', { value: said(props.view.refinishedTenthUm) })}</span>
    </p>
  );
}
