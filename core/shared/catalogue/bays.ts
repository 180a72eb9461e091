import type { Entry } from '../entry.ts';

/** Commands and queries of the bays area. */
export const baysEntries = {} as const satisfies Readonly<Record<string, Entry>>;
