import { TZDate } from '@date-fns/tz';
import ical, { ICalEventStatus } from 'ical-generator';
import type { DocumentFile } from '../shared/reply.ts';

/** A drop-off or pick-up as it goes into a calendar. `uid` never changes; `sequence` rises with each change. */
export type CalendarEntry = {
  readonly uid: string;
  readonly sequence: number;
  readonly startMs: number;
  readonly minutes: number;
  readonly summary: string;
  readonly description: string;
  readonly place: string;
  readonly cancelled: boolean;
  readonly changedMs: number;
};

/**
 * Drop-offs and pick-ups as an iCalendar file, in the shop's zone with its VTIMEZONE.
 * @source RFC 5545
 */
export function calendarFile(
  shop: { readonly name: string; readonly zone: string },
  entries: readonly CalendarEntry[],
  fileName: string,
): DocumentFile {
  const calendar = ical({
    name: shop.name,
    prodId: { company: 'Rakelight', product: 'Rakelight', language: 'EN' },
  });
  calendar.timezone({ name: shop.zone, generator: () => timezoneBlock(shop.zone, entries) });
  for (const e of entries) {
    calendar.createEvent({
      id: e.uid,
      sequence: e.sequence,
      // Written by their wall clock in the shop's zone, never the computer's.
      start: new TZDate(e.startMs, shop.zone),
      end: new TZDate(e.startMs + e.minutes * 60_000, shop.zone),
      timezone: shop.zone,
      summary: e.summary,
      description: e.description,
      location: e.place,
      stamp: new Date(e.changedMs),
      status: e.cancelled ? ICalEventStatus.CANCELLED : ICalEventStatus.CONFIRMED,
    });
  }
  const bytes = new TextEncoder().encode(stamped(calendar.toString(), entries));
  return { fileName, mime: 'text/calendar; charset=utf-8', bytes };
}

/**
 * The library writes DTSTAMP by the clock of the zone it was given; the standard wants it in UTC.
 * @source RFC 5545, 3.8.7.2
 */
function stamped(text: string, entries: readonly CalendarEntry[]): string {
  let event = 0;
  return text.replace(/^DTSTAMP:\S+/gm, () => {
    const changed = stampOf(entries[event]?.changedMs ?? 0);
    event += 1;
    return `DTSTAMP:${changed}Z`;
  });
}

/** Offset of a zone from UTC in minutes at an instant. */
function offsetAt(ms: number, zone: string): number {
  const parts = new Intl.DateTimeFormat('en-GB', {
    timeZone: zone,
    hourCycle: 'h23',
    year: 'numeric',
    month: 'numeric',
    day: 'numeric',
    hour: 'numeric',
    minute: 'numeric',
    second: 'numeric',
  }).formatToParts(ms);
  const of = (type: string): number => Number(parts.find((p) => p.type === type)?.value ?? 0);
  const local = Date.UTC(of('year'), of('month') - 1, of('day'), of('hour'), of('minute'), of('second'));
  return Math.round((local - Math.floor(ms / 1000) * 1000) / 60_000);
}

type Change = { readonly atMs: number; readonly from: number; readonly to: number };

/** Each change of the clock around the entries, found by halving; a zone without changes has one observance. */
function changesAround(zone: string, entries: readonly CalendarEntry[]): readonly Change[] {
  const day = 86_400_000;
  const starts = entries.map((e) => e.startMs);
  const from = Math.min(...starts) - 400 * day;
  const to = Math.max(...starts) + 400 * day;
  const changes: Change[] = [];
  for (let t = from; t < to; t += day) {
    const [a, b] = [offsetAt(t, zone), offsetAt(t + day, zone)];
    if (a === b) continue;
    let [low, high] = [Math.floor(t / 60_000), Math.ceil((t + day) / 60_000)];
    while (high - low > 1) {
      const mid = (low + high) >> 1;
      if (offsetAt(mid * 60_000, zone) === a) low = mid;
      else high = mid;
    }
    changes.push({ atMs: high * 60_000, from: a, to: b });
  }
  return changes;
}

function timezoneBlock(zone: string, entries: readonly CalendarEntry[]): string {
  const first = entries[0]?.startMs ?? 0;
  const changes = entries.length === 0 ? [] : changesAround(zone, entries);
  const before = changes[0]?.from ?? offsetAt(first, zone);
  const base = observance('STANDARD', '19700101T000000', before, before);
  const rest = changes.map((c) =>
    observance(c.to > c.from ? 'DAYLIGHT' : 'STANDARD', stampOf(c.atMs + c.from * 60_000), c.from, c.to),
  );
  return ['BEGIN:VTIMEZONE', `TZID:${zone}`, base, ...rest, 'END:VTIMEZONE'].join('\r\n');
}

function observance(kind: string, start: string, from: number, to: number): string {
  return [
    `BEGIN:${kind}`,
    `DTSTART:${start}`,
    `TZOFFSETFROM:${offsetText(from)}`,
    `TZOFFSETTO:${offsetText(to)}`,
    `END:${kind}`,
  ].join('\r\n');
}

function offsetText(minutes: number): string {
  const abs = Math.abs(minutes);
  const pad = (n: number): string => String(n).padStart(2, '0');
  return `${minutes < 0 ? '-' : '+'}${pad(Math.floor(abs / 60))}${pad(abs % 60)}`;
}

/** `20270329T075500`. */
function stampOf(localMs: number): string {
  return new Date(localMs).toISOString().replace(/[-:]/g, '').slice(0, 15);
}
