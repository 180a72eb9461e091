import type { Entry } from '../entry.ts';

/** Commands and queries of the stock area. */
export const stockEntries = {} as const satisfies Readonly<Record<string, Entry>>;
