import type { Manner } from '#core/shared/text/manner.ts';
import { dayOf, when } from '#core/shared/text/when.ts';
import { minuteOfDayAt } from '#core/shared/time.ts';

/** From when to when, minutes since the epoch: whole days by their names alone, `Thu 3 Dec – Sat 5 Dec`; else with the times. */
export function spanText(manner: Manner, startMin: number, endMin: number, nowMs: number): string {
  const [startMs, endMs] = [startMin * 60_000, endMin * 60_000];
  const atMidnight = [startMs, endMs].every((ms) => minuteOfDayAt(ms, manner.zone) === 0);
  if (!atMidnight) return `${when(manner, startMs, nowMs)} – ${when(manner, endMs, nowMs)}`;
  const [first, last] = [dayOf(manner, startMs, nowMs), dayOf(manner, endMs - 60_000, nowMs)];
  return first === last ? first : `${first} – ${last}`;
}
