import { useQuery } from '../../bridge/queries.ts';

/** How many promises are at risk: what the desk shows beside its word. */
export function useDeskNeeds(): number | undefined {
  return useQuery('bookings.risks', {}, { keep: true }).data?.length;
}
