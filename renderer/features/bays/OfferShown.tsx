import type { ReactNode } from 'react';
import { hours } from '#core/shared/text/format.ts';
import type { Manner } from '#core/shared/text/manner.ts';
import { dayTimeFrom } from '#core/shared/text/when.ts';
import type { EpochMin } from '#core/shared/units.ts';
import type { OfferView } from '#core/shared/views/offers.ts';
import type { Skill, StageKind } from '#core/shared/vocabulary.ts';
import { type Say, useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { Curve } from '../../ui/charts/Curve.tsx';
import css from './offers.module.css';

/** One offer: when, how sure, why it is offered, and, while it is looked at, why not earlier. */
export function Offer(props: {
  readonly offer: OfferView;
  readonly shown: boolean;
  readonly onLook: () => void;
  readonly onBold: (pickUpMin: EpochMin) => void;
}): ReactNode {
  const { offer: o, shown } = props;
  const t = useText();
  const manner = useManner();
  const at = (min: number): string => dayTimeFrom(manner, min * 60_000, Date.now());
  const whole = (ppm: number): string => String(Math.round(ppm / 10_000));
  const bolder = o.bolder.at(-1);
  const places = o.bays.join(', ');
  return (
    <article className={css['offer']} data-shown={shown}>
      <button type="button" className={css['offerPick']} aria-pressed={shown} onClick={props.onLook}>
        <span className={css['letter']}>{o.key}</span>
        <b>{at(o.dropOffMin)}</b> <span className="dusty">{t('bays.offers.to')}</span>{' '}
        <b>{at(o.pickUpMin)}</b>
        <span className={css['sure']}>{whole(o.probabilityPpm)} %</span>
      </button>
      <Curve
        label={`${whole(o.probabilityPpm)} %`}
        quantiles={{ p50: o.p50Min, p80: o.p80Min, p95: o.p95Min }}
        promise={o.pickUpMin}
        from={o.dropOffMin}
        to={lastOf(o) + (lastOf(o) - o.dropOffMin) / 20}
        height={36}
      />
      <p className={`t1 quiet num ${css['when']}`}>
        {t('bays.offers.half', { at: at(o.p50Min) })} · {t('bays.offers.p80', { at: at(o.p80Min) })} ·{' '}
        {t('bays.offers.p95', { at: at(o.p95Min) })}
      </p>
      <p className="t1 quiet">
        <b>{t(`bays.offer.${o.kind}`)}</b>{' '}
        {o.people.length === 0
          ? t('bays.offers.alone', { bays: places })
          : t('bays.offers.with', { bays: places, people: o.people.join(', ') })}
        {', '}
        {t('bays.offers.nights', { nights: o.nights })}
      </p>
      {shown ? (
        <p className="t1 quiet">
          {t('bays.offers.sooner')} {whySentence(t, manner, o)}{' '}
          {bolder ? (
            <LinkButton quiet onPress={() => props.onBold(bolder.pickUpMin)}>
              {t('bays.offers.bolder', { at: at(bolder.pickUpMin), percent: whole(bolder.probabilityPpm) })}
            </LinkButton>
          ) : null}
        </p>
      ) : null}
    </article>
  );
}

/** Every hill is drawn from the drop-off until it is as good as sure, so that they can be held against each other. */
function lastOf(o: OfferView): number {
  return Math.max(o.p95Min, o.pickUpMin);
}

function whySentence(t: Say, manner: Manner, o: OfferView): string {
  const { kind, names, gainMin } = o.why;
  const [only] = names;
  const skill = kind === 'skill' && only ? t(`word.skill.${only as Skill}`) : '';
  const stage = kind === 'gap' && only ? t(`word.stage.${only as StageKind}`) : '';
  const values = {
    ...{ names: names.join(', '), count: names.length, skill, stage },
    hours: hours(manner, gainMin).value,
  };
  return t(`bays.why.${kind}`, values);
}
