import type { WriteCtx } from '../../context.ts';
import { nextNumber } from '../../db/sequence.ts';
import type { bookingsEntries, JobOpened } from '../../shared/catalogue/bookings.ts';
import type { InputOf } from '../../shared/entry.ts';
import { refuse } from '../../shared/errors.ts';
import type { CustomerId, JobId } from '../../shared/ids.ts';
import type { StagePlan } from '../../shared/stagePlan.ts';
import { localDayOf } from '../../shared/time.ts';
import type { EpochMin, Ppm } from '../../shared/units.ts';
import { shopOf } from '../../views/shop.ts';
import { purposeAfterLook } from '../rules/purpose.ts';
import { addJob, type JobPatch, saveJob } from '../store/jobs.ts';
import { hasCustomer, hasVehicle } from '../store/people.ts';
import { needJob, step } from './needs.ts';

type In<N extends keyof typeof bookingsEntries> = InputOf<(typeof bookingsEntries)[N]>;

/**
 * Opens a job: the customer, the vehicle, what they want, at most how much or how long.
 * The payer is the customer unless somebody else is named.
 * @throws NOT_FOUND when the customer, vehicle or payer does not exist
 */
export function openJob(ctx: WriteCtx, input: In<'bookings.openJob'>): JobOpened {
  needCustomer(ctx, input.customerId);
  if (!hasVehicle(ctx.db, input.vehicleId)) refuse('NOT_FOUND', { what: 'vehicle', id: input.vehicleId });
  const payerId = payerFor(ctx, input.customerId, input.payerId ?? null);
  const jobId = ctx.newId<JobId>();
  const number = nextNumber(ctx.db, 'job');
  addJob(ctx.db, {
    id: jobId,
    number,
    customerId: input.customerId,
    vehicleId: input.vehicleId,
    payerId,
    purpose: input.purpose,
    state: 'enquiry',
    wish: input.wish,
    ceilingMinor: input.ceilingMinor ?? null,
    ceilingMin: input.ceilingMin ?? null,
    wantedByMin: input.wantedByMin ?? null,
    lateWeight: input.lateWeight ?? 1,
    createdMs: ctx.now,
    createdBy: ctx.actor?.personId ?? null,
  });
  ctx.changed(jobId, 'state', 'wish');
  return { jobId, number };
}

/**
 * Changes what a job is for. A field that is left out stays; null clears it.
 * @throws STALE when somebody else changed the job since it was read
 * @throws JOB_STATE when the job has ended
 */
export function changeJob(ctx: WriteCtx, input: In<'bookings.changeJob'>): void {
  const job = needJob(ctx.db, input.jobId);
  if (job.revision !== input.revision) refuse('STALE', { what: 'job' });
  step(job, 'change');
  const { jobId, revision: _seen, payerId, ...wishes } = input;
  const payer = payerId === undefined ? {} : { payerId: payerFor(ctx, job.customerId, payerId) };
  const given = Object.fromEntries(
    Object.entries({ ...wishes, ...payer }).filter(([, v]) => v !== undefined),
  );
  saveJob(ctx.db, jobId, given satisfies JobPatch);
  ctx.changed(jobId, ...Object.keys(given));
}

/**
 * Opens a redo under warranty: a new job for the same car, tied to the one it repeats.
 * @throws JOB_STATE unless the first job is ready or collected
 */
export function openRedo(ctx: WriteCtx, input: In<'bookings.openRedo'>): JobOpened {
  const first = needJob(ctx.db, input.jobId);
  step(first, 'redo');
  const jobId = ctx.newId<JobId>();
  const number = nextNumber(ctx.db, 'job');
  addJob(ctx.db, {
    id: jobId,
    number,
    customerId: first.customerId,
    vehicleId: first.vehicleId,
    payerId: first.payerId,
    purpose: 'redo',
    state: 'enquiry',
    wish: input.wish,
    redoOfJobId: first.id,
    createdMs: ctx.now,
    createdBy: ctx.actor?.personId ?? null,
  });
  ctx.changed(jobId, 'state', 'wish', 'redoOf');
  return { jobId, number };
}

/** Somebody wants the work, not the look alone that the job was opened for; any other job keeps its purpose. */
export function wantsWork(
  ctx: WriteCtx,
  input: { readonly jobId: JobId; readonly stages: readonly StagePlan[] },
): void {
  if (needJob(ctx.db, input.jobId).purpose !== 'inspectionVisit') return;
  saveJob(ctx.db, input.jobId, { purpose: purposeAfterLook(input.stages) });
  ctx.changed(input.jobId, 'purpose');
}

/** A quote went out or was changed. @throws JOB_STATE when the job has ended */
export function markQuoted(ctx: WriteCtx, input: { readonly jobId: JobId }): void {
  const job = needJob(ctx.db, input.jobId);
  const state = step(job, 'quote');
  if (state === job.state) return;
  saveJob(ctx.db, job.id, { state });
  ctx.changed(job.id, 'state');
}

export type Booking = {
  readonly jobId: JobId;
  readonly dropOffMin: EpochMin;
  readonly pickUpMin: EpochMin;
  /** Chance computed for the pick-up; null when nobody computed one. */
  readonly promisePpm: Ppm | null;
  /** Promised below the shop's level by the desk's choice. */
  readonly bold: boolean;
};

/**
 * Agrees drop-off and pick-up. A booked job is booked anew, a no-show comes back; a car that is here stays here.
 * @throws PROMISE_BEFORE_DROP_OFF when the pick-up is not after the drop-off
 * @throws JOB_STATE when the job has ended
 */
export function markBooked(ctx: WriteCtx, booking: Booking): void {
  const job = needJob(ctx.db, booking.jobId);
  const state = step(job, 'book');
  if (booking.pickUpMin <= booking.dropOffMin) refuse('PROMISE_BEFORE_DROP_OFF', {});
  const back = job.state === 'noShow' ? { endedMs: null, endReason: '' } : {};
  const { zone } = shopOf(ctx.db);
  const dayOf = (min: number): string => localDayOf(min * 60_000, zone);
  const sameDay = job.dropOffMin !== null && dayOf(job.dropOffMin) === dayOf(booking.dropOffMin);
  saveJob(ctx.db, job.id, {
    state,
    dropOffMin: booking.dropOffMin,
    bookedMs: sameDay && job.bookedMs !== null ? job.bookedMs : ctx.now,
    pickUpMin: booking.pickUpMin,
    promisePpm: booking.promisePpm,
    bold: booking.bold,
    ...back,
  });
  ctx.changed(job.id, 'state', 'dropOff', 'pickUp', 'promise');
}

function needCustomer(ctx: WriteCtx, id: CustomerId): void {
  if (!hasCustomer(ctx.db, id)) refuse('NOT_FOUND', { what: 'customer', id });
}

function payerFor(ctx: WriteCtx, customerId: CustomerId, payerId: CustomerId | null): CustomerId | null {
  if (payerId === null || payerId === customerId) return null;
  needCustomer(ctx, payerId);
  return payerId;
}
