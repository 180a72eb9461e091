import { type Calendar, NEVER } from './calendar.ts';

/**
 * Open intervals of several calendars in one list of numbers: each calendar's stand together, with one before time began
 * and one after its end around them. Who knows an interval near a minute walks a step or two instead of searching.
 */
export type Intervals = {
  readonly starts: Float64Array;
  readonly ends: Float64Array;
  /** Where the first interval of a calendar stands. */
  readonly firstOf: ReadonlyMap<Calendar, number>;
};

export function intervalsOf(calendars: ReadonlySet<Calendar>): Intervals {
  const firstOf = new Map<Calendar, number>();
  const starts: number[] = [];
  const ends: number[] = [];
  for (const cal of calendars) {
    firstOf.set(cal, starts.length + 1);
    starts.push(-NEVER, ...cal.starts, NEVER);
    ends.push(-NEVER, ...cal.ends, NEVER);
  }
  return { starts: Float64Array.from(starts), ends: Float64Array.from(ends), firstOf };
}

/** The first open minute at or after `t`, walking from any interval; NEVER when the calendar has ended. */
export function nextFrom({ starts, ends }: Intervals, from: number, t: number): number {
  if (t === NEVER) return NEVER;
  let i = from;
  while ((starts[i] ?? 0) > t) i -= 1;
  while ((ends[i] ?? 0) <= t) i += 1;
  return Math.max(t, starts[i] ?? 0);
}

/**
 * When `labour` open minutes from `t` on are done, pausing while closed. `from` is an interval that begins at or before
 * `t`, or the first one; `labour` is at least one minute. NEVER when the calendar runs out.
 */
export function addFrom({ starts, ends }: Intervals, from: number, t: number, labour: number): number {
  if (t === NEVER) return NEVER;
  let i = from;
  while ((ends[i] ?? 0) <= t) i += 1;
  let start = Math.max(t, starts[i] ?? 0);
  let left = labour;
  while (start + left > (ends[i] ?? 0)) {
    left -= (ends[i] ?? 0) - start;
    i += 1;
    start = starts[i] ?? 0;
  }
  return start + left;
}

/** The first start at or after `t` from which `labour` minutes fit without a pause, walking as `addFrom` does. */
export function nextFitFrom({ starts, ends }: Intervals, from: number, t: number, labour: number): number {
  if (t === NEVER) return NEVER;
  let i = from;
  while ((ends[i] ?? 0) <= t) i += 1;
  let start = Math.max(t, starts[i] ?? 0);
  while (start + labour > (ends[i] ?? 0)) {
    i += 1;
    start = starts[i] ?? 0;
  }
  return start;
}
