import { TZDate } from '@date-fns/tz';
import { describe, expect, it } from 'vitest';
import { addLocalDays, instantOf, localDayOf, minuteOfDayAt } from '#core/shared/time.ts';
import type { LocalDay } from '#core/shared/units.ts';

/** Clock changes at 02:00, at midnight, at 00:01, of half an hour, a day that was skipped, and none at all. */
const ZONES = [
  ...['Europe/Vienna', 'America/St_Johns', 'Australia/Lord_Howe', 'Pacific/Apia', 'Asia/Beirut'],
  ...['America/Sao_Paulo', 'Asia/Kathmandu', 'UTC'],
];

const pad = (n: number): string => String(n).padStart(2, '0');

describe.each(ZONES)('days kept in %s', (zone) => {
  it.each([2006, 2011, 2026])('are those of the zone at every half hour of %i', (year) => {
    for (let ms = Date.UTC(year, 0, 1); ms < Date.UTC(year + 1, 0, 2); ms += 1_800_000) {
      const at = new TZDate(ms, zone);
      const day = `${at.getFullYear()}-${pad(at.getMonth() + 1)}-${pad(at.getDate())}`;
      if (localDayOf(ms, zone) !== day || minuteOfDayAt(ms, zone) !== at.getHours() * 60 + at.getMinutes())
        expect.fail(`${new Date(ms).toISOString()}: ${localDayOf(ms, zone)}, not ${day}`);
    }
  });
  it('begin and go on as the zone says', () => {
    for (let day = '2011-01-01' as LocalDay; day < '2012-01-03'; day = addLocalDays(day, 1)) {
      const [y, m, d] = [Number(day.slice(0, 4)), Number(day.slice(5, 7)), Number(day.slice(8, 10))];
      for (const minute of [0, 61, 150, 1439])
        expect(instantOf(day, minute, zone)).toBe(
          new TZDate(y, m - 1, d, Math.floor(minute / 60), minute % 60, zone).getTime(),
        );
    }
  });
});
