import type { ReplanJob } from '#core/shared/views/plan.ts';
import { type TimeScale, timeScale } from '../../ui/time/scale.ts';

/**
 * The stretch of time that all moved plans need, as they are and as proposed, in minutes: the days the board shows
 * may end long before what is proposed.
 */
export function scaleOfMoves(moved: readonly Pick<ReplanJob, 'before' | 'after'>[]): TimeScale {
  const pieces = moved.flatMap((m) => [...m.before.pieces, ...m.after.pieces]);
  const from = Math.min(...pieces.map((p) => p.startMin));
  const to = Math.max(...pieces.map((p) => p.dwellEndMin));
  return timeScale({ from, to, open: [{ from, to }], closedAs: 0 });
}
