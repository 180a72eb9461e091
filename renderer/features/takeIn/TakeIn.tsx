import { type ReactNode, useState } from 'react';
import type { JobId } from '#core/shared/ids.ts';
import type { OfferView } from '#core/shared/views/bays.ts';
import { useText } from '../../bridge/texts.tsx';
import { Button, LinkTo } from '../../ui/Button.tsx';
import { Column, Foot, Head, Place, Stack } from '../../ui/Layout.tsx';
import { Refusal } from '../../ui/States.tsx';
import { useShortcuts } from '../../ui/shortcuts.ts';
import { Booked } from './Booked.tsx';
import { CallerColumn } from './CallerColumn.tsx';
import { Told } from './Told.tsx';
import css from './takeIn.module.css';
import { useOpenedJob } from './useOpenedJob.ts';
import { useTakeIn } from './useTakeIn.ts';
import { WishColumn } from './WishColumn.tsx';
import { WishSaid } from './WishSaid.tsx';
import { noWish, type WishDraft } from './wish.ts';

/** What another area shows below for the job: dates to choose from. */
export type OffersFor = (jobId: JobId, onBooked: (offer: OfferView) => void) => ReactNode;

/** Taking a call: who and which car on the left, what they want and what it comes to on the right, offers below. */
export function TakeIn(props: { readonly offers: OffersFor }): ReactNode {
  const t = useText();
  const takeIn = useTakeIn();
  const [wish, setWish] = useState<WishDraft>(noWish);
  const [booked, setBooked] = useState<OfferView | null>(null);
  const opened = useOpenedJob();
  const { job } = opened;
  const why = takeIn.caller.name.trim() === '' ? t('takeIn.needsName') : undefined;

  async function open(): Promise<void> {
    if (why || job || opened.busy) return;
    const ids = await takeIn.save('ask');
    if (!ids?.customer || !ids.vehicle) return;
    // What was typed is kept: the keyboard is free for the offers.
    if (document.activeElement instanceof HTMLElement) document.activeElement.blur();
    await opened.open({ customerId: ids.customer.id, vehicleId: ids.vehicle.id }, wish);
  }
  function change(next: WishDraft): void {
    setWish(next);
    if (job) opened.rewish(next);
  }
  useShortcuts(job ? {} : { 'Ctrl+Enter': () => void open() });
  return (
    <Place label={t('takeIn.title')}>
      <div className={css['page']}>
        <Column label={t('takeIn.title')}>
          <CallerColumn takeIn={takeIn} fixed={job !== null} />
        </Column>
        <Column divided label={t('takeIn.wants')}>
          <Head title={t('takeIn.wants')} note={job ? t('takeIn.job', { number: job.number }) : undefined}>
            {job ? <LinkTo to={`/jobs/${job.jobId}`}>{t('takeIn.toJob')}</LinkTo> : null}
          </Head>
          <div className={css['want']}>
            {booked ? <WishSaid wish={wish} /> : <WishColumn wish={wish} onChange={change} />}
            <Stack>
              <Told body={takeIn.caller.body} wish={wish} />
              <Refusal refusal={opened.refusal} />
            </Stack>
          </div>
          <Foot>
            {job ? (
              <span className="t1 quiet">{t('takeIn.kept', { number: job.number })}</span>
            ) : (
              <Button kind="go" why={why} busy={opened.busy} onPress={() => void open()}>
                {t('takeIn.open')}
              </Button>
            )}
            {job ? null : <kbd className="kbd">Ctrl Enter</kbd>}
            {why ? <span className="t1 dusty">{why}</span> : null}
          </Foot>
        </Column>
        {job ? (
          <div className={css['below']}>
            {booked ? (
              <Booked jobId={job.jobId} offer={booked} visit={wish.lookFirst} />
            ) : (
              props.offers(job.jobId, setBooked)
            )}
          </div>
        ) : null}
      </div>
    </Place>
  );
}
