import { MS_PER_MIN } from '../../shared/units.ts';
import type { JobAction } from '../../shared/views/bookings.ts';
import { JOB_ACTIONS } from '../../shared/views/bookings.ts';
import type { JobState } from '../../shared/vocabulary.ts';

/**
 * A job's way through the shop: enquiry → quoted → booked → here → in work → ready → collected;
 * it ends early as cancelled, or as a no-show that may be booked again.
 * For each state, what may be done and the state that follows. A walk-in arrives without a booking.
 * A car that was only looked at goes home again (`sendHome`) and keeps its quote.
 */
const STEPS: Readonly<Record<JobState, Readonly<Partial<Record<JobAction, JobState>>>>> = {
  enquiry: {
    change: 'enquiry',
    plan: 'enquiry',
    quote: 'quoted',
    book: 'booked',
    arrive: 'here',
    cancel: 'cancelled',
  },
  quoted: {
    change: 'quoted',
    plan: 'quoted',
    quote: 'quoted',
    book: 'booked',
    arrive: 'here',
    cancel: 'cancelled',
  },
  booked: {
    change: 'booked',
    plan: 'booked',
    quote: 'booked',
    book: 'booked',
    arrive: 'here',
    noShow: 'noShow',
    cancel: 'cancelled',
  },
  here: {
    change: 'here',
    plan: 'here',
    quote: 'here',
    book: 'here',
    work: 'inWork',
    ready: 'ready',
    sendHome: 'quoted',
    cancel: 'cancelled',
    stopHalfWay: 'ready',
  },
  inWork: {
    change: 'inWork',
    plan: 'inWork',
    quote: 'inWork',
    book: 'inWork',
    work: 'inWork',
    ready: 'ready',
    sendHome: 'quoted',
    stopHalfWay: 'ready',
  },
  ready: {
    change: 'ready',
    plan: 'inWork',
    quote: 'ready',
    book: 'ready',
    work: 'inWork',
    handOver: 'collected',
    redo: 'ready',
  },
  collected: { redo: 'collected' },
  noShow: {
    change: 'noShow',
    plan: 'noShow',
    quote: 'noShow',
    book: 'booked',
    arrive: 'here',
    cancel: 'cancelled',
  },
  cancelled: {},
};

/**
 * The state that follows when `action` is done in `state`, or null when that state does not allow it.
 *
 * stateAfter('booked', 'arrive') //=> 'here'
 * stateAfter('collected', 'cancel') //=> null
 */
export function stateAfter(state: JobState, action: JobAction): JobState | null {
  return STEPS[state][action] ?? null;
}

/** Everything that may be done to a job in this state, in a fixed order. */
export function allowedIn(state: JobState): readonly JobAction[] {
  return JOB_ACTIONS.filter((action) => stateAfter(state, action) !== null);
}

type Expected = { readonly state: JobState; readonly dropOffMin: number | null };

/** The agreed drop-off has come, or none was agreed: from then on a car may be said not to have come. */
export function isDue({ dropOffMin }: Pick<Expected, 'dropOffMin'>, nowMs: number): boolean {
  return dropOffMin === null || dropOffMin * MS_PER_MIN <= nowMs;
}

/** What may be done to a job at an instant, in a fixed order. */
export function allowedAt(job: Expected, nowMs: number): readonly JobAction[] {
  return allowedIn(job.state).filter((action) => action !== 'noShow' || isDue(job, nowMs));
}

/** True until the job is collected, cancelled or a no-show. */
export function isOpen(state: JobState): boolean {
  return state !== 'collected' && state !== 'cancelled' && state !== 'noShow';
}
