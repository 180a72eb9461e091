import { addLocalDays, localDayOf, localDaysBetween } from '../time.ts';
import type { LocalDay } from '../units.ts';
import type { Figures, Manner } from './manner.ts';
import { say } from './say.ts';

/** Dates and times as people say them, in the shop's zone. Exact forms are for hovering and print. */
const dates = new Map<string, Intl.DateTimeFormat>();

function formatOf(region: string, zone: string, options: Intl.DateTimeFormatOptions): Intl.DateTimeFormat {
  const key = `${region}/${zone}/${JSON.stringify(options)}`;
  let found = dates.get(key);
  if (!found) {
    found = new Intl.DateTimeFormat(region, { ...options, timeZone: zone });
    dates.set(key, found);
  }
  return found;
}

function written(region: string, zone: string, options: Intl.DateTimeFormatOptions, ms: number): string {
  const said = formatOf(region, zone, options).format(ms).replace(BEFORE_HALF, '\u00a0');
  return ENGLISH.test(region) ? said.replace(STRAY_COMMA, '').replace('Sept', 'Sep') : said;
}

const ENGLISH = /^en\b/;

/** A comma is kept only where a year follows the number of a day: `Mar 12, 2027`. */
const STRAY_COMMA = /(?<!\d),|,(?! \d{4})/gu;
/** The blank before AM and PM, whichever the runtime writes: it never breaks, and every font has its glyph. */
const BEFORE_HALF = /\s(?=[ap]\.?m)/iu;

const cycles = new Map<string, 12 | 24>();

/**
 * Whether a region says the time in two halves of 12 hours or in one day of 24.
 * @source Unicode CLDR, time data of the region, as the runtime has it
 */
export function hourCycleOf(region: string): 12 | 24 {
  let found = cycles.get(region);
  if (found === undefined) {
    const { hour12 } = new Intl.DateTimeFormat(region, { hour: 'numeric' }).resolvedOptions();
    found = hour12 ? 12 : 24;
    cycles.set(region, found);
  }
  return found;
}

/** `14:30`, or `2:30 PM` where the region says it so. Never `24:00`. */
export function clock(manner: Figures, ms: number): string {
  const whole = hourCycleOf(manner.region) === 24;
  const parts: Intl.DateTimeFormatOptions = whole
    ? { hour: '2-digit', minute: '2-digit', hourCycle: 'h23' }
    : { hour: 'numeric', minute: '2-digit', hour12: true };
  return written(manner.region, manner.zone, parts, ms);
}

/** A whole hour on a scale: `08`, or `8 AM`. */
export function hourMark(manner: Figures, ms: number): string {
  if (hourCycleOf(manner.region) === 24) return clock(manner, ms).slice(0, 2);
  return written(manner.region, manner.zone, { hour: 'numeric', hour12: true }, ms);
}

/** `Thu`. */
export function weekday(manner: Figures, ms: number): string {
  return written(manner.region, manner.zone, { weekday: 'short' }, ms);
}

/** `Thu 14:30`: for the days around now. */
export function dayTime(manner: Figures, ms: number): string {
  return `${weekday(manner, ms)} ${clock(manner, ms)}`;
}

/**
 * The same for today and the six days after, else `Thu 3 Dec 14:30`: a weekday alone is read as the next of that name.
 * A day that has passed has its date too: a promise of last Wednesday must not be read as one for this.
 */
export function dayTimeFrom(manner: Figures, ms: number, nowMs: number): string {
  const away = localDaysBetween(localDayOf(nowMs, manner.zone), localDayOf(ms, manner.zone));
  return away >= 0 && away <= 6 ? dayTime(manner, ms) : `${dayOf(manner, ms, nowMs)} ${clock(manner, ms)}`;
}

/** `Thu 26 Nov`; with the year where it is not the year of `nowMs`. */
export function dayOf(manner: Figures, ms: number, nowMs?: number): string {
  const parts: Intl.DateTimeFormatOptions = { weekday: 'short', day: 'numeric', month: 'short' };
  const elsewhere =
    nowMs !== undefined &&
    localDayOf(ms, manner.zone).slice(0, 4) !== localDayOf(nowMs, manner.zone).slice(0, 4);
  return written(manner.region, manner.zone, elsewhere ? { ...parts, year: 'numeric' } : parts, ms);
}

