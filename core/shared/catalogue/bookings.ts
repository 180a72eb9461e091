import type { Entry } from '../entry.ts';

/** Commands and queries of the bookings area. */
export const bookingsEntries = {} as const satisfies Readonly<Record<string, Entry>>;
