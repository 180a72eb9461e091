import type { JobView } from './views/bookings.ts';

/** True while work on a job would be billed by its time alone: no quote stands agreed, and it is no redo of our own. */
export function isUnagreed(job: Pick<JobView, 'money' | 'redoOf' | 'purpose'>): boolean {
  return job.money.quoteState !== 'accepted' && job.redoOf === null && job.purpose !== 'inspectionVisit';
}

/** Before the first stage of work starts is the time to say that nothing is agreed. Looking at the paint is no work. */
export function startsUnagreed(
  job: Pick<JobView, 'money' | 'redoOf' | 'purpose' | 'state' | 'stages'>,
): boolean {
  const work = job.stages.filter((s) => s.kind !== 'inspection' && s.state !== 'dropped');
  const waits = job.state === 'booked' || job.state === 'here' || job.state === 'inWork';
  return waits && work.length > 0 && work.every((s) => s.state === 'planned') && isUnagreed(job);
}