/** `26 Nov 2026`: a date on paper. */
export function date(manner: Figures, day: LocalDay): string {
  const parts: Intl.DateTimeFormatOptions = { day: 'numeric', month: 'short', year: 'numeric' };
  return written(manner.region, 'UTC', parts, Date.parse(`${day}T00:00Z`));
}

/** A local day as people say it: `Thu 26 Nov`; of another year than that of `today` as a date, `26 Nov 2025`. */
export function dayText(manner: Figures, day: LocalDay, today: LocalDay = day): string {
  if (day.slice(0, 4) !== today.slice(0, 4)) return date(manner, day);
  const parts: Intl.DateTimeFormatOptions = { weekday: 'short', day: 'numeric', month: 'short' };
  return written(manner.region, 'UTC', parts, Date.parse(`${day}T00:00Z`));
}

/** The month that a day lies in, short enough for an axis: `Nov`. */
export function monthText(manner: Figures, day: LocalDay): string {
  return written(manner.region, 'UTC', { month: 'short' }, Date.parse(`${day}T00:00Z`));
}

/** A stretch of local days, the last one with them: `24 – 30 Nov`, `28 Nov – 4 Dec`. */
export function daysText(manner: Manner, first: LocalDay, last: LocalDay): string {
  const parts: Intl.DateTimeFormatOptions = { day: 'numeric', month: 'short', timeZone: 'UTC' };
  const at = (day: LocalDay): number => Date.parse(`${day}T00:00Z`);
  return new Intl.DateTimeFormat(manner.region, parts)
    .formatRange(at(first), at(last))
    .replaceAll('Sept', 'Sep');
}

/**
 * The shortest plain way to say an instant seen from now: `today 17:30`, `tomorrow 09:00`, `yesterday 16:10`,
 * `Thu 14:30` in the coming six days, else `Thu 3 Dec 14:30`, with the year where it is another one.
 */
export function when(manner: Manner, ms: number, nowMs: number): string {
  const day = localDayOf(ms, manner.zone);
  const today = localDayOf(nowMs, manner.zone);
  const away = localDaysBetween(today, day);
  if (away === 0) return say(manner.locale, 'ui.when.today', { time: clock(manner, ms) });
  if (day === addLocalDays(today, 1))
    return say(manner.locale, 'ui.when.tomorrow', { time: clock(manner, ms) });
  if (away === -1) return say(manner.locale, 'ui.when.yesterday', { time: clock(manner, ms) });
  return dayTimeFrom(manner, ms, nowMs);
}

/** `CET`, `MEZ`, `UTC+1`: languages set other words beside the hour, so the name is taken by itself. */
function zoneName(manner: Figures, ms: number): string {
  const parts = formatOf(manner.region, manner.zone, { timeZoneName: 'short', hour: 'numeric' });
  return parts.formatToParts(ms).find((part) => part.type === 'timeZoneName')?.value ?? '';
}

/** Everything, for hovering and print: `Thursday 26 November 2026 14:30 CET`. */
export function exact(manner: Figures, ms: number): string {
  const parts: Intl.DateTimeFormatOptions = {
    weekday: 'long',
    day: 'numeric',
    month: 'long',
    year: 'numeric',
  };
  const day = written(manner.region, manner.zone, parts, ms);
  return `${day} ${clock(manner, ms)} ${zoneName(manner, ms)}`;
}

/**
 * Two instants with an en dash, the second shortened where the day is the same: `Thu 08:30–16:30`; seen from `nowMs` each has
 * its date where its weekday alone would be read as another day.
 */
export function span(manner: Figures, fromMs: number, toMs: number, nowMs?: number): string {
  const at = (ms: number): string =>
    nowMs === undefined ? dayTime(manner, ms) : dayTimeFrom(manner, ms, nowMs);
  const same = localDayOf(fromMs, manner.zone) === localDayOf(toMs, manner.zone);
  return `${at(fromMs)}${same ? '–' : ' – '}${same ? clock(manner, toMs) : at(toMs)}`;
}
