import { describe, expect, it } from 'vitest';
import { PLAIN_MANNER } from '#core/shared/text/manner.ts';
import type { LocalDay } from '#core/shared/units.ts';
import { periodHeads, periodText } from '../../renderer/features/figures/periods.ts';

const MANNER = { ...PLAIN_MANNER, region: 'en-GB' };
const TODAY = '2026-11-25' as LocalDay;

function periods(...days: readonly string[]) {
  return days.map((day) => ({ day: day as LocalDay, toDay: day as LocalDay }));
}

describe('what stands at a period', () => {
  it('has the year of months below the first of them and wherever another year begins', () => {
    const months = periods('2024-11-25', '2024-12-01', '2025-01-01', '2025-02-01', '2025-09-01');
    expect(periodHeads(MANNER, months, 'month')).toEqual(['Nov\n2024', 'Dec', 'Jan\n2025', 'Feb', 'Sep']);
  });

  it('has the month of days below the first of them and wherever another month begins', () => {
    const days = periods('2026-10-30', '2026-10-31', '2026-11-01', '2026-11-02');
    expect(periodHeads(MANNER, days, 'day')).toEqual(['30\nOct', '31', '1\nNov', '2']);
  });

  it('is the number of the ISO week, also where the year turns', () => {
    expect(periodHeads(MANNER, periods('2026-12-28', '2027-01-04'), 'week')).toEqual(['53', '01']);
  });
});

describe('the days of a period in words', () => {
  it.each([
    ['2026-11-09', '2026-11-15', 'Mon 9 Nov – Sun 15 Nov'],
    ['2026-11-25', '2026-11-25', 'Wed 25 Nov'],
    ['2025-01-01', '2025-01-31', '1 Jan 2025 – 31 Jan 2025'],
    ['2025-12-29', '2026-01-04', '29 Dec 2025 – Sun 4 Jan'],
  ])('%s to %s have the year where it is not this one', (day, toDay, text) => {
    expect(periodText(MANNER, { day: day as LocalDay, toDay: toDay as LocalDay }, TODAY)).toBe(text);
  });
});
