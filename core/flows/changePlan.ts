import { applyReplan as apply } from '../bays/commands/applyReplan.ts';
import { resizeStage, swapBlocks } from '../bays/commands/changes.ts';
import { moveBlock, refuseOvertaken, restorePlans as restore } from '../bays/commands/plan.ts';
import { agreedBy } from '../bays/rules/lands.ts';
import { chanceBy } from '../bays/rules/promise.ts';
import { simulateReady } from '../bays/rules/simulate.ts';
import { markBooked } from '../bookings/commands/jobs.ts';
import type { WriteCtx } from '../context.ts';
import { allRows } from '../db/prepared.ts';
import type { bayChangeEntries } from '../shared/catalogue/bayChanges.ts';
import type { baysEntries } from '../shared/catalogue/bays.ts';
import type { InputOf } from '../shared/entry.ts';
import { refuse } from '../shared/errors.ts';
import type { JobId } from '../shared/ids.ts';
import type { EpochMin, Ppm } from '../shared/units.ts';
import type { Agreement } from '../shared/views/plan.ts';
import type { PlanChange } from '../shared/views/planChange.ts';
import { liveBoard } from '../views/liveBoard.ts';

/** The same runs as every other promise is drawn from. */
const SEED = 20;

type In<N extends keyof typeof baysEntries> = InputOf<(typeof baysEntries)[N]>;

/** Moves a block; with consent, what was agreed with the customer follows the plan. @throws as bays' move */
export function move(ctx: WriteCtx, input: In<'bays.move'>): PlanChange {
  return agreed(ctx, moveBlock(ctx, input), input.consent ? [input.jobId] : [], input.told);
}
export function swap(ctx: WriteCtx, input: In<'bays.swap'>): PlanChange {
  return agreed(ctx, swapBlocks(ctx, input), input.consent ? [input.a.jobId, input.b.jobId] : [], input.told);
}
export function resize(ctx: WriteCtx, input: InputOf<(typeof bayChangeEntries)['bays.resize']>): PlanChange {
  return agreed(ctx, resizeStage(ctx, input), input.consent ? [input.jobId] : [], input.told);
}
export function applyReplan(ctx: WriteCtx, input: In<'bays.applyReplan'>): PlanChange {
  return agreed(ctx, apply(ctx, input), input.consent);
}
/** Puts plans back with what had been agreed for them. @throws as bays' own · UNDO_OVERTAKEN */
export function restorePlans(ctx: WriteCtx, input: In<'bays.restorePlans'>): PlanChange {
  refuseOvertaken(ctx, input);
  const before = new Map(input.plans.map((p) => [p.jobId, agreementOf(ctx, p.jobId)]));
  // What had been agreed comes back first: the plans are checked against it.
  for (const { jobId, agreed: was } of input.plans) if (was) markBooked(ctx, { jobId, ...was });
  const change = restore(ctx, input);
  const undo = change.undo.map((p) => {
    const asked = input.plans.some((x) => x.jobId === p.jobId && x.agreed);
    const was = before.get(p.jobId);
    return asked && was ? { ...p, agreed: was } : p;
  });
  return { ...change, undo };
}

const AGREED = `SELECT j.drop_off_min AS dropOffMin, j.pick_up_min AS pickUpMin, j.promise_ppm AS promisePpm, j.bold,
    min(s.arrive_min) AS arriveMin, max(s.leave_min) AS leaveMin,
    (SELECT max(p.dwell_end_min) FROM placement p WHERE p.job_id = j.id) AS readyMin, j.state
  FROM job j JOIN stay s ON s.job_id = j.id WHERE j.id = :jobId AND j.drop_off_min IS NOT NULL GROUP BY j.id`;
type Row = Omit<Agreement, 'bold'> & {
  readonly bold: number;
  readonly arriveMin: EpochMin;
  readonly leaveMin: EpochMin;
  readonly readyMin: number;
  readonly state: string;
};

