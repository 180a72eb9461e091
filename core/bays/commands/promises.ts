import type { ReadCtx } from '../../context.ts';
import type { JobId } from '../../shared/ids.ts';
import type { EpochMin, Ppm } from '../../shared/units.ts';
import type { PromiseNow } from '../../shared/views/bays.ts';
import type { PlanFault } from '../../shared/views/plan.ts';
import { type LiveBoard, liveBoard } from '../../views/liveBoard.ts';
import { chanceBy, isAtRisk, readyBy } from '../rules/promise.ts';
import { simulateReady } from '../rules/simulate.ts';
import { faultsOfBoard } from '../rules/validate.ts';

/** A promise with the simulated minutes of being ready that it rests on, sorted. */
export type PromiseRuns = { readonly promise: PromiseNow; readonly runs: readonly number[] };

/** How sure each open promise is now, on the board as it stands. */
export function promisesNow(
  ctx: ReadCtx,
  input: { readonly jobId?: JobId | undefined },
): readonly PromiseNow[] {
  return promisesOn(liveBoard(ctx.db, { nowMs: ctx.now }), input.jobId).map((p) => p.promise);
}

/** The same on a board at hand, all of it in one simulation. */
export function promisesOn(live: LiveBoard, jobId?: JobId): readonly PromiseRuns[] {
  const rows = [...live.rows.values()].filter(
    (r) =>
      r.pickUpMin !== null &&
      ['booked', 'here', 'inWork'].includes(r.state) &&
      live.board.plans.has(r.id) &&
      (jobId === undefined || r.id === jobId),
  );
  const ready = simulateReady(
    live.board,
    rows.map((r) => r.id),
    SEED,
  );
  return rows.flatMap((row): readonly PromiseRuns[] => {
    const runs = ready.get(row.id) ?? [];
    const at = row.pickUpMin;
    if (runs.length === 0 || at === null) return [];
    const nowPpm = chanceBy(runs, at) as Ppm;
    const [p50, p80, p95] = [500_000, 800_000, 950_000].map((q) => readyBy(live.board, runs, q) as EpochMin);
    if (p50 === undefined || p80 === undefined || p95 === undefined) return [];
    const level = live.shop.settings.promises.levelPpm;
    const floor = row.bold === 1 ? Math.min(level, row.promisePpm ?? level) : level;
    const promise: PromiseNow = {
      ...{ jobId: row.id, number: row.number, who: row.who, atMin: at, nowPpm, levelPpm: floor as Ppm },
      ...{ p50Min: p50, p80Min: p80, p95Min: p95 },
      atRisk: isAtRisk(nowPpm, floor),
    };
    return [{ promise, runs }];
  });
}
const SEED = 20;

/** Every rule that the present plan breaks. */
export function planFaults(ctx: ReadCtx): readonly PlanFault[] {
  return faultsOfBoard(liveBoard(ctx.db, { nowMs: ctx.now }).board);
}
