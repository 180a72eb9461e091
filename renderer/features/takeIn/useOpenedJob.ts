import { useEffect, useRef, useState } from 'react';
import type { PlainError } from '#core/shared/errors.ts';
import type { CustomerId, JobId, VehicleId } from '#core/shared/ids.ts';
import { send, useHost } from '../../bridge/client.ts';
import { useCommand } from '../../bridge/commands.ts';
import { takeInHand } from '../../bridge/inHand.ts';
import { purposeOf, type WishDraft } from './wish.ts';

type Who = { readonly customerId: CustomerId; readonly vehicleId: VehicleId };
export type Opened = { readonly jobId: JobId; readonly number: number };

export type OpenedJob = {
  readonly job: Opened | null;
  readonly busy: boolean;
  readonly refusal: PlainError | null;
  /** Opens the job, takes it in hand and estimates it as told. */
  readonly open: (who: Who, wish: WishDraft) => Promise<void>;
  /** The wish was changed: kept and estimated anew once nothing more is typed for a moment. */
  readonly rewish: (wish: WishDraft) => void;
};

const PAUSE_MS = 500;

/** What was asked for, as the job keeps it. */
function wishesOf(wish: WishDraft) {
  return {
    purpose: purposeOf(wish),
    wish: wish.words,
    ceilingMinor: wish.ceiling?.kind === 'money' && wish.ceiling.value > 0 ? wish.ceiling.value : null,
    ceilingMin: wish.ceiling?.kind === 'hours' && wish.ceiling.value > 0 ? wish.ceiling.value : null,
    wantedByMin: wish.backByMs === null ? null : Math.floor(wish.backByMs / 60_000),
  };
}

/**
 * The job of a call, one write after the other. `start` is one that an earlier form had opened; `onOver` is called
 * when it is no mere enquiry any more (booked, ended or taken out elsewhere).
 */
export function useOpenedJob(start: Opened | null, onOver: () => void): OpenedJob {
  const host = useHost();
  const [job, setJob] = useState<Opened | null>(start);
  const openJob = useCommand('bookings.openJob');
  const changeJob = useCommand('bookings.changeJob');
  const provisional = useCommand('estimate.provisional');
  const now = useRef<{ readonly job: Opened; revision: number } | null>(null);
  const queue = useRef<Promise<unknown>>(Promise.resolve());
  const timer = useRef(0);
  useEffect(() => {
    if (!start) return;
    queue.current = send(host, 'bookings.job', { jobId: start.jobId }).then(
      ({ value }) => {
        if (value.state === 'enquiry') now.current = { job: start, revision: value.revision };
        else onOver();
      },
      () => onOver(),
    );
  }, [host, start, onOver]);

  async function estimate(opened: Opened, wish: WishDraft): Promise<void> {
    const { far, condition, interior, protection } = wish;
    const ceiling = wish.ceiling && wish.ceiling.value > 0 ? wish.ceiling : null;
    const { jobId } = opened;
    await provisional.run({ jobId, wish: far, condition, ceiling, interior, protection });
    // Estimating writes to the job too: what counts as seen is the job after it.
    const { revision } = (await send(host, 'bookings.job', { jobId })).value;
    now.current = { job: opened, revision };
  }
  async function open(who: Who, wish: WishDraft): Promise<void> {
    const opened = await openJob.run({ ...who, ...wishesOf(wish) });
    if (!opened.ok) return;
    setJob(opened.value);
    takeInHand(opened.value.jobId);
    await estimate(opened.value, wish);
  }
  async function change(wish: WishDraft): Promise<void> {
    const kept = now.current;
    if (!kept) return;
    const { jobId } = kept.job;
    const done = await changeJob.run({ jobId, revision: kept.revision, ...wishesOf(wish) });
    if (done.ok) await estimate(kept.job, wish);
  }
  function rewish(wish: WishDraft): void {
    window.clearTimeout(timer.current);
    timer.current = window.setTimeout(() => {
      queue.current = queue.current.then(() => change(wish));
    }, PAUSE_MS);
  }
  return {
    job,
    open,
    rewish,
    busy: openJob.busy || changeJob.busy || provisional.busy,
    refusal: openJob.refusal ?? changeJob.refusal ?? provisional.refusal,
  };
}
