import { type Calendar, FAR_MIN, NEVER } from './calendar.ts';

/**
 * Open intervals of several calendars in one list of numbers: each calendar's stand together, with one before time began
 * and one after its end around them. A calendar is known by its number. Where each day begins among them is worked out once,
 * so that no minute is searched for.
 */
export type Intervals = {
  readonly starts: Float64Array;
  readonly ends: Float64Array;
  readonly numberOf: ReadonlyMap<Calendar, number>;
  /** Per calendar and day: the last interval that begins by then. */
  readonly byDay: Int32Array;
  readonly days: number;
  readonly firstDay: number;
};

const DAY_MIN = 1440;
/** Hours that are laid over more days than these are walked through beyond them. */
const MOST_DAYS = 2000;

export function intervalsOf(calendars: ReadonlySet<Calendar>): Intervals {
  const starts: number[] = [];
  const ends: number[] = [];
  const from: number[] = [];
  for (const cal of calendars) {
    from.push(starts.length);
    starts.push(-NEVER, ...cal.starts, NEVER);
    ends.push(-NEVER, ...cal.ends, NEVER);
  }
  const laid = starts.filter((t) => Math.abs(t) < FAR_MIN);
  const firstDay = Math.floor(laid.reduce((a, t) => Math.min(a, t), laid[0] ?? 0) / DAY_MIN);
  const lastDay = Math.floor(laid.reduce((a, t) => Math.max(a, t), laid[0] ?? 0) / DAY_MIN) + 1;
  const days = Math.min(MOST_DAYS, lastDay - firstDay + 1);
  const byDay = new Int32Array(from.length * days);
  from.forEach((first, cal) => {
    let at = first;
    // Whatever lies before the first day begins before time.
    for (let d = 1; d < days; d += 1) {
      while ((starts[at + 1] ?? NEVER) <= (firstDay + d) * DAY_MIN) at += 1;
      byDay[cal * days + d] = at;
    }
    byDay[cal * days] = first;
  });
  const numberOf = new Map([...calendars].map((cal, i) => [cal, i]));
  return {
    starts: Float64Array.from(starts),
    ends: Float64Array.from(ends),
    numberOf,
    byDay,
    days,
    firstDay,
  };
}

/** An interval of a calendar that begins at or before `t`, and not long before. */
function nearTo({ byDay, days, firstDay }: Intervals, cal: number, t: number): number {
  const day = Math.floor(t / DAY_MIN) - firstDay;
  return byDay[cal * days + (day < 0 ? 0 : day < days ? day : days - 1)] ?? 0;
}

/** The first open minute at or after `t`; NEVER when the calendar has ended. */
export function nextFrom(hours: Intervals, cal: number, t: number): number {
  if (t === NEVER) return NEVER;
  const { starts, ends } = hours;
  let i = nearTo(hours, cal, t);
  while ((ends[i] ?? 0) <= t) i += 1;
  return Math.max(t, starts[i] ?? 0);
}

/** When `labour` open minutes from `t` on are done, pausing while closed; at least one minute. NEVER when the calendar runs out. */
export function addFrom(hours: Intervals, cal: number, t: number, labour: number): number {
  if (t === NEVER) return NEVER;
  const { starts, ends } = hours;
  let i = nearTo(hours, cal, t);
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

/** The first start at or after `t` from which `labour` minutes fit without a pause; NEVER when none does. */
export function nextFitFrom(hours: Intervals, cal: number, t: number, labour: number): number {
  if (t === NEVER) return NEVER;
  const { starts, ends } = hours;
  let i = nearTo(hours, cal, t);
  while ((ends[i] ?? 0) <= t) i += 1;
  let start = Math.max(t, starts[i] ?? 0);
  while (start + labour > (ends[i] ?? 0)) {
    i += 1;
    start = starts[i] ?? 0;
  }
  return start;
}

/** The last opening at or before `t`; −NEVER before all. */
export function openingBy(hours: Intervals, cal: number, t: number): number {
  const { starts } = hours;
  let i = nearTo(hours, cal, t);
  for (let next = starts[i + 1] ?? NEVER; next <= t && next < NEVER; next = starts[i + 1] ?? NEVER) i += 1;
  return starts[i] ?? -NEVER;
}
