import { describe, expect, it } from 'vitest';
import { PLAIN_MANNER } from '#core/shared/text/manner.ts';
import type { LocalDay } from '#core/shared/units.ts';
import type { PeriodKind } from '#core/shared/views/figures.ts';
import { periodHead, periodText } from '../../renderer/features/figures/periods.ts';
import { headLines } from '../../renderer/ui/charts/heads.ts';

const MANNER = { ...PLAIN_MANNER, region: 'en-GB' };
const TODAY = '2026-11-25' as LocalDay;

function shown(by: PeriodKind, days: readonly string[], step = 1): readonly string[] {
  return headLines(
    days.map((day) => periodHead(MANNER, { day: day as LocalDay }, by)),
    step,
  );
}

describe('what stands at a period', () => {
  it('has the year of months below the first of them and wherever another year begins', () => {
    const months = ['2024-11-25', '2024-12-01', '2025-01-01', '2025-02-01', '2025-09-01'];
    expect(shown('month', months)).toEqual(['Nov\n2024', 'Dec', 'Jan\n2025', 'Feb', 'Sep']);
  });

  it('has it at the first one shown of a year, where not every month is', () => {
    const months = ['2024-11-01', '2024-12-01', '2025-01-01', '2025-02-01', '2025-03-01'];
    expect(shown('month', months, 3)).toEqual(['Nov\n2024', '', '', 'Feb\n2025', '']);
  });

  it('has the month of days below the first of them and wherever another month begins', () => {
    const days = ['2026-10-30', '2026-10-31', '2026-11-01', '2026-11-02'];
    expect(shown('day', days)).toEqual(['30\nOct', '31', '1\nNov', '2']);
  });

  it('is the number of the ISO week, also where the year turns', () => {
    expect(shown('week', ['2026-12-28', '2027-01-04'])).toEqual(['53', '01']);
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
