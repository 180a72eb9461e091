import {
  applyReplan as apply,
  moveBlock,
  restorePlans as restore,
  swapBlocks,
} from '../bays/commands/plan.ts';
import { markBooked } from '../bookings/commands/jobs.ts';
import type { WriteCtx } from '../context.ts';
import { allRows } from '../db/prepared.ts';
import type { baysEntries } from '../shared/catalogue/bays.ts';
import type { InputOf } from '../shared/entry.ts';
import type { JobId } from '../shared/ids.ts';
import type { EpochMin } from '../shared/units.ts';
import type { PlanChange } from '../shared/views/bays.ts';

type In<N extends keyof typeof baysEntries> = InputOf<(typeof baysEntries)[N]>;

/** Moves a block; with consent, what was agreed with the customer follows the plan. @throws as bays' move */
export function move(ctx: WriteCtx, input: In<'bays.move'>): PlanChange {
  return agreed(ctx, moveBlock(ctx, input), input.consent ? [input.jobId] : []);
}
export function swap(ctx: WriteCtx, input: In<'bays.swap'>): PlanChange {
  return agreed(ctx, swapBlocks(ctx, input), input.consent ? [input.a.jobId, input.b.jobId] : []);
}
export function applyReplan(ctx: WriteCtx, input: In<'bays.applyReplan'>): PlanChange {
  return agreed(ctx, apply(ctx, input), input.consent);
}
export function restorePlans(ctx: WriteCtx, input: In<'bays.restorePlans'>): PlanChange {
  return restore(ctx, input);
}

const AGREED = `SELECT j.id AS jobId, j.drop_off_min AS dropOffMin, j.pick_up_min AS pickUpMin,
    min(s.arrive_min) AS arriveMin, max(s.leave_min) AS leaveMin,
    (SELECT max(p.dwell_end_min) FROM placement p WHERE p.job_id = j.id) AS readyMin, j.state
  FROM job j JOIN stay s ON s.job_id = j.id WHERE j.id = :jobId AND j.drop_off_min IS NOT NULL GROUP BY j.id`;
type Agreed = {
  readonly jobId: JobId;
  readonly dropOffMin: EpochMin;
  readonly pickUpMin: EpochMin;
  readonly arriveMin: EpochMin;
  readonly leaveMin: EpochMin;
  readonly readyMin: number;
  readonly state: string;
};

/** Where the customer agreed to other times, the job's drop-off and pick-up become those of the plan. */
function agreed(ctx: WriteCtx, change: PlanChange, jobIds: readonly JobId[]): PlanChange {
  for (const jobId of jobIds) {
    const row = allRows<Agreed>(ctx.db, AGREED, { jobId })[0];
    if (!row) continue;
    const dropOffMin = row.state === 'booked' ? row.arriveMin : row.dropOffMin;
    const pickUpMin = row.readyMin > row.pickUpMin ? row.leaveMin : row.pickUpMin;
    if (dropOffMin !== row.dropOffMin || pickUpMin !== row.pickUpMin)
      markBooked(ctx, { jobId, dropOffMin, pickUpMin, promisePpm: null, bold: false });
  }
  return change;
}
