import type { ReadCtx, TaskCtx } from '../../context.ts';
import type { baysEntries } from '../../shared/catalogue/bays.ts';
import type { InputOf } from '../../shared/entry.ts';
import type { EpochMin, Ppm } from '../../shared/units.ts';
import type { ReplanJob, ReplanView } from '../../shared/views/plan.ts';
import type { ReplanStep } from '../../shared/views/planScore.ts';
import { liveBoard } from '../../views/liveBoard.ts';
import { heldUntilSure, type PromiseAfter, promisesAfter, toBeAsked } from '../rules/afterReplan.ts';
import { samePlan } from '../rules/lay.ts';
import { type Board, finishOf, type JobPlan } from '../rules/model.ts';
import type { ReplanReport, ReplanResult } from '../rules/replan.ts';
import { replanIn } from '../rules/rounds.ts';
import { planView } from './offers.ts';

type Ask = InputOf<(typeof baysEntries)['bays.replan']>;
/** What the solver's worker gets: plain data that survives structured clone. */
export type ReplanModel = {
  readonly board: Board;
  readonly planRevision: number;
  readonly levelPpm: number;
  readonly ask: Ask;
};

export function gatherReplan(ctx: ReadCtx, ask: Ask): ReplanModel {
  const { board, planRevision, shop } = liveBoard(ctx.db, { nowMs: ctx.now });
  return { board, planRevision, levelPpm: shop.settings.promises.levelPpm, ask };
}

/**
 * Looks for a better plan; how good the best one is, is reported as it goes. A stop keeps the best one found. Into the time
 * that was given as many rounds are put as fit: the same seed and as many rounds again find the same plan.
 */
export function runReplan(model: ReplanModel, task: TaskCtx): ReplanView {
  const { board, levelPpm } = model;
  const result = looked(model, task);
  const found = [...result.plans.values()].filter((p) => {
    const old = board.plans.get(p.jobId);
    return old !== undefined && old !== p && !samePlan(old, p);
  });
  const moved = { board, levelPpm, plans: heldUntilSure({ board, levelPpm, plans: found }) };
  const asked = toBeAsked(moved);
  const promises = promisesAfter(moved, asked);
  return {
    planRevision: model.planRevision,
    nowMin: board.nowMin as EpochMin,
    before: result.before,
    after: result.after,
    bound: result.bound,
    proved: result.proved ? 'plan' : result.after.weighedMin === result.bound.weighedMin ? 'lateness' : 'no',
    moved: moved.plans.map((p) => ({
      ...movedJob(board, p, promises.get(p.jobId)),
      needsConsent: asked.has(p.jobId),
    })),
    iterations: result.iterations,
  };
}

/** The search itself, in the time that was given. The clock ends one that turns out slower than it began. */
function looked({ board, ask }: ReplanModel, task: TaskCtx): ReplanResult {
  const clock = (): number => performance.now();
  const ms = (ask.seconds ?? Number.POSITIVE_INFINITY) * 1000;
  const until = clock() + ms;
  const report = (of: number): ReplanReport => {
    return (done, best, bound) => {
      task.progress(done, of, { best, bound } satisfies ReplanStep);
      return !task.cancelled() && clock() < until;
    };
  };
  const { seed, iterations } = ask;
  const wish = { seed, iterations, consent: new Set(ask.consent), fixed: new Set(ask.fixed) };
  return replanIn(board, wish, { ms, clock }, report);
}

function movedJob(
  board: Board,
  plan: JobPlan,
  promise: PromiseAfter | undefined,
): Omit<ReplanJob, 'needsConsent'> {
  const job = board.jobs.get(plan.jobId);
  const old = board.plans.get(plan.jobId) ?? plan;
  return {
    jobId: plan.jobId,
    number: job?.number ?? 0,
    who: job?.who ?? '',
    promiseMin: (job?.promiseMin ?? null) as EpochMin | null,
    newPromiseMin: (promise?.changes ? promise.atMin : null) as EpochMin | null,
    readyBeforeMin: finishOf(old) as EpochMin,
    readyAfterMin: finishOf(plan) as EpochMin,
    beforePpm: (promise?.beforePpm ?? null) as Ppm | null,
    afterPpm: (promise?.ppm ?? null) as Ppm | null,
    bold: promise?.bold ?? false,
    before: planView(old),
    after: planView(plan),
  };
}
