import { type ReactNode, useEffect, useRef, useState } from 'react';
import type { JobId } from '#core/shared/ids.ts';
import { hours } from '#core/shared/text/format.ts';
import type { Manner } from '#core/shared/text/manner.ts';
import { dayTime } from '#core/shared/text/when.ts';
import type { EpochMin } from '#core/shared/units.ts';
import type { OfferView, PlanChange } from '#core/shared/views/bays.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useQuery } from '../../bridge/queries.ts';
import { type Say, useManner, useText } from '../../bridge/texts.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { Curve } from '../../ui/charts/Curve.tsx';
import { Refusal, Waiting } from '../../ui/States.tsx';
import { isTyping, useShortcuts } from '../../ui/shortcuts.ts';
import { plainPlans } from './asks.ts';
import css from './bays.module.css';

export type OffersStripProps = {
  readonly jobId: JobId;
  /** Enter books without another step: the first offers take the focus, unless somebody is typing. */
  readonly takesFocus?: boolean;
  /** The offer that is looked at, for a board to draw. */
  readonly onShow?: (offer: OfferView | null) => void;
  readonly onBooked?: (offer: OfferView, change: PlanChange) => void;
};

/** Dated offers for a job: letters or arrows look at one, Enter books it. */
export function OffersStrip(props: OffersStripProps): ReactNode {
  const { jobId, onShow, onBooked } = props;
  const t = useText();
  const asked = useQuery('bays.offers', { jobId });
  const book = useCommand('bays.bookOffer');
  const [at, setAt] = useState(0);
  const offers = asked.data?.offers ?? [];
  const shown = offers[Math.min(at, offers.length - 1)] ?? null;
  useEffect(() => {
    onShow?.(shown);
    return () => onShow?.(null);
  }, [shown, onShow]);
  const take = async (offer: OfferView | null, pickUpMin?: EpochMin): Promise<void> => {
    const [plan] = offer ? plainPlans([offer.plan]) : [];
    if (!offer || !plan || !asked.data || book.busy) return;
    const { planRevision } = asked.data;
    const bold = pickUpMin === undefined ? {} : { pickUpMin };
    const outcome = await book.run({ planRevision, plan, ...bold });
    if (outcome.ok) onBooked?.(offer, outcome.value);
  };
  const booker = useRef<HTMLButtonElement>(null);
  const ready = props.takesFocus === true && shown !== null;
  useEffect(() => {
    if (ready && !isTyping(document.activeElement)) booker.current?.focus();
  }, [ready]);
  const look = (to: number): void => setAt(Math.max(0, Math.min(offers.length - 1, to)));
  const letters = Object.fromEntries(offers.map((o, i) => [o.key, () => look(i)]));
  useShortcuts({
    ...letters,
    'Alt+ArrowRight': () => look(at + 1),
    'Alt+ArrowLeft': () => look(at - 1),
    'Ctrl+Enter': () => void take(shown),
  });
  return (
    <section className={css['offers']} aria-label={t('bays.offers')}>
      <div className={css['offersHead']}>
        <b>{t('bays.offers')}</b>
        {asked.loading ? <Waiting /> : null}
        {shown ? (
          <Button ref={booker} kind="go" busy={book.busy} onPress={() => void take(shown)}>
            {t('bays.offers.books', { key: shown.key })}
          </Button>
        ) : null}
        {shown ? <kbd className="kbd">Ctrl Enter</kbd> : null}
        <Refusal refusal={asked.error ?? book.refusal} />
      </div>
      {offers.map((o, i) => (
        <Offer
          key={o.key}
          offer={o}
          shown={o === shown}
          onLook={() => look(i)}
          onBold={(min) => void take(o, min)}
        />
      ))}
    </section>
  );
}

function Offer(props: {
  readonly offer: OfferView;
  readonly shown: boolean;
  readonly onLook: () => void;
  readonly onBold: (pickUpMin: EpochMin) => void;
}): ReactNode {
  const { offer: o, shown } = props;
  const t = useText();
  const manner = useManner();
  const at = (min: number): string => dayTime(manner, min * 60_000);
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
          {o.kind === 'soonestBack' ? <>{whySentence(t, manner, o)} </> : null}
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

function whySentence(t: Say, manner: Manner, o: OfferView): string {
  const { kind, names, gainMin } = o.why;
  const values = { names: names.join(', '), count: names.length, hours: hours(manner, gainMin).value };
  return t(`bays.why.${kind}`, values);
}
