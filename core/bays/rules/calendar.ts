import { invariant } from '#core/shared/errors.ts';

/**
 * A calendar is a list of disjoint open intervals `[start, end)` in minutes since the epoch, sorted, never touching,
 * with the open minutes before each interval. Every function here is monotone in its time and O(log n).
 */
export type Span = { readonly startMin: number; readonly endMin: number };
export type Calendar = {
  readonly starts: readonly number[];
  readonly ends: readonly number[];
  /** Open minutes before interval i. */
  readonly worked: readonly number[];
};

/** Far past and far future in minutes: an always open calendar has finite bounds so that sums stay exact. */
export const FAR_MIN = 1_000_000_000;
export const NEVER = Number.POSITIVE_INFINITY;

/**
 * Builds a calendar from spans in any order; overlapping and touching ones become one, empty ones vanish.
 * Reversed spans are a bug of the caller.
 */
export function calendarOf(spans: readonly Span[]): Calendar {
  const sorted = spans.filter((s) => s.startMin !== s.endMin).toSorted((a, b) => a.startMin - b.startMin);
  const starts: number[] = [];
  const ends: number[] = [];
  for (const span of sorted) {
    invariant(span.endMin > span.startMin, 'a span ends before it starts');
    const last = ends.length - 1;
    if (last >= 0 && span.startMin <= (ends[last] ?? 0)) ends[last] = Math.max(ends[last] ?? 0, span.endMin);
    else {
      starts.push(span.startMin);
      ends.push(span.endMin);
    }
  }
  return withSums(starts, ends);
}

export function alwaysOpen(): Calendar {
  return withSums([-FAR_MIN], [FAR_MIN]);
}

function withSums(starts: readonly number[], ends: readonly number[]): Calendar {
  const worked: number[] = [];
  let sum = 0;
  for (let i = 0; i < starts.length; i += 1) {
    worked.push(sum);
    sum += (ends[i] ?? 0) - (starts[i] ?? 0);
  }
  return { starts, ends, worked };
}

export function spansOf(cal: Calendar): readonly Span[] {
  return cal.starts.map((startMin, i) => ({ startMin, endMin: cal.ends[i] ?? startMin }));
}

/** Index of the last value at or below `t` in a rising list; −1 when all are above. */
export function lastAtOrBelow(values: readonly number[], t: number): number {
  let low = 0;
  let high = values.length;
  while (low < high) {
    const mid = (low + high) >> 1;
    if ((values[mid] ?? NEVER) <= t) low = mid + 1;
    else high = mid;
  }
  return low - 1;
}

/** The first open minute at or after `t`; NEVER when the calendar has ended. */
export function next(cal: Calendar, t: number): number {
  const i = lastAtOrBelow(cal.starts, t);
  if (i >= 0 && t < (cal.ends[i] ?? 0)) return t;
  return cal.starts[i + 1] ?? NEVER;
}

export function isOpen(cal: Calendar, t: number): boolean {
  return next(cal, t) === t;
}

/** Open minutes before `t`. */
export function workedAt(cal: Calendar, t: number): number {
  const i = lastAtOrBelow(cal.starts, t);
  if (i < 0) return 0;
  return (cal.worked[i] ?? 0) + Math.min(t, cal.ends[i] ?? t) - (cal.starts[i] ?? t);
}

/** Open minutes in `[from, to)`; 0 when reversed. */
export function openBetween(cal: Calendar, from: number, to: number): number {
  return Math.max(0, workedAt(cal, to) - workedAt(cal, from));
}

/**
 * When `labour` open minutes that begin at or after `t` are done, pausing while closed. The end of an interval
 * counts as done: 60 minutes from 16:00 in a day that closes at 17:00 end at 17:00, not next morning.
 * No labour ends at the first open minute. NEVER when the calendar runs out.
 */
export function add(cal: Calendar, t: number, labour: number): number {
  const start = next(cal, t);
  if (labour <= 0 || start === NEVER) return start;
  const target = workedAt(cal, start) + labour;
  const i = lastBelow(cal.worked, target);
  const end = (cal.starts[i] ?? NEVER) + target - (cal.worked[i] ?? 0);
  return end <= (cal.ends[i] ?? -1) ? end : NEVER;
}

/** Index of the last value below `t` in a rising list; −1 when there is none. */
export function lastBelow(values: readonly number[], t: number): number {
  let low = 0;
  let high = values.length;
  while (low < high) {
    const mid = (low + high) >> 1;
    if ((values[mid] ?? NEVER) < t) low = mid + 1;
    else high = mid;
  }
  return low - 1;
}

/** The last minute from which `labour` minutes are open before `t`; −NEVER when the calendar has fewer. */
export function startFor(cal: Calendar, t: number, labour: number): number {
  const before = workedAt(cal, t) - labour;
  if (before < 0) return -NEVER;
  const i = lastAtOrBelow(cal.worked, before);
  return Math.min(t, (cal.starts[i] ?? t) + before - (cal.worked[i] ?? 0));
}

/** The first start at or after `t` from which `labour` minutes fit without a pause; NEVER when none does. */
export function nextFit(cal: Calendar, t: number, labour: number): number {
  let start = next(cal, t);
  let i = lastAtOrBelow(cal.starts, start);
  while (start !== NEVER && start + labour > (cal.ends[i] ?? NEVER)) {
    i += 1;
    start = cal.starts[i] ?? NEVER;
  }
  return start;
}

/** Minutes that both calendars have open. */
export function intersect(a: Calendar, b: Calendar): Calendar {
  const spans: Span[] = [];
  for (let i = 0, j = 0; i < a.starts.length && j < b.starts.length; ) {
    const startMin = Math.max(a.starts[i] ?? 0, b.starts[j] ?? 0);
    const endMin = Math.min(a.ends[i] ?? 0, b.ends[j] ?? 0);
    if (startMin < endMin) spans.push({ startMin, endMin });
    if ((a.ends[i] ?? 0) < (b.ends[j] ?? 0)) i += 1;
    else j += 1;
  }
  return calendarOf(spans);
}

const pairHours = new WeakMap<Calendar, WeakMap<Calendar, Calendar>>();

/** Hours in which both are there; remembered, since calendars never change. */
export function bothHours(a: Calendar, b: Calendar): Calendar {
  const known = pairHours.get(a) ?? new WeakMap<Calendar, Calendar>();
  pairHours.set(a, known);
  const both = known.get(b) ?? intersect(a, b);
  known.set(b, both);
  return both;
}

/** Minutes of `cal` outside all `spans`. */
export function subtract(cal: Calendar, spans: readonly Span[]): Calendar {
  if (spans.length === 0) return cal;
  return intersect(cal, calendarOf(gapsBetween(spans, -FAR_MIN, FAR_MIN)));
}

/** The free intervals of `[from, to)` that no span covers, sorted. */
export function gapsBetween(spans: readonly Span[], from: number, to: number): readonly Span[] {
  const gaps: Span[] = [];
  let at = from;
  for (const span of spans.toSorted((a, b) => a.startMin - b.startMin)) {
    if (span.startMin > at) gaps.push({ startMin: at, endMin: Math.min(span.startMin, to) });
    at = Math.max(at, span.endMin);
    if (at >= to) return gaps;
  }
  if (at < to) gaps.push({ startMin: at, endMin: to });
  return gaps.filter((g) => g.endMin > g.startMin);
}
