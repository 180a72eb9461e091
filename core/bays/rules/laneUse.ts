import type { LaneUse } from '#core/shared/views/bays.ts';
import type { Span } from './calendar.ts';

/** What stood and was done in a place, in whole minutes; spans of a kind may overlap. */
export type LaneFacts = {
  readonly open: readonly Span[];
  /** When the place itself is closed. */
  readonly closed: readonly Span[];
  readonly standing: readonly Span[];
  readonly curing: readonly Span[];
  readonly attended: readonly Span[];
};

/**
 * The open minutes of a place, each counted once: as attended where somebody is at a car, else as cure, else as a car
 * that stands, else as idle. `openMin` is their sum. Minutes outside `open` or inside `closed` are in none.
 */
export function laneUse({ open, closed, standing, curing, attended }: LaneFacts): LaneUse {
  const fromMin = Math.min(...open.map((s) => s.startMin));
  const toMin = Math.max(...open.map((s) => s.endMin));
  const marks = new Uint8Array(open.length === 0 ? 0 : toMin - fromMin);
  const paint = (spans: readonly Span[], mark: (was: number) => number): void => {
    for (const s of spans)
      for (let t = Math.max(s.startMin, fromMin); t < Math.min(s.endMin, toMin); t += 1)
        marks[t - fromMin] = mark(marks[t - fromMin] ?? 0);
  };
  const OUT = 0;
  paint(open, () => 1);
  paint(closed, () => OUT);
  for (const [i, spans] of [standing, curing, attended].entries())
    paint(spans, (was) => (was === OUT ? OUT : i + 2));
  const sums = [0, 0, 0, 0, 0];
  for (const mark of marks) sums[mark] = (sums[mark] ?? 0) + 1;
  const [, idleMin = 0, standingMin = 0, cureMin = 0, attendedMin = 0] = sums;
  const openMin = idleMin + standingMin + cureMin + attendedMin;
  return { openMin, attendedMin, cureMin, standingMin, idleMin };
}
