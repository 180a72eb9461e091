import { addLocalDays, localDayOf } from '#core/shared/time.ts';
import type { LocalDay } from '#core/shared/units.ts';
import type { BackupView } from '#core/shared/views/host.ts';

/** before = the shop's first copy is newer than this day; missed = a day since then without one. */
export type CopyDay = { readonly day: LocalDay; readonly state: 'copied' | 'missed' | 'before' };

/** The last `count` days up to today, each with whether a copy of it is there. Today is never missed yet. */
export function copyDays(
  copies: readonly BackupView[],
  nowMs: number,
  zone: string,
  count: number,
): readonly CopyDay[] {
  const have = new Set(copies.map((copy) => localDayOf(copy.atMs, zone)));
  const today = localDayOf(nowMs, zone);
  const first = [...have].toSorted()[0] ?? today;
  return Array.from({ length: count }, (_, i) => {
    const day = addLocalDays(today, i - count + 1);
    const state = have.has(day) ? 'copied' : day < first || day === today ? 'before' : 'missed';
    return { day, state };
  });
}
