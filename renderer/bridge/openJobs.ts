import type { JobRow } from '#core/shared/views/jobList.ts';
import type { JobState } from '#core/shared/vocabulary.ts';
import { useQuery } from './queries.ts';

const OVER: readonly JobState[] = ['cancelled', 'noShow', 'collected'];

/** Jobs of a customer that are still to be done, but one; nothing until they are known. */
export function useOpenJobs(customerId: string, except?: string): readonly JobRow[] | undefined {
  const jobs = useQuery('bookings.jobsOf', { customerId });
  return jobs.data?.rows.filter((job) => job.id !== except && !OVER.includes(job.state));
}
