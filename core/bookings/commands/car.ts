import type { WriteCtx } from '../../context.ts';
import type { bookingsEntries } from '../../shared/catalogue/bookings.ts';
import type { InputOf } from '../../shared/entry.ts';
import { refuse } from '../../shared/errors.ts';
import type { CustomerId, JobId } from '../../shared/ids.ts';
import type { EpochMs } from '../../shared/units.ts';
import { paperTagOf } from '../../views/billingParty.ts';
import { lastClockOf, recordsOf } from '../../views/jobRecords.ts';
import { type ClockReading, ranBack } from '../rules/mileage.ts';
import { openStages } from '../rules/ready.ts';
import { type JobRecord, saveJob } from '../store/jobs.ts';
import { addCarRecord, eraseWordsOfCustomer } from '../store/records.ts';
import { saveStage, stagesOf } from '../store/stages.ts';
import { needJob, step } from './needs.ts';

type In<N extends keyof typeof bookingsEntries> = InputOf<(typeof bookingsEntries)[N]>;

/**
 * Takes the car in with its record. Late is recorded, not refused: whole minutes after the agreed drop-off.
 * @throws JOB_STATE when the car is here already or the job has ended
 * @throws MILEAGE_FELL when the clock says less than when this car was last here, unless that is said to be right
 * @throws SIGNATURE_MISSING when it was to be signed and nothing was drawn
 * @throws PUBLISH_NEEDS_RECORD when pictures may be shown but not taken
 */
export function arrive(ctx: WriteCtx, input: In<'bookings.arrive'>): { readonly lateMin: number } {
  const job = needJob(ctx.db, input.jobId);
  const state = step(job, 'arrive');
  const atMs = happenedAt(ctx, input.atMs);
  const lateMin = job.dropOffMin === null ? 0 : Math.max(0, Math.floor(atMs / 60_000) - job.dropOffMin);
  keepRecord(ctx, job, 'arrival', input, { atMs, lateMin });
  saveJob(ctx.db, job.id, { state, arrivedMs: atMs, endedMs: null, endReason: '' });
  ctx.changed(job.id, 'state', 'arrival');
  return { lateMin };
}

/**
 * The car goes home after it was only looked at: its agreed times are void, the job goes on. The keys that came are
 * noted as given back to the person named, else to whoever brought them.
 * @throws JOB_STATE when the car is not here
 * @throws STAGES_OPEN when somebody is at work on it
 */
export function sendHome(ctx: WriteCtx, input: In<'bookings.sendHome'>): void {
  const job = needJob(ctx.db, input.jobId);
  const state = step(job, 'sendHome');
  const running = stagesOf(ctx.db, job.id).filter((s) => s.state === 'inWork');
  if (running.length > 0) refuse('STAGES_OPEN', { count: running.length });
  noteGoingHome(ctx, job, input);
  const none = { dropOffMin: null, pickUpMin: null, promisePpm: null, bold: false, arrivedMs: null };
  saveJob(ctx.db, job.id, { state, ...none, readyMs: null });
  ctx.changed(job.id, 'state', 'dropOff', 'pickUp');
}

/** The keys that came go back to the person named, else to whoever brought them. */
export function noteGoingHome(
  ctx: WriteCtx,
  job: JobRecord & { readonly id: JobId },
  input: Pick<In<'bookings.sendHome'>, 'givenTo' | 'note'>,
): void {
  const came = recordsOf(ctx.db, job.id).findLast((r) => r.kind === 'arrival');
  if (!came) return;
  const { mileageUnit, keyCount, picturesRecord, picturesPublish, agreedBy } = came;
  const same = { jobId: job.id, mileageUnit, keyCount, picturesRecord, picturesPublish };
  const said = { agreedBy: input.givenTo ?? agreedBy, agreedWay: 'spoken' as const, note: input.note };
  const nothing = { mileage: null, belongings: '', damage: [], strokes: [], lowerMileage: 'ask' as const };
  keepRecord(ctx, job, 'handover', { ...same, ...nothing, ...said }, { atMs: ctx.now, lateMin: 0 });
}

/**
 * Hands the car over with its record; a handover stage in the plan is done with it.
 * @throws JOB_STATE unless the car is ready
 * @throws HANDOVER_BEFORE_ARRIVAL
 * @throws MILEAGE_FELL | SIGNATURE_MISSING | PUBLISH_NEEDS_RECORD as at arrival
 */
