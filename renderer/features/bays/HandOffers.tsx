import { type ReactNode, useEffect, useState } from 'react';
import type { JobId } from '#core/shared/ids.ts';
import { dayTimeFrom } from '#core/shared/text/when.ts';
import type { OfferView } from '#core/shared/views/offers.ts';
import type { JobState } from '#core/shared/vocabulary.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { OffersStrip } from './OffersStrip.tsx';

/** Offers for the job in hand. What is booked is not drawn over with other dates until they are asked for. */
export function HandOffers(props: {
  readonly jobId: JobId;
  readonly onShow: (offer: OfferView | null) => void;
  /** Turns the board to a minute: to a car that is booked. */
  readonly onSee: (min: number) => void;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const facts = useQuery('bookings.hand', { jobIds: [props.jobId] });
  const [anew, setAnew] = useState(false);
  const { jobId, onShow, onSee } = props;
  const job = facts.data?.[0];
  const comesMin = job?.state === 'booked' ? job.dropOffMin : null;
  useEffect(() => {
    if (comesMin !== null) onSee(comesMin);
  }, [comesMin, onSee]);
  if (!facts.data) return null;
  const until = job?.pickUpMin ?? null;
  // What is booked is the look; with a quote agreed to, the work needs dates of its own.
  const workWaits = job?.forVisit === true && job.agreed;
  if (until === null || anew || workWaits)
    return <OffersStrip jobId={jobId} onShow={onShow} onBooked={() => setAnew(false)} />;
  return (
    <p className="quiet">
      {t('bays.booked', {
        ...{ who: job?.customer ?? '', state: job?.state ?? 'booked' },
        at: dayTimeFrom(manner, until * 60_000, Date.now()),
      })}{' '}
      {OVER.includes(job?.state ?? 'booked') ? null : (
        <LinkButton quiet onPress={() => setAnew(true)}>
          {t('bays.otherDates')}
        </LinkButton>
      )}
    </p>
  );
}

/** Of a car that is gone there is nothing to offer any more. */
const OVER: readonly JobState[] = ['collected', 'cancelled', 'noShow'];
