import type { ReactNode } from 'react';
import { hours, hoursRange, money } from '#core/shared/text/format.ts';
import type { EstimatePreview } from '#core/shared/views/estimate.ts';
import type { BodyStyle, Level, PanelId } from '#core/shared/vocabulary.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Figure } from '../../ui/Figure.tsx';
import type { PanelLook } from '../../ui/flatcar/CarPanel.tsx';
import { FlatCar } from '../../ui/flatcar/FlatCar.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './takeIn.module.css';
import type { WishDraft } from './wish.ts';

const WORKED: readonly Level[] = ['oneStage', 'twoStage', 'threeStage', 'sanded'];

function looksOf(told: EstimatePreview | undefined): Partial<Record<PanelId, PanelLook>> {
  const worked = told?.panels.filter((p) => WORKED.includes(p.level)) ?? [];
  return Object.fromEntries(worked.map((p) => [p.panel, { state: 'hatch' }]));
}

/** Hours and price as told on the telephone, wide because nobody has seen the paint; nothing is kept yet. */
export function Told(props: { readonly body: BodyStyle; readonly wish: WishDraft }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { body, wish } = props;
  const { far, condition, interior, protection } = wish;
  const ceiling = wish.ceiling && wish.ceiling.value > 0 ? wish.ceiling : null;
  const asked = { body, wish: far, condition, ceiling, interior, protection };
  const told = useQuery('estimate.preview', asked, { keep: true });
  const data = told.data;
  return (
    <div className={css['told']}>
      <Refusal refusal={told.error} />
      {data ? (
        <>
          <p className={css['big']}>
            <Figure
              size={4}
              strong
              amount={hours(manner, data.hours.p50Min)}
              range={hoursRange(manner, data.hours.p20Min, data.hours.p80Min)}
            />
            <span className="t3 strong num">{money(manner, data.price.totalMinor)}</span>
            <span className="quiet">
              {t(data.price.taxIncluded ? 'estimate.withTax' : 'estimate.beforeTax')}
            </span>
          </p>
          <p className="t1 quiet">{t('takeIn.wide')}</p>
          {ceiling && data.stair.best === null ? <p className="lamp">{t('takeIn.nothingFits')}</p> : null}
          <p className="t1 quiet">{data.stages.map((s) => t(`word.stage.${s.kind}`)).join(' · ')}</p>
        </>
      ) : null}
      <FlatCar body={body} label={t('takeIn.car', { body: t(`word.body.${body}`) })} look={looksOf(data)} />
    </div>
  );
}
