import type { Entry } from '../entry.ts';

/** Commands and queries of the paint area. */
export const paintEntries = {} as const satisfies Readonly<Record<string, Entry>>;
