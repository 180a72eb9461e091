import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  add,
  type Calendar,
  calendarOf,
  gapsBetween,
  intersect,
  isOpen,
  lastAtOrBelow,
  NEVER,
  next,
  nextFit,
  openBetween,
  type Span,
  spansOf,
  subtract,
} from '#core/bays/rules/calendar.ts';
import { daysBetween, weekCalendar } from '#core/bays/rules/hours.ts';
import { addFrom, intervalsOf, nextFitFrom, nextFrom, openingBy } from '#core/bays/rules/walk.ts';
import { addLocalDays, minuteOf } from '#core/shared/time.ts';
import type { LocalDay } from '#core/shared/units.ts';

/** The same said minute by minute: which of the first 200 minutes are open. */
const LAST = 200;
const span = fc
  .tuple(fc.integer({ min: 0, max: LAST }), fc.integer({ min: 0, max: 40 }))
  .map(([startMin, length]): Span => ({ startMin, endMin: Math.min(LAST, startMin + length) }));
const spans = fc.array(span, { maxLength: 8 });
const minute = fc.integer({ min: -5, max: LAST + 5 });
const within = (all: readonly Span[], t: number): boolean => all.some((s) => s.startMin <= t && t < s.endMin);
const minutes = Array.from({ length: LAST + 10 }, (_, i) => i - 5);
const openMinutes = (cal: Calendar): number[] => minutes.filter((t) => isOpen(cal, t));

describe('a calendar is the set of its open minutes', () => {
  it('however its spans lie, and lists them apart and in order', () => {
    fc.assert(
      fc.property(spans, (all) => {
        const cal = calendarOf(all);
        expect(openMinutes(cal)).toEqual(minutes.filter((t) => within(all, t)));
        const list = spansOf(cal);
        for (const [i, s] of list.entries()) {
          expect(s.endMin).toBeGreaterThan(s.startMin);
          expect(s.startMin).toBeGreaterThan(list[i - 1]?.endMin ?? -1);
        }
      }),
    );
  });

  it('in what two share, and in what is left when spans are taken out', () => {
    fc.assert(
      fc.property(spans, spans, (a, b) => {
        const [calA, calB] = [calendarOf(a), calendarOf(b)];
        expect(openMinutes(intersect(calA, calB))).toEqual(
          minutes.filter((t) => within(a, t) && within(b, t)),
        );
        expect(openMinutes(subtract(calA, b))).toEqual(minutes.filter((t) => within(a, t) && !within(b, t)));
        expect(openMinutes(calendarOf(gapsBetween(b, 0, LAST)))).toEqual(
          minutes.filter((t) => t >= 0 && t < LAST && !within(b, t)),
        );
      }),
    );
  });

  it('in its sums, its next open minute and the first place where work fits', () => {
    fc.assert(
      fc.property(spans, minute, minute, fc.integer({ min: 1, max: 30 }), (all, t, u, labour) => {
        const cal = calendarOf(all);
        const open = openMinutes(cal);
        expect(openBetween(cal, t, u)).toBe(open.filter((m) => m >= t && m < u).length);
        expect(next(cal, t)).toBe(open.find((m) => m >= t) ?? NEVER);
        const fits = open.find(
          (m) => m >= t && Array.from({ length: labour }, (_, i) => m + i).every((x) => within(all, x)),
        );
        expect(nextFit(cal, t, labour)).toBe(fits ?? NEVER);
      }),
    );
  });

  it('in when work is done, also walked from a known interval', () => {
    fc.assert(
      fc.property(spans, minute, fc.integer({ min: 1, max: 60 }), (all, t, labour) => {
        const cal = calendarOf(all);
        const ahead = openMinutes(cal).filter((m) => m >= t);
        const last = ahead[labour - 1];
        expect(add(cal, t, labour)).toBe(last === undefined ? NEVER : last + 1);
        // Wide enough for several days; another calendar before it.
        const wide = calendarOf(
          spansOf(cal).map((x) => ({ startMin: x.startMin * 97, endMin: x.endMin * 97 })),
        );
        const hours = intervalsOf(new Set([cal, wide]));
        for (const [n, c, at] of [
          [0, cal, t],
          [1, wide, t * 97 + 5],
        ] as const) {
          expect(nextFrom(hours, n, at)).toBe(next(c, at));
          expect(addFrom(hours, n, at, labour)).toBe(add(c, at, labour));
          expect(nextFitFrom(hours, n, at, labour)).toBe(nextFit(c, at, labour));
          expect(openingBy(hours, n, at)).toBe(c.starts[lastAtOrBelow(c.starts, at)] ?? -NEVER);
        }
        expect([addFrom, nextFitFrom].map((walk) => walk(hours, 1, NEVER, labour))).toEqual([NEVER, NEVER]);
        expect([nextFrom(hours, 1, NEVER), openingBy(hours, 1, NEVER)]).toEqual([
          NEVER,
          wide.starts.at(-1) ?? -NEVER,
        ]);
      }),
    );
  });
});

it('work that ends as the shop closes has ended then, not when it opens again', () => {
  const cal = calendarOf([
    { startMin: 0, endMin: 10 },
    { startMin: 20, endMin: 30 },
  ]);
  expect([add(cal, 0, 10), add(cal, 0, 11), add(cal, 5, 15)]).toEqual([10, 21, 30]);
});

describe('weekly hours over real days', () => {
  const zone = fc.constantFrom('Europe/Vienna', 'America/New_York', 'Australia/Lord_Howe', 'Asia/Kathmandu');
  const day = fc.integer({ min: 0, max: 1500 }).map((n) => addLocalDays('2024-01-01' as LocalDay, n));

  it('days follow each other without a gap and are as long as the zone’s clock says', () => {
    fc.assert(
      fc.property(zone, day, fc.integer({ min: 0, max: 40 }), (in_, from, count) => {
        const rows = daysBetween(from, addLocalDays(from, count), in_);
        expect(rows).toHaveLength(count + 1);
        for (const [i, row] of rows.entries()) {
          const next = addLocalDays(row.day, 1);
          expect(row.endMin - row.startMin).toBe(minuteOf(next, 0, in_) - minuteOf(row.day, 0, in_));
          if (i > 0) expect(row.startMin).toBe(rows[i - 1]?.endMin);
        }
      }),
    );
  });

  it('a span of the morning and one of the afternoon never overlap and lie within their day', () => {
    const at = fc.integer({ min: 0, max: 720 });
    fc.assert(
      fc.property(zone, day, at, at, (in_, from, morning, length) => {
        const days = daysBetween(from, addLocalDays(from, 13), in_);
        const weekly = [1, 2, 3, 4, 5, 6, 7].flatMap((weekday) => [
          { weekday, startMin: Math.min(morning, 719), endMin: 720 },
          { weekday, startMin: 720, endMin: Math.min(1440, 720 + length) },
        ]);
        const found = weekCalendar(days, weekly, in_);
        for (const s of spansOf(found)) {
          const own = days.find((d) => d.startMin <= s.startMin && s.startMin < d.endMin);
          expect(own).toBeDefined();
          if (morning > 0 || length < 720) expect(s.endMin).toBeLessThanOrEqual(own?.endMin ?? 0);
        }
        const whole = days.reduce((sum, d) => sum + d.endMin - d.startMin, 0);
        expect(openBetween(found, days[0]?.startMin ?? 0, days.at(-1)?.endMin ?? 0)).toBeLessThanOrEqual(
          whole,
        );
      }),
    );
  });
});
