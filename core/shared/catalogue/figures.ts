import type { Entry } from '../entry.ts';

/** Commands and queries of the figures area. */
export const figuresEntries = {} as const satisfies Readonly<Record<string, Entry>>;
