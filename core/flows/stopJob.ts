import { standStill } from '../bays/commands/plan.ts';
import { stopHalfWay as endHalfWay } from '../bookings/commands/ends.ts';
import type { WriteCtx } from '../context.ts';
import type { bookingsEntries } from '../shared/catalogue/bookings.ts';
import type { InputOf } from '../shared/entry.ts';

/** Stops a job half way and lets go of the bays and people that were still to come. @throws as bookings' stop */
export function stopHalfWay(
  ctx: WriteCtx,
  input: InputOf<(typeof bookingsEntries)['bookings.stopHalfWay']>,
): ReturnType<typeof endHalfWay> {
  const shares = endHalfWay(ctx, input);
  standStill(ctx, input.jobId);
  return shares;
}
