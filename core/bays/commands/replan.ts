import type { ReadCtx, TaskCtx } from '../../context.ts';
import type { baysEntries } from '../../shared/catalogue/bays.ts';
import type { InputOf } from '../../shared/entry.ts';
import type { JobId } from '../../shared/ids.ts';
import type { EpochMin, Ppm } from '../../shared/units.ts';
import type { ReplanJob, ReplanStep, ReplanView } from '../../shared/views/bays.ts';
import { liveBoard } from '../../views/liveBoard.ts';
import { asksFirst } from '../rules/consent.ts';
import { samePlan } from '../rules/lay.ts';
import { type Board, finishOf, type JobPlan } from '../rules/model.ts';
import { chanceBy } from '../rules/promise.ts';
import { replan } from '../rules/replan.ts';
import { simulateReady } from '../rules/simulate.ts';
import { planView } from './offers.ts';

type Ask = InputOf<(typeof baysEntries)['bays.replan']>;
/** What the solver's worker gets: plain data that survives structured clone. */
export type ReplanModel = { readonly board: Board; readonly planRevision: number; readonly ask: Ask };

export function gatherReplan(ctx: ReadCtx, ask: Ask): ReplanModel {
  const { board, planRevision } = liveBoard(ctx.db, { nowMs: ctx.now });
  return { board, planRevision, ask };
}

/**
 * Looks for a better plan; how good the best one is, is reported as it goes. A stop or the end of the time that was
 * given keeps the best one found: a cap only, for the same seed and number of rounds find the same plan.
 */
export function runReplan(model: ReplanModel, task: TaskCtx): ReplanView {
  const { board, ask } = model;
  const wish = {
    seed: ask.seed,
    iterations: ask.iterations,
    consent: new Set(ask.consent),
    fixed: new Set(ask.fixed),
  };
  const until = performance.now() + (ask.seconds ?? Number.POSITIVE_INFINITY) * 1000;
  const result = replan(board, wish, (done, best, boundLateMin) => {
    task.progress(done, ask.iterations, { best, boundLateMin } satisfies ReplanStep);
    return !task.cancelled() && performance.now() < until;
  });
  const moved = [...result.plans.values()].filter((p) => {
    const old = board.plans.get(p.jobId);
    return old !== undefined && old !== p && !samePlan(old, p);
  });
  const ids = moved.map((p) => p.jobId);
  const before = simulateReady(board, ids, SEED, RUNS);
  const proposed: Board = { ...board, plans: result.plans };
  const after = simulateReady(proposed, ids, SEED, RUNS);
  return {
    planRevision: model.planRevision,
    before: result.before,
    after: result.after,
    boundLateMin: result.boundLateMin,
    proved: result.after.lateMin === result.boundLateMin,
    moved: moved.map((p) => ({
      ...movedJob(board, p, before, after),
      needsConsent: needsConsent(board, proposed, p),
    })),
    iterations: result.iterations,
  };
}
const SEED = 20;
const RUNS = 400;

function needsConsent(board: Board, proposed: Board, plan: JobPlan): boolean {
  const [job, old] = [board.jobs.get(plan.jobId), board.plans.get(plan.jobId)];
  return job !== undefined && old !== undefined && asksFirst(proposed, job, old, plan);
}

type Runs = ReadonlyMap<JobId, readonly number[]>;

function movedJob(board: Board, plan: JobPlan, before: Runs, after: Runs): Omit<ReplanJob, 'needsConsent'> {
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
