import { describe, expect, it } from 'vitest';
import { PLAIN_MANNER } from '#core/shared/text/manner.ts';
import { daysText } from '#core/shared/text/when.ts';
import type { LocalDay } from '#core/shared/units.ts';
import { firstDay, turnedFrom } from '../../renderer/features/bays/weekDays.ts';

const day = (text: string) => text as LocalDay;
/** A Friday; its Monday is the 23rd. */
const FRIDAY = day('2026-11-27');

describe('the days that the board shows', () => {
  it('begin yesterday in the week of today, and on a Monday or Tuesday with the week itself', () => {
    expect(firstDay(null, FRIDAY, 'week')).toBe('2026-11-26');
    expect(firstDay(null, day('2026-11-23'), 'week')).toBe('2026-11-23');
    expect(firstDay(null, day('2026-11-24'), 'week')).toBe('2026-11-23');
    expect(firstDay(null, day('2026-11-29'), 'week')).toBe('2026-11-28');
  });

  it('are calendar days and weeks where somebody turned to them, and four weeks from a Monday', () => {
    expect(firstDay(FRIDAY, FRIDAY, 'week')).toBe('2026-11-23');
    expect(firstDay(FRIDAY, FRIDAY, 'day')).toBe(FRIDAY);
    expect(firstDay(null, FRIDAY, 'weeks')).toBe('2026-11-23');
  });

  it('are named by their dates where they are no calendar week', () => {
    expect(daysText(PLAIN_MANNER, FRIDAY, day('2026-11-30')).replace(/\s/gu, ' ')).toBe('27 – 30 Nov');
    expect(daysText(PLAIN_MANNER, FRIDAY, day('2026-12-03')).replace(/\s/gu, ' ')).toBe('27 Nov – 3 Dec');
  });

  it('turn back to the days of this week that are over, then week by week, and on to the next Monday', () => {
    const first = firstDay(null, FRIDAY, 'week');
    expect(turnedFrom(first, -1, 'week')).toBe('2026-11-23');
    expect(turnedFrom(day('2026-11-23'), -1, 'week')).toBe('2026-11-16');
    expect(turnedFrom(first, 1, 'week')).toBe('2026-11-30');
    expect(turnedFrom(FRIDAY, 1, 'day')).toBe('2026-11-28');
  });
});
