import { type ReactNode, useState } from 'react';
import type { JobId } from '#core/shared/ids.ts';
import { useCommand } from '../../bridge/commands.ts';
import { takeInHand } from '../../bridge/inHand.ts';
import { useText } from '../../bridge/texts.tsx';
import { Button, LinkTo } from '../../ui/Button.tsx';
import { Column, Foot, Head, Place, Stack } from '../../ui/Layout.tsx';
import { Refusal } from '../../ui/States.tsx';
import { useShortcuts } from '../../ui/shortcuts.ts';
import { CallerColumn } from './CallerColumn.tsx';
import { Told } from './Told.tsx';
import css from './takeIn.module.css';
import { useTakeIn } from './useTakeIn.ts';
import { WishColumn } from './WishColumn.tsx';
import { noWish, purposeOf, type WishDraft } from './wish.ts';

/** Taking a call: who and which car on the left, what they want and what it comes to on the right, offers below. */
export function TakeIn(props: { readonly offers?: (jobId: JobId) => ReactNode }): ReactNode {
  const t = useText();
  const takeIn = useTakeIn();
  const [wish, setWish] = useState<WishDraft>(noWish);
  const [job, setJob] = useState<{ readonly jobId: JobId; readonly number: number } | null>(null);
  const openJob = useCommand('bookings.openJob');
  const provisional = useCommand('estimate.provisional');
  const why = takeIn.caller.name.trim() === '' ? t('takeIn.needsName') : undefined;

  async function open(): Promise<void> {
    if (why || job) return;
    const ids = await takeIn.save('anew');
    if (!ids?.customer || !ids.vehicle) return;
    const opened = await openJob.run({
      customerId: ids.customer.id,
      vehicleId: ids.vehicle.id,
      purpose: purposeOf(wish),
      wish: wish.words,
      ceilingMinor: wish.ceiling?.kind === 'money' ? wish.ceiling.value : null,
      ceilingMin: wish.ceiling?.kind === 'hours' ? wish.ceiling.value : null,
      wantedByMin: wish.backByMs === null ? null : Math.floor(wish.backByMs / 60_000),
    });
    if (!opened.ok) return;
    setJob(opened.value);
    takeInHand(opened.value.jobId);
    await estimate(opened.value.jobId);
  }
  async function estimate(jobId: JobId): Promise<void> {
    const { far, condition, ceiling, interior, protection } = wish;
    await provisional.run({ jobId, wish: far, condition, ceiling, interior, protection });
  }
  useShortcuts({ 'Ctrl+Enter': () => void open() });
  return (
    <Place label={t('takeIn.title')} columns="left">
      <Column label={t('takeIn.title')}>
        <CallerColumn takeIn={takeIn} fixed={job !== null} />
      </Column>
      <Column divided label={t('takeIn.wants')}>
        <Head title={t('takeIn.wants')} note={job ? t('takeIn.job', { number: job.number }) : undefined}>
          {job ? <LinkTo to={`/jobs/${job.jobId}`}>{t('takeIn.toJob')}</LinkTo> : null}
        </Head>
        <div className={css['want']}>
          <WishColumn wish={wish} onChange={setWish} off={job ? t('takeIn.opened') : undefined} />
          <Stack>
            <Told body={takeIn.caller.body} wish={wish} />
            <Refusal refusal={openJob.refusal ?? provisional.refusal} />
          </Stack>
        </div>
        {job ? props.offers?.(job.jobId) : null}
        <Foot>
          {job ? (
            <>
              <span className="quiet">{t('takeIn.kept', { number: job.number })}</span>
              {provisional.refusal ? (
                <Button onPress={() => void estimate(job.jobId)}>{t('takeIn.estimateAgain')}</Button>
              ) : null}
            </>
          ) : (
            <Button kind="go" why={why} busy={openJob.busy || provisional.busy} onPress={() => void open()}>
              {t('takeIn.open')}
            </Button>
          )}
          {why ? <span className="t1 dusty">{why}</span> : null}
        </Foot>
      </Column>
    </Place>
  );
}
