import type { JobId } from '#core/shared/ids.ts';
import type { Ppm } from '#core/shared/units.ts';
import { useQuery } from './queries.ts';

/** How sure each open promise is as the board stands now; null while that is worked out, and of all others. */
export function useSureNow(when = true): (jobId: JobId) => Ppm | null {
  const { data } = useQuery('bays.promises', {}, { keep: true, when });
  const known = new Map(data?.map((p) => [p.jobId, p.nowPpm]));
  return (jobId) => known.get(jobId) ?? null;
}
