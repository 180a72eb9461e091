import type { WeeklyHours } from '#core/shared/examples.ts';
import type { Manner } from '#core/shared/text/manner.ts';
import { weekday as weekdayOf } from '#core/shared/text/when.ts';

/** The ISO weekdays, Monday first. */
export const WEEKDAYS = [1, 2, 3, 4, 5, 6, 7] as const;

/** `Mon` for 1, in the shop's language. The first of January 2024 was a Monday. */
export function dayName(manner: Manner, weekday: number): string {
  return weekdayOf({ ...manner, zone: 'UTC' }, Date.UTC(2024, 0, weekday, 12));
}

type Part = { readonly startMin: number; readonly endMin: number };

/**
 * Spans of one day as people type them: `08:00–17:00`, `8-12, 13-17`, `8am-5pm`; nothing or a dash = closed.
 * Null where it cannot be read, ends before it starts, or overlaps.
 */
export function readSpans(text: string): readonly Part[] | null {
  const typed = text.trim().toLowerCase();
  if (typed === '' || /^[-–—]$/.test(typed)) return [];
  const parts = typed.split(/[,;+]|\band\b/u).map(readSpan);
  const spans = parts.filter((part) => part !== null).toSorted((a, b) => a.startMin - b.startMin);
  if (spans.length < parts.length) return null;
  const apart = spans.every((span, i) => span.startMin >= (spans[i - 1]?.endMin ?? 0));
  return apart ? spans : null;
}

function readSpan(text: string): Part | null {
  const [from, to, more] = text.trim().split(/\s*(?:-|–|—|\bto\b)\s*/u);
  if (from === undefined || to === undefined || more !== undefined) return null;
  const startMin = readClock(from);
  // The midnight that ends a day is its 24th hour.
  const endMin = readClock(to) || 1440;
  if (readClock(to) === null || startMin === null || endMin <= startMin) return null;
  return { startMin, endMin };
}

function readClock(text: string): number | null {
  const found = /^(\d{1,2})(?:[:.h](\d{2})?)?\s*(am|pm)?$/.exec(text.trim());
  if (!found) return null;
  const [, hour = '', minute = '0', half] = found;
  const typed = Number(hour);
  if (half !== undefined && (typed < 1 || typed > 12)) return null;
  const hours = half === undefined ? typed : (typed % 12) + (half === 'pm' ? 12 : 0);
  const minutes = hours * 60 + Number(minute);
  return Number(minute) < 60 && minutes <= 1440 ? minutes : null;
}

function clockText(minutes: number, cycle: 12 | 24): string {
  if (cycle === 12) return halfText(minutes % 1440);
  return `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`;
}

/** `8am`, `12:30pm`. */
function halfText(minutes: number): string {
  const minute = minutes % 60 === 0 ? '' : `:${String(minutes % 60).padStart(2, '0')}`;
  return `${(Math.floor(minutes / 60 + 11) % 12) + 1}${minute}${minutes < 720 ? 'am' : 'pm'}`;
}

/** A whole hour on a scale: `08`, `8am`. */
export function hourText(hour: number, cycle: 12 | 24): string {
  return cycle === 12 ? halfText(hour * 60) : String(hour).padStart(2, '0');
}

/** `08:00–12:00, 13:00–17:00`, or `8am–12pm, 1pm–5pm`; nothing where the day has none. Both are read again. */
export function spansText(spans: readonly Part[], cycle: 12 | 24 = 24): string {
  return spans.map((s) => `${clockText(s.startMin, cycle)}–${clockText(s.endMin, cycle)}`).join(', ');
}

/** What was typed and can't be read, by the week it is of and its day. */
export type Unread = Readonly<Record<string, string>>;

export function unreadKey(weekId: string, weekday: number): string {
  return `${weekday} ${weekId}`;
}

/** Whether anything of these weeks can't be read. */
export function unreadOf(unread: Unread, weekIds: readonly string[]): boolean {
  return weekIds.some((id) => WEEKDAYS.some((day) => unread[unreadKey(id, day)] !== undefined));
}

/** The same without what was typed on some days. */
export function withoutDays(unread: Unread, days: readonly number[]): Unread {
  return Object.fromEntries(
    Object.entries(unread).filter(([key]) => !days.includes(Number(key.split(' ')[0]))),
  );
}

/** The same with one text kept, or with `null` let go. */
export function withUnread(unread: Unread, key: string, text: string | null): Unread {
  const { [key]: _, ...others } = unread;
  return text === null ? others : { ...others, [key]: text };
}

export function ofDay(week: readonly WeeklyHours[], weekday: number): readonly WeeklyHours[] {
  return week.filter((w) => w.weekday === weekday);
}

/** The week with one day's spans replaced. */
export function withDay(
  week: readonly WeeklyHours[],
  weekday: number,
  spans: readonly Part[],
): readonly WeeklyHours[] {
  const others = week.filter((w) => w.weekday !== weekday);
  return [...others, ...spans.map((s) => ({ weekday, startMin: s.startMin, endMin: s.endMin }))].toSorted(
    (a, b) => a.weekday - b.weekday || a.startMin - b.startMin,
  );
}

/** The days that follow Monday's hours at a press. */
export const LIKE_MONDAY = [2, 3, 4, 5] as const;

/** The week with Tuesday to Friday as Monday is. */
export function likeMonday(week: readonly WeeklyHours[]): readonly WeeklyHours[] {
  return LIKE_MONDAY.reduce((next, day) => withDay(next, day, ofDay(week, 1)), week);
}

/** Minutes of the whole week. */
export function weekMinutes(week: readonly WeeklyHours[]): number {
  return week.reduce((sum, w) => sum + w.endMin - w.startMin, 0);
}

export function sameWeek(a: readonly WeeklyHours[], b: readonly WeeklyHours[]): boolean {
  return WEEKDAYS.every((day) => spansText(ofDay(a, day)) === spansText(ofDay(b, day)));
}

type Opening = { weekday: number; kind: 'shop' | 'desk'; openMin: number; closeMin: number };

/** Both weeks of a shop as the one list that is stored. */
export function openingOf(shop: readonly WeeklyHours[], desk: readonly WeeklyHours[]): Opening[] {
  const rows = (kind: 'shop' | 'desk', week: readonly WeeklyHours[]): Opening[] =>
    week.map((w) => ({ weekday: w.weekday, kind, openMin: w.startMin, closeMin: w.endMin }));
  return [...rows('shop', shop), ...rows('desk', desk)];
}

/** One of the two weeks out of the stored list. */
export function weekOf(hours: readonly Readonly<Opening>[], kind: 'shop' | 'desk'): readonly WeeklyHours[] {
  return hours
    .filter((h) => h.kind === kind)
    .map((h) => ({ weekday: h.weekday, startMin: h.openMin, endMin: h.closeMin }));
}
