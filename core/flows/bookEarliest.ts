import { plannable, refuseImpossible } from '../bays/commands/offers.ts';
import { savePlans } from '../bays/commands/plan.ts';
import { chanceBy } from '../bays/rules/promise.ts';
import { soonestFor } from '../bays/rules/soonest.ts';
import { markBooked } from '../bookings/commands/jobs.ts';
import type { WriteCtx } from '../context.ts';
import type { baysEntries } from '../shared/catalogue/bays.ts';
import type { InputOf, OutputOf } from '../shared/entry.ts';
import type { EpochMin, Ppm } from '../shared/units.ts';
import { liveBoard } from '../views/liveBoard.ts';

type Entries = typeof baysEntries;

/**
 * Books a job where it fits first, on the board as it stands now.
 * @throws JOB_NOT_PLANNABLE · JOB_HAS_NO_STAGES · NO_PLACE_FOR_JOB with the reason
 */
export function bookEarliest(
  ctx: WriteCtx,
  input: InputOf<Entries['bays.bookEarliest']>,
): OutputOf<Entries['bays.bookEarliest']> {
  const live = liveBoard(ctx.db, { nowMs: ctx.now, jobId: input.jobId, withoutGone: true });
  const found = plannable(live, input.jobId);
  const job = { ...found, promiseMin: null };
  const { levelPpm } = live.shop.settings.promises;
  const choice = soonestFor(live.board, job, {
    notBeforeMin: input.notBeforeMin ?? 0,
    levelPpm,
    runs: input.runs,
    marginMin: input.marginMin,
  });
  if (!choice) return refuseImpossible(live, job);
  const { plan } = choice.placement;
  const board = {
    ...live.board,
    jobs: new Map(live.board.jobs).set(job.id, job.start.kind === 'here' ? job : { ...job, start: FREE }),
  };
  savePlans(ctx, { ...live, board }, [plan], new Set());
  const dropOffMin = (plan.stays[0]?.arriveMin ?? live.board.nowMin) as EpochMin;
  const pickUpMin = choice.pickUpMin as EpochMin;
  const promisePpm = chanceBy(choice.ready, pickUpMin) as Ppm;
  markBooked(ctx, { jobId: job.id, dropOffMin, pickUpMin, promisePpm, bold: promisePpm < levelPpm });
  return { dropOffMin, pickUpMin };
}
const FREE = { kind: 'free', notBeforeMin: 0 } as const;
