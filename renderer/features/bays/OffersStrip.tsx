import { type KeyboardEvent, type ReactNode, useEffect, useRef, useState } from 'react';
import type { JobId } from '#core/shared/ids.ts';
import type { EpochMin } from '#core/shared/units.ts';
import type { OfferView } from '#core/shared/views/offers.ts';
import type { PlanChange } from '#core/shared/views/planChange.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useText } from '../../bridge/texts.tsx';
import { Button } from '../../ui/Button.tsx';
import { Refusal, Waiting } from '../../ui/States.tsx';
import { isTyping, useShortcuts } from '../../ui/shortcuts.ts';
import { plainPlans } from './asks.ts';
import { Offer } from './OfferShown.tsx';
import css from './offers.module.css';

export type OffersStripProps = {
  readonly jobId: JobId;
  /** Enter books without another step: the first offers take the focus, unless somebody is typing. */
  readonly takesFocus?: boolean;
  /** The offer that is looked at, for a board to draw. */
  readonly onShow?: (offer: OfferView | null) => void;
  readonly onBooked?: (offer: OfferView, change: PlanChange) => void;
};

/** Dated offers for a job: letters or arrows look at one, Enter books the one that has the focus. */
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
    if (!offer || !plan || !asked.data || asked.asking || book.busy) return;
    const { planRevision } = asked.data;
    const bold = pickUpMin === undefined ? {} : { pickUpMin };
    const outcome = await book.run({ planRevision, plan, ...bold });
    if (outcome.ok) onBooked?.(offer, outcome.value);
    else if (outcome.refusal.code === 'PLAN_CHANGED') asked.ask();
  };
  const booker = useRef<HTMLButtonElement>(null);
  const ready = props.takesFocus === true && shown !== null;
  useEffect(() => {
    if (ready && !isTyping(document.activeElement)) booker.current?.focus();
  }, [ready]);
  const look = (to: number): void => setAt(Math.max(0, Math.min(offers.length - 1, to)));
  const [inside, setInside] = useState(false);
  const strip = useRef<HTMLElement>(null);
  const keyIn = (event: KeyboardEvent): void => {
    const step = STEPS[event.key];
    const picked = event.target instanceof HTMLElement && event.target.ariaPressed !== null;
    if (event.ctrlKey || event.altKey || event.metaKey) return;
    if (event.key === 'Enter' && picked) void take(shown);
    else if (step !== undefined) {
      const to = Math.max(0, Math.min(offers.length - 1, at + step));
      look(to);
      if (picked) strip.current?.querySelectorAll<HTMLElement>('[aria-pressed]')[to]?.focus();
    } else return;
    event.preventDefault();
  };
  const letters = Object.fromEntries(offers.map((o, i) => [o.key, () => look(i)]));
  useShortcuts({
    ...letters,
    'Alt+ArrowRight': () => look(at + 1),
    'Alt+ArrowLeft': () => look(at - 1),
    'Ctrl+Enter': () => void take(shown),
  });
  return (
    <section
      ref={strip}
      className={css['offers']}
      aria-label={t('bays.offers')}
      aria-busy={asked.asking}
      onKeyDown={keyIn}
      onFocus={() => setInside(true)}
      onBlur={(e) => setInside(e.currentTarget.contains(e.relatedTarget))}
    >
      <Refusal refusal={asked.error ?? book.refusal} />
      <div className={css['offersRow']}>
        <div className={css['offersHead']}>
          <b>{t('bays.offers')}</b>
          {asked.asking ? <Waiting /> : null}
          {shown ? (
            <Button ref={booker} kind="go" busy={book.busy || asked.asking} onPress={() => void take(shown)}>
              {t('bays.offers.books', { key: shown.key })}
            </Button>
          ) : null}
          {shown ? <kbd className="kbd">{inside ? 'Enter' : 'Ctrl Enter'}</kbd> : null}
          {offers.length > 1 ? (
            <p className="t1 quiet">{t('bays.offers.keys', { last: offers.at(-1)?.key ?? '' })}</p>
          ) : null}
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
        {asked.data?.only ? (
          <p className={`t1 quiet ${css['only']}`}>{t(`bays.offers.only.${asked.data.only}`)}</p>
        ) : null}
      </div>
    </section>
  );
}

/** Arrows within the strip: from one offer to the next. */
const STEPS: Readonly<Record<string, number>> = { ArrowLeft: -1, ArrowUp: -1, ArrowRight: 1, ArrowDown: 1 };
