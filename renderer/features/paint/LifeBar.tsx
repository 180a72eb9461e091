import type { ReactNode } from 'react';
import { film } from '#core/shared/text/format.ts';
import { amountText } from '#core/shared/text/manner.ts';
import type { LifeBudgetView } from '#core/shared/views/paint.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import css from './paint.module.css';

/** What was taken off a panel over its life, what this plan takes, what may still come off: one bar, each part in its own form. */
export function LifeBar(props: { readonly budget: LifeBudgetView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const b = props.budget;
  const share = (tenth: number): string => `${Math.min(100, (100 * tenth) / Math.max(1, b.capTenthUm))}%`;
  const said = (tenth: number): string => amountText(film(manner, tenth));
  const why = t(`word.may.${b.why}`);
  return (
    <div className={css['life']}>
      <div className={css['lifeWords']}>
        <span>
          {t('paint.taken')} <b className="num">{said(b.takenTenthUm)}</b>
        </span>
        <span className="cool">
          {t('paint.thisPlan')} <b className="num">{said(b.plannedTenthUm)}</b>
        </span>
        <span>
          {t('paint.may')} <b className="num">{b.mayTenthUm === null ? why : said(b.mayTenthUm)}</b>
        </span>
      </div>
      <div className={css['lifeBar']} data-form={b.mayTenthUm === null ? 'cross' : 'plan'} aria-hidden="true">
        <span data-form="done" style={{ width: share(b.takenTenthUm) }} />
        <span data-form="work" style={{ width: share(b.plannedTenthUm) }} />
      </div>
      <p className="t1 quiet">
        {t('paint.lifeCap', { cap: said(b.capTenthUm) })}
        {b.historyKnown ? null : ` ${t('paint.historyUnknown')}`}
      </p>
      {b.why === 'planned' || b.why === 'thin' ? <p className="t1 lit">{why}</p> : null}
    </div>
  );
}
