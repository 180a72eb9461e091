import { useEffect, useRef, useState } from 'react';
import type { PlainError } from '#core/shared/errors.ts';
import type { CustomerId, JobId, VehicleId } from '#core/shared/ids.ts';
import type { JobView } from '#core/shared/views/bookings.ts';
import { refusalOf, send, useHost } from '../../bridge/client.ts';
import { useCommand } from '../../bridge/commands.ts';
import { takeInHand } from '../../bridge/inHand.ts';
import { useTurns } from './useTurns.ts';
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

/** The job as this form saw it last; no revision = it is read before it is written to. */
type Seen = { readonly job: Opened; readonly revision: number | null };
type Host = ReturnType<typeof useHost>;
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
  const now = useRef<Seen | null>(null);
  const { inTurn, refusal: lost } = useTurns();
  const timer = useRef(0);
  useEffect(() => {
    if (!start) return;
    now.current = { job: start, revision: null };
    void inTurn(async () => {
      const kept = await readJob(host, start.jobId);
      now.current = kept?.state === 'enquiry' ? { job: start, revision: kept.revision } : null;
      if (now.current === null) onOver();
    });
  }, [host, start, onOver, inTurn]);

  async function estimate(opened: Opened, wish: WishDraft): Promise<void> {
    const { far, condition, interior, protection } = wish;
    const ceiling = wish.ceiling && wish.ceiling.value > 0 ? wish.ceiling : null;
    const { jobId } = opened;
    await provisional.run({ jobId, wish: far, condition, ceiling, interior, protection });
    // Estimating writes to the job too: what counts as seen is the job after it.
    now.current = { job: opened, revision: null };
    now.current = { job: opened, revision: (await send(host, 'bookings.job', { jobId })).value.revision };
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
    const revision = kept.revision ?? (await send(host, 'bookings.job', { jobId })).value.revision;
    const done = await changeJob.run({ jobId, revision, ...wishesOf(wish) });
    if (done.ok) await estimate(kept.job, wish);
  }
  function rewish(wish: WishDraft): void {
    window.clearTimeout(timer.current);
    timer.current = window.setTimeout(() => void inTurn(() => change(wish)), PAUSE_MS);
  }
  return {
    job,
    open: async (who, wish) => void (await inTurn(() => open(who, wish))),
    rewish,
    busy: openJob.busy || changeJob.busy || provisional.busy,
    refusal: openJob.refusal ?? changeJob.refusal ?? provisional.refusal ?? lost,
  };
}

/** A job as it is by now; null where it is not there any more. */
async function readJob(host: Host, jobId: JobId): Promise<JobView | null> {
  try {
    return (await send(host, 'bookings.job', { jobId })).value;
  } catch (problem) {
    if (refusalOf(problem).code === 'NOT_FOUND') return null;
    throw problem;
  }
}
