import { mayUse, type Role } from '#core/shared/roles.ts';
import type { Me } from '#core/shared/views/people.ts';
import { useQuery } from './queries.ts';

/** Who is signed in at this window; null when nobody is, undefined until it is known. */
export function useMe(): Me | null | undefined {
  return useQuery('access.here', {}).data?.me;
}

/** True when the person at this window may do what needs `needs`. The core decides again on every call. */
export function useMay(needs: Role): boolean {
  return mayUse(useMe()?.role ?? null, needs);
}
