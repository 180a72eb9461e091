import type { Entry } from '../entry.ts';

/** Commands and queries of the estimate area. */
export const estimateEntries = {} as const satisfies Readonly<Record<string, Entry>>;