function agreementOf(ctx: WriteCtx, jobId: JobId): Agreement | undefined {
  const row = allRows<Row>(ctx.db, AGREED, { jobId })[0];
  if (!row) return undefined;
  const { dropOffMin, pickUpMin, promisePpm, bold } = row;
  return { dropOffMin, pickUpMin, promisePpm, bold: bold === 1 };
}

/** A job whose drop-off and pick-up are to be those of the plan. */
type Due = {
  readonly row: Row;
  readonly jobId: JobId;
  readonly dropOffMin: EpochMin;
  readonly pickUpMin: EpochMin;
};

/** The chance of each new pick-up on the board as it now is: one simulation for all of them. */
function howSure(
  ctx: WriteCtx,
  due: readonly Due[],
): ReadonlyMap<JobId, Pick<Agreement, 'promisePpm' | 'bold'>> {
  const { board, shop } = liveBoard(ctx.db, { nowMs: ctx.now });
  const planned = due.filter((d) => board.jobs.has(d.jobId) && board.plans.has(d.jobId));
  const ids = planned.map((d) => d.jobId);
  const ready = simulateReady(board, ids, SEED);
  return new Map(
    planned.flatMap(({ jobId, pickUpMin }) => {
      const runs = ready.get(jobId) ?? [];
      if (runs.length === 0) return [];
      const promisePpm = chanceBy(runs, pickUpMin) as Ppm;
      return [[jobId, { promisePpm, bold: promisePpm < shop.settings.promises.levelPpm }] as const];
    }),
  );
}

/** The new times that people were told and agreed to; without them all that the plan comes to is agreed. */
type Told = In<'bays.move'>['told'];

/**
 * Where the customer agreed to other times, the job's drop-off and pick-up become those of the plan.
 * @throws PLAN_CHANGED where they are not those that were told
 */
function agreed(ctx: WriteCtx, change: PlanChange, jobIds: readonly JobId[], told?: Told): PlanChange {
  const due = jobIds.flatMap((jobId) => dueOf(ctx, jobId, told));
  if (due.length === 0) return change;
  const sure = howSure(ctx, due);
  const before = new Map<JobId, Agreement>();
  for (const { jobId, row, dropOffMin, pickUpMin } of due) {
    const { promisePpm, bold } = row;
    before.set(jobId, {
      ...{ promisePpm, bold: bold === 1 },
      ...{ dropOffMin: row.dropOffMin, pickUpMin: row.pickUpMin },
    });
    const chance = sure.get(jobId) ?? { promisePpm: null, bold: false };
    markBooked(ctx, { jobId, dropOffMin, pickUpMin, ...chance });
  }
  return {
    ...change,
    undo: change.undo.map((p) => (before.has(p.jobId) ? { ...p, agreed: before.get(p.jobId) } : p)),
  };
}

function dueOf(ctx: WriteCtx, jobId: JobId, told: Told): readonly Due[] {
  const row = allRows<Row>(ctx.db, AGREED, { jobId })[0];
  if (!row) return [];
  const now = agreedBy(row, row, row.state === 'booked');
  const of = told?.filter((one) => one.jobId === jobId);
  const dropOffMin = asTold(of, 'dropOffMoved', row.dropOffMin, now.dropOffMin);
  const pickUpMin = asTold(of, 'promiseMissed', row.pickUpMin, now.pickUpMin);
  const same = dropOffMin === row.dropOffMin && pickUpMin === row.pickUpMin;
  return same ? [] : [{ row, jobId, dropOffMin, pickUpMin }];
}

/** Where the clock went on since somebody was told, the plan can come to another time: to that nobody agreed. */
function asTold(
  told: Told,
  rule: NonNullable<Told>[number]['rule'],
  wasMin: EpochMin,
  isMin: number,
): EpochMin {
  if (!told) return isMin as EpochMin;
  const newMin = told.find((one) => one.rule === rule)?.newMin;
  if (newMin !== undefined && newMin !== isMin) refuse('PLAN_CHANGED', {});
  return newMin ?? wasMin;
}
