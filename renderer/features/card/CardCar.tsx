import type { ReactNode } from 'react';
import { film } from '#core/shared/text/format.ts';
import type { CardStage, CardView } from '#core/shared/views/card.ts';
import type { PanelId } from '#core/shared/vocabulary.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import type { PanelLook } from '../../ui/flatcar/CarPanel.tsx';
import { FlatCar } from '../../ui/flatcar/FlatCar.tsx';
import { Head } from '../../ui/Layout.tsx';
import { Refusal } from '../../ui/States.tsx';

/** The car with what may still be taken off each panel. Pressing a panel of the stage in hand ticks it off. */
export function CardCar(props: { readonly card: CardView; readonly stage: CardStage }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { card, stage } = props;
  const tick = useCommand('bookings.panelDone');
  const look: Partial<Record<PanelId, PanelLook>> = {};
  for (const panel of stage.panels) look[panel] = { state: stage.state === 'inWork' ? 'work' : 'outline' };
  const done = stage.state === 'done' ? stage.panels : stage.panelsDone;
  for (const panel of done) look[panel] = { state: 'done' };
  for (const p of card.panels) {
    if (p.mayTakeTenthUm === null) {
      if (isUnknown(p)) look[p.panel] = { ...look[p.panel], label: '?' };
      continue;
    }
    const nothingLeft = p.thin || p.mayTakeTenthUm === 0;
    const thin = nothingLeft && !done.includes(p.panel);
    const label = film(manner, p.mayTakeTenthUm).value;
    look[p.panel] = { ...look[p.panel], label, lit: nothingLeft, ...(thin ? { state: 'thin' } : {}) };
  }
  const inHand = stage.state === 'inWork' || stage.state === 'paused';
  function press(panel: PanelId): void {
    if (!stage.panels.includes(panel)) return;
    void tick.run({ stageId: stage.id, panel, done: !stage.panelsDone.includes(panel) });
  }
  const progress = t('card.panelsDone', { done: done.length, of: stage.panels.length });
  return (
    <section>
      <Head title={t('card.film')} note={film(manner, 0).unit}>
        <span className="num">{stage.panels.length > 0 ? progress : t('word.wholeCar')}</span>
      </Head>
      <FlatCar
        body={card.job.vehicle.body}
        label={t('card.film')}
        look={look}
        {...(inHand ? { onPanel: press } : {})}
      />
      {card.panels.some((p) => p.why === 'planned') ? (
        <p className="t1 lit">{t('card.lessPlanned')}</p>
      ) : null}
      {card.panels.some(isUnknown) ? <p className="t1 quiet">{t('card.filmUnknown')}</p> : null}
      <Refusal refusal={tick.refusal} />
    </section>
  );
}

/** Looked at, and still nobody can say what may come off. */
function isUnknown({ mayTakeTenthUm, why }: CardView['panels'][number]): boolean {
  return mayTakeTenthUm === null && why !== 'notRead';
}
