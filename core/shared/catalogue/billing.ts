import type { Entry } from '../entry.ts';

/** Commands and queries of the billing area. */
export const billingEntries = {} as const satisfies Readonly<Record<string, Entry>>;
