import type { Entry } from '../entry.ts';

/** Commands and queries of the people area. */
export const peopleEntries = {} as const satisfies Readonly<Record<string, Entry>>;
