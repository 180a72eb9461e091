import { type ReactNode, useEffect, useRef } from 'react';
import type { JobId } from '#core/shared/ids.ts';
import { percent } from '#core/shared/text/format.ts';
import { amountText } from '#core/shared/text/manner.ts';
import { when } from '#core/shared/text/when.ts';
import { PPM } from '#core/shared/units.ts';
import type { OfferView } from '#core/shared/views/offers.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button, LinkButton, LinkTo } from '../../ui/Button.tsx';
import { Row } from '../../ui/Layout.tsx';
import { go } from '../../ui/router.ts';
import css from './takeIn.module.css';

const MINUTE_MS = 60_000;

/** The dates are booked: what was agreed, and the next thing: the quote with its deposit, or the visit. */
export function Booked(props: {
  readonly jobId: JobId;
  readonly offer: OfferView;
  readonly visit: boolean;
  readonly onNext: () => void;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const { jobId, offer } = props;
  const next = useRef<HTMLButtonElement>(null);
  useEffect(() => next.current?.focus(), []);
  const at = (min: number): string => when(manner, min * MINUTE_MS, Date.now());
  return (
    <div role="status" className={css['booked']}>
      <p>
        <b>{t('takeIn.booked', { from: at(offer.dropOffMin), to: at(offer.pickUpMin) })}</b>{' '}
        <span className="quiet">
          {t('takeIn.sure', { sure: amountText(percent(manner, offer.probabilityPpm / PPM)) })}
        </span>
      </p>
      <p className="t1 quiet">{props.visit ? t('takeIn.nextVisit') : t('takeIn.nextDeposit')}</p>
      <Row>
        <Button
          ref={next}
          kind="go"
          onPress={() => go(props.visit ? `/jobs/${jobId}` : `/jobs/${jobId}/quote`)}
        >
          {props.visit ? t('takeIn.toJob') : t('takeIn.toDeposit')}
        </Button>
        {props.visit ? null : <LinkTo to={`/jobs/${jobId}`}>{t('takeIn.toJob')}</LinkTo>}
        <LinkButton onPress={props.onNext}>{t('takeIn.next')}</LinkButton>
      </Row>
    </div>
  );
}
