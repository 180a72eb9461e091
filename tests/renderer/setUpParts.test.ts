import { describe, expect, it } from 'vitest';
import type { BackupView } from '#core/shared/views/host.ts';
import { copyDays } from '../../renderer/features/shop/copyDays.ts';
import { likeMonday, readSpans, spansText, withDay } from '../../renderer/features/shop/week.ts';

describe('hours of a day as people type them', () => {
  it.each([
    ['08:00–17:00', '08:00–17:00'],
    ['8-12, 13-17:30', '08:00–12:00, 13:00–17:30'],
    ['1pm-5 pm, 8am to 12', '08:00–12:00, 13:00–17:00'],
    ['22-24', '22:00–24:00'],
    ['', ''],
    ['–', ''],
  ])('%s is read as %s', (typed, said) => {
    expect(spansText(readSpans(typed) ?? [])).toBe(said);
    expect(readSpans(typed)).not.toBeNull();
  });

  it.each(['early', '17-8', '8-12, 11-14', '8', '25-26', '8:75-9', '13pm-14', '8-9-10'])(
    '%s cannot be read',
    (typed) => expect(readSpans(typed)).toBeNull(),
  );

  it('Tuesday to Friday become as Monday, Saturday stays', () => {
    const saturday = { weekday: 6, startMin: 540, endMin: 780 };
    const week = likeMonday(withDay([saturday], 1, [{ startMin: 480, endMin: 1020 }]));
    expect(week.map((w) => [w.weekday, w.startMin, w.endMin])).toEqual([
      ...[1, 2, 3, 4, 5].map((day) => [day, 480, 1020]),
      [6, 540, 780],
    ]);
  });
});

describe('the last days and their copies', () => {
  it('a day without one is missed only after the first copy and before today, in the shop’s own zone', () => {
    const at = (text: string): BackupView => ({
      ...{ fileName: text, bytes: 1, reason: 'daily' },
      atMs: Date.parse(text) as BackupView['atMs'],
    });
    // 23:30 UTC on the 21st is the 22nd in Vienna (UTC+1 in November).
    const copies = [at('2026-11-24T05:00Z'), at('2026-11-21T23:30Z')];
    const days = copyDays(copies, Date.parse('2026-11-25T09:00Z'), 'Europe/Vienna', 5);
    expect(days.map((d) => [d.day, d.state])).toEqual([
      ['2026-11-21', 'before'],
      ['2026-11-22', 'copied'],
      ['2026-11-23', 'missed'],
      ['2026-11-24', 'copied'],
      ['2026-11-25', 'before'],
    ]);
  });
});
