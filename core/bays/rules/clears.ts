import { next } from './calendar.ts';
import type { Board, JobPlan, Place, Stay } from './model.ts';
import type { Occupancy } from './occupancy.ts';

/**
 * The same work at the same times, but the car leaves a bay for the yard as soon as its work there is over, where there
 * is room for it, instead of standing in the bay until it is due elsewhere: others can come in sooner. The occupancy is
 * without the job itself.
 */
export function clearedPlan(board: Board, occupancy: Occupancy, plan: JobPlan): JobPlan {
  const yards = board.places.filter((p) => p.kind === 'yard');
  if (yards.length === 0) return plan;
  const stays = plan.stays.flatMap((stay): readonly Stay[] => {
    const goesMin = next(board.open, workOver(plan, stay));
    const waits = goesMin > board.nowMin && goesMin + board.moveMin < stay.leaveMin;
    const yard = waits ? yardFor(yards, occupancy, { ...stay, arriveMin: goesMin }) : undefined;
    return yard
      ? [
          { ...stay, leaveMin: goesMin },
          { ...stay, bayId: yard.id, arriveMin: goesMin },
        ]
      : [stay];
  });
  return stays.length === plan.stays.length ? plan : { ...plan, stays };
}

/** When all work in a stay, drying included, is over; −Infinity where nothing is done in it. */
function workOver({ pieces }: JobPlan, { bayId, arriveMin, leaveMin }: Stay): number {
  return pieces
    .filter((p) => p.bayId === bayId && arriveMin <= p.startMin && p.dwellEndMin <= leaveMin)
    .reduce((latest, p) => Math.max(latest, p.dwellEndMin), Number.NEGATIVE_INFINITY);
}

function yardFor(yards: readonly Place[], occupancy: Occupancy, stay: Stay): Place | undefined {
  const isRoom = (yard: Place): boolean =>
    occupancy.placeGaps(yard.id).some((g) => g.startMin <= stay.arriveMin && stay.leaveMin <= g.endMin);
  return yards.some((y) => y.id === stay.bayId) ? undefined : yards.find(isRoom);
}
