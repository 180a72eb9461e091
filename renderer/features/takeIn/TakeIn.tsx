import { type ReactNode, useCallback, useEffect, useState } from 'react';
import type { JobId } from '#core/shared/ids.ts';
import { when } from '#core/shared/text/when.ts';
import type { OfferView } from '#core/shared/views/offers.ts';
import { type Draft, type Found, useDraft } from '../../bridge/drafts.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button, LinkTo } from '../../ui/Button.tsx';
import { DraftNote } from '../../ui/DraftNote.tsx';
import { Column, Foot, Head, Place, Stack } from '../../ui/Layout.tsx';
import { go, queryOf, usePath } from '../../ui/router.ts';
import { Refusal } from '../../ui/States.tsx';
import { useShortcuts } from '../../ui/shortcuts.ts';
import { Booked } from './Booked.tsx';
import { CallerColumn } from './CallerColumn.tsx';
import { type CallerDraft, NOTHING } from './caller.ts';
import { Told } from './Told.tsx';
import css from './takeIn.module.css';
import { type Opened, useOpenedJob } from './useOpenedJob.ts';
import { useTakeIn } from './useTakeIn.ts';
import { WishColumn } from './WishColumn.tsx';
import { WishSaid } from './WishSaid.tsx';
import { noWish, type WishDraft } from './wish.ts';

/** What another area shows below for the job: dates to choose from. */
export type OffersFor = (jobId: JobId, onBooked: (offer: OfferView) => void) => ReactNode;

/** What is kept of a call until its dates are booked. */
type CallDraft = {
  readonly caller: CallerDraft;
  readonly wish: WishDraft;
  readonly job: Opened | null;
};
const EMPTY: CallDraft = { caller: NOTHING, wish: noWish, job: null };
function beginWith(name: string): CallDraft {
  return name === '' ? EMPTY : { ...EMPTY, caller: { ...NOTHING, caller: { ...NOTHING.caller, name } } };
}

/** Taking a call; one that was left half way goes on where it was. */
export function TakeIn(props: { readonly offers: OffersFor }): ReactNode {
  const draft = useDraft<CallDraft>('call.1');
  const [anew, setAnew] = useState(0);
  const [name, setName] = useState('');
  const { drop } = draft;
  const begin = useCallback(
    (next = '') => {
      drop();
      setName(next);
      setAnew((n) => n + 1);
    },
    [drop],
  );
  // Known before the first letter can be typed: a call whose job is opened makes room for the one asked for.
  const asked = queryOf(usePath()).has('next');
  const [makesRoom] = useState(asked && draft.found?.value.job != null);
  const found = anew === 0 && !makesRoom ? draft.found : null;
  return <Call key={anew} {...props} draft={draft} found={found} name={name} onAnew={begin} />;
}

type CallProps = {
  readonly offers: OffersFor;
  readonly draft: Draft<CallDraft>;
  readonly found: Found<CallDraft> | null;
  /** What was typed of the caller's name already. */
  readonly name: string;
  readonly onAnew: (name?: string) => void;
};

/** Somebody asked for a call: one only typed so far goes on, one whose job is opened makes room for the next. */
function useNextCall(opened: boolean, onAnew: () => void): void {
  const asked = queryOf(usePath()).has('next');
  useEffect(() => {
    if (!asked) return;
    go('/take-in', 'replace');
    if (opened) onAnew();
  }, [asked, opened, onAnew]);
}

/** Who and which car on the left, what they want and what it comes to on the right, offers below. */
function Call(props: CallProps): ReactNode {
  const { draft, found } = props;
  const t = useText();
  const [start] = useState(found?.value ?? beginWith(props.name));
  const takeIn = useTakeIn(start.caller);
  const [wish, setWish] = useState<WishDraft>(start.wish);
  const [booked, setBooked] = useState<OfferView | null>(null);
  const opened = useOpenedJob(start.job, props.onAnew);
  const { job } = opened;
  const why = takeIn.caller.name.trim() === '' ? t('takeIn.needsName') : undefined;
  useNextCall(job !== null, props.onAnew);
  useKept(draft, { caller: takeIn.draft, wish, job }, booked !== null);

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
          <fieldset className={css['caller']} disabled={booked !== null}>
            <CallerColumn
              takeIn={takeIn}
              stage={booked ? 'booked' : job ? 'opened' : 'begun'}
              onOther={() => props.onAnew(takeIn.caller.name)}
            >
              {found && !booked ? <GoesOn atMs={found.atMs} onAnew={props.onAnew} /> : null}
            </CallerColumn>
          </fieldset>
        </Column>
        <Column divided label={t('takeIn.wants')}>
          <WantHead job={job} />
          <div className={css['want']}>
            {booked ? <WishSaid wish={wish} /> : <WishColumn wish={wish} onChange={change} />}
            <Stack>
              <Told body={takeIn.caller.body} wish={wish} />
              <Refusal refusal={opened.refusal} />
            </Stack>
          </div>
          <WantFoot job={job} why={why} busy={opened.busy} onOpen={() => void open()} />
        </Column>
        {job ? (
          <div className={css['below']}>
            {booked ? (
              <Booked jobId={job.jobId} offer={booked} visit={wish.lookFirst} onNext={() => props.onAnew()} />
            ) : (
              props.offers(job.jobId, setBooked)
            )}
          </div>
        ) : null}
      </div>
    </Place>
  );
}

/** Keeps a call while it is typed; a booked one, and one nobody has typed in, need no keeping. */
function useKept(draft: Draft<CallDraft>, call: CallDraft, done: boolean): void {
  const { keep, drop } = draft;
  const text = JSON.stringify(call);
  useEffect(() => {
    if (done || text === JSON.stringify(EMPTY)) drop();
    else keep(JSON.parse(text) as CallDraft);
  }, [text, done, keep, drop]);
}

function GoesOn(props: { readonly atMs: number; readonly onAnew: (name?: string) => void }): ReactNode {
  const t = useText();
  const manner = useManner();
  const at = when(manner, props.atMs, Date.now());
  return (
    <DraftNote text={t('takeIn.goesOn', { at })} anew={t('takeIn.anew')} onAnew={() => props.onAnew()} />
  );
}

function WantHead({ job }: { readonly job: Opened | null }): ReactNode {
  const t = useText();
  return (
    <Head title={t('takeIn.wants')} note={job ? t('takeIn.job', { number: job.number }) : undefined}>
      {job ? <LinkTo to={`/jobs/${job.jobId}`}>{t('takeIn.toJob')}</LinkTo> : null}
    </Head>
  );
}

function WantFoot(props: {
  readonly job: Opened | null;
  readonly why: string | undefined;
  readonly busy: boolean;
  readonly onOpen: () => void;
}): ReactNode {
  const t = useText();
  const { job, why } = props;
  if (job)
    return (
      <Foot>
        <span className="t1 quiet">{t('takeIn.kept', { number: job.number })}</span>
      </Foot>
    );
  return (
    <Foot>
      <Button kind="go" why={why} busy={props.busy} onPress={props.onOpen}>
        {t('takeIn.open')}
      </Button>
      <kbd className="kbd">Ctrl Enter</kbd>
      {why ? <span className="t1 dusty">{why}</span> : null}
    </Foot>
  );
}
