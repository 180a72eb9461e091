import type { LocalDay } from './units.ts';

/** Whether the last day of a person or a place is behind: both are still there on that day. */
export function hasEnded(of: { readonly endedDay: LocalDay | null }, today: LocalDay): boolean {
  return of.endedDay !== null && of.endedDay < today;
}
