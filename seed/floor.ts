import type { PersonId } from '../core/shared/ids.ts';
import { addLocalDays, instantOf, isoWeekday, localDayOf } from '../core/shared/time.ts';
import type { LocalDay } from '../core/shared/units.ts';
import { ZONE } from './frame.ts';

/** Opening hours of the demo shop by ISO weekday, minutes since midnight. */
export const OPEN: Readonly<Record<number, readonly [number, number] | null>> = {
  1: [480, 1080],
  2: [480, 1080],
  3: [480, 1080],
  4: [480, 1080],
  5: [480, 1080],
  6: [540, 780],
  7: null,
};

export type Stretch = { readonly startMs: number; readonly endMs: number };

/** The shop's time as the story needs it: when it is open, and when each person is free again. */
export type Floor = {
  openAt(ms: number): boolean;
  /** The first open instant at or after `ms`. */
  nextOpen(ms: number): number;
  /** `minutes` of work from `startMs` on, cut at closing time. */
  stretches(startMs: number, minutes: number): readonly Stretch[];
  freeAt(person: PersonId): number;
  hold(person: PersonId, untilMs: number): void;
};

export function floorOf(closed: ReadonlySet<LocalDay>): Floor {
  const free = new Map<PersonId, number>();
  const spans = new Map<LocalDay, Stretch | null>();
  const spanOf = (day: LocalDay): Stretch | null => {
    let span = spans.get(day);
    if (span === undefined) {
      const hours = closed.has(day) ? null : OPEN[isoWeekday(day)];
      span = hours
        ? { startMs: instantOf(day, hours[0], ZONE), endMs: instantOf(day, hours[1], ZONE) }
        : null;
      spans.set(day, span);
    }
    return span;
  };
  const nextOpen = (ms: number): number => {
    for (let day = localDayOf(ms, ZONE); ; day = addLocalDays(day, 1)) {
      const span = spanOf(day);
      if (span && ms < span.endMs) return Math.max(ms, span.startMs);
    }
  };
  const stretches = (startMs: number, minutes: number): readonly Stretch[] => {
    const parts: Stretch[] = [];
    let left = minutes * 60_000;
    for (let at = nextOpen(startMs); left > 0; at = nextOpen(at)) {
      const end = Math.min(at + left, spanOf(localDayOf(at, ZONE))?.endMs ?? at);
      parts.push({ startMs: at, endMs: end });
      left -= end - at;
      at = end;
    }
    return parts;
  };
  return {
    nextOpen,
    stretches,
    openAt: (ms) => nextOpen(ms) === ms,
    freeAt: (person) => free.get(person) ?? 0,
    hold: (person, untilMs) => void free.set(person, untilMs),
  };
}
