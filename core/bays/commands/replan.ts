import type { ReadCtx, TaskCtx } from '../../context.ts';
import type { baysEntries } from '../../shared/catalogue/bays.ts';
import type { InputOf } from '../../shared/entry.ts';
import type { JobId } from '../../shared/ids.ts';
import type { EpochMin, Ppm } from '../../shared/units.ts';
import type { ReplanJob, ReplanView } from '../../shared/views/bays.ts';
import { liveBoard } from '../../views/liveBoard.ts';
import { type Board, finishOf, type JobPlan } from '../rules/model.ts';
import { chanceBy } from '../rules/promise.ts';
import { replan, samePlan } from '../rules/replan.ts';
import { simulateReady } from '../rules/simulate.ts';
import { planView } from './offers.ts';

type Ask = InputOf<(typeof baysEntries)['bays.replan']>;
/** What the solver's worker gets: plain data that survives structured clone. */
export type ReplanModel = { readonly board: Board; readonly planRevision: number; readonly ask: Ask };

export function gatherReplan(ctx: ReadCtx, ask: Ask): ReplanModel {
  const { board, planRevision } = liveBoard(ctx.db, { nowMs: ctx.now });
  return { board, planRevision, ask };
}

/** Looks for a better plan; each improvement is reported, and a stop keeps the best one found. */
export function runReplan(model: ReplanModel, task: TaskCtx): ReplanView {
  const { board, ask } = model;
  const wish = { seed: ask.seed, iterations: ask.iterations, consent: new Set(ask.consent) };
  const result = replan(board, wish, (done, best) => {
    task.progress(done, ask.iterations, best);
    return !task.cancelled();
  });
  const moved = [...result.plans.values()].filter((p) => {
    const old = board.plans.get(p.jobId);
    return old !== undefined && old !== p && !samePlan(old, p);
  });
  const ids = moved.map((p) => p.jobId);
  const before = simulateReady(board, ids, SEED, RUNS);
  const after = simulateReady({ ...board, plans: result.plans }, ids, SEED, RUNS);
  return {
    planRevision: model.planRevision,
    before: result.before,
    after: result.after,
    boundLateMin: result.boundLateMin,
    proved: result.after.lateMin === result.boundLateMin,
    moved: moved.map((p) => movedJob(board, p, before, after)),
    iterations: result.iterations,
  };
}
const SEED = 20;
const RUNS = 400;

type Runs = ReadonlyMap<JobId, readonly number[]>;

function movedJob(board: Board, plan: JobPlan, before: Runs, after: Runs): ReplanJob {
  const job = board.jobs.get(plan.jobId);
  const old = board.plans.get(plan.jobId) ?? plan;
  const promiseMin = (job?.promiseMin ?? null) as EpochMin | null;
  const chance = (runs: Runs): Ppm | null =>
    promiseMin === null ? null : (chanceBy(runs.get(plan.jobId) ?? [], promiseMin) as Ppm);
  return {
    jobId: plan.jobId,
    number: job?.number ?? 0,
    who: job?.who ?? '',
    promiseMin,
    readyBeforeMin: finishOf(old) as EpochMin,
    readyAfterMin: finishOf(plan) as EpochMin,
    beforePpm: chance(before),
    afterPpm: chance(after),
    before: planView(old),
    after: planView(plan),
  };
}