export function handOver(ctx: WriteCtx, input: Omit<In<'bookings.handOver'>, 'things'>): void {
  const job = needJob(ctx.db, input.jobId);
  const state = step(job, 'handOver');
  const atMs = happenedAt(ctx, input.atMs);
  if (job.arrivedMs !== null && atMs < job.arrivedMs)
    refuse('HANDOVER_BEFORE_ARRIVAL', { arrivedAtMs: job.arrivedMs });
  keepRecord(ctx, job, 'handover', input, { atMs, lateMin: 0 });
  for (const s of stagesOf(ctx.db, job.id))
    if (s.kind === 'handover' && s.state !== 'dropped' && s.state !== 'done')
      saveStage(ctx.db, s.id, { state: 'done', startedMs: s.startedMs ?? atMs, doneMs: atMs });
  saveJob(ctx.db, job.id, { state, collectedMs: atMs });
  ctx.changed(job.id, 'state', 'handover');
}

/**
 * Says that the car is ready. A cure that has run its time is done with it.
 * @throws JOB_STATE when the car is not here
 * @throws STAGES_OPEN while stages are not done
 */
export function markReady(ctx: WriteCtx, input: In<'bookings.markReady'>): void {
  const job = needJob(ctx.db, input.jobId);
  const state = step(job, 'ready');
  const open = openStages(stagesOf(ctx.db, job.id));
  const cured = open.filter((s) => s.crew === 0 && s.startedMs !== null && cureEnd(s) <= ctx.now);
  if (open.length > cured.length) refuse('STAGES_OPEN', { count: open.length - cured.length });
  for (const s of cured) saveStage(ctx.db, s.id, { state: 'done', doneMs: cureEnd(s) });
  saveJob(ctx.db, job.id, { state, readyMs: ctx.now });
  ctx.changed(job.id, 'state');
}

function cureEnd(s: { readonly startedMs: EpochMs | null; readonly dwellMin: number }): EpochMs {
  return ((s.startedMs ?? 0) + s.dwellMin * 60_000) as EpochMs;
}

/** Empties wish, reasons, names, signatures, belongings and notes in a customer's jobs; what was done is kept. */
export function eraseCustomerInJobs(ctx: WriteCtx, customerId: CustomerId, instead: string): void {
  eraseWordsOfCustomer(ctx.db, customerId, instead);
}

function happenedAt(ctx: WriteCtx, atMs: EpochMs | undefined): EpochMs {
  if (atMs !== undefined && atMs > ctx.now) refuse('WORK_AHEAD', {});
  return atMs ?? ctx.now;
}

function keepRecord(
  ctx: WriteCtx,
  job: JobRecord & { readonly id: JobId },
  kind: 'arrival' | 'handover',
  input: In<'bookings.arrive'>,
  when: { readonly atMs: EpochMs; readonly lateMin: number },
): void {
  if (input.agreedWay === 'signature' && input.strokes.length === 0) refuse('SIGNATURE_MISSING', {});
  if (input.picturesPublish && !input.picturesRecord) refuse('PUBLISH_NEEDS_RECORD', {});
  const { jobId: _job, atMs: _at, lowerMileage, ...said } = input;
  if (lowerMileage === 'ask') checkClock(ctx, job, said, when.atMs);
  addCarRecord(ctx.db, {
    id: ctx.newId<string>(),
    jobId: job.id,
    kind,
    ...said,
    ...when,
    locale: paperTagOf(ctx.db, job.customerId),
    personId: ctx.actor?.personId ?? null,
  });
}

/** Refuses a reading below the last one: one of the two was misread. */
function checkClock(
  ctx: WriteCtx,
  job: JobRecord,
  {
    mileage,
    mileageUnit,
  }: { readonly mileage: number | null; readonly mileageUnit: ClockReading['mileageUnit'] },
  atMs: EpochMs,
): void {
  const before = lastClockOf(ctx.db, job.vehicleId, atMs);
  if (mileage === null || !before || !ranBack(before, { mileage, mileageUnit })) return;
  refuse('MILEAGE_FELL', {
    ...{ nowMileage: mileage, nowUnit: mileageUnit },
    ...{ beforeMileage: before.mileage, beforeUnit: before.mileageUnit, beforeOnMs: before.atMs },
  });
}
