import type { Entry } from '../entry.ts';

/** Commands and queries of the shop area. */
export const shopEntries = {} as const satisfies Readonly<Record<string, Entry>>;
