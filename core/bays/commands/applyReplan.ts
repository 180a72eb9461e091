import type { WriteCtx } from '../../context.ts';
import type { baysEntries } from '../../shared/catalogue/bays.ts';
import type { InputOf } from '../../shared/entry.ts';
import { refuse } from '../../shared/errors.ts';
import { MS_PER_MIN } from '../../shared/units.ts';
import type { PlanChange } from '../../shared/views/planChange.ts';
import { type LiveBoard, liveBoard } from '../../views/liveBoard.ts';
import { toBeAsked, unwantedBold } from '../rules/afterReplan.ts';
import { begunSince } from '../rules/begun.ts';
import type { Board, JobPlan } from '../rules/model.ts';
import { planOfJob } from '../store/plan.ts';
import { boardForChange, savePlans } from './plan.ts';

type In = InputOf<(typeof baysEntries)['bays.applyReplan']>;

/**
 * Applies a re-plan whole. It is checked on the board of the minute it was worked out for: that work which runs is expected
 * to end a little later since then is no other board.
 * @throws PLAN_CHANGED · PLAN_BREAKS_RULE · NEEDS_CONSENT · PROMISE_BOLD for a promise less sure than usual that nobody chose
 */
export function applyReplan(ctx: WriteCtx, input: In): PlanChange {
  const live = boardForChange(ctx, input.planRevision);
  const board = boardOf(ctx, live, input);
  const agreed = new Set(input.consent);
  const asked = toBeAsked({ board, plans: input.plans });
  for (const { jobId } of input.plans) if (!asked.has(jobId)) agreed.add(jobId);
  const change = savePlans(ctx, live, input.plans, agreed, undefined, board);
  refuseBold(live, board, input);
  return change;
}

/** After so long a plan is worked out anew. Common practice, no source. */
const STANDS_MIN = 30;

/** The board as it was when the plan was worked out, with what has been done since; refused where that touches the plan. */
function boardOf(ctx: WriteCtx, live: LiveBoard, { nowMin, plans }: In): Board {
  if (nowMin === undefined || nowMin === live.board.nowMin) return live.board;
  const past = live.board.nowMin - nowMin;
  const comesBefore = (plan: JobPlan): boolean => {
    const [now, was] = [plan.stays[0], live.board.plans.get(plan.jobId)?.stays[0]];
    return now !== undefined && now.arriveMin !== was?.arriveMin && now.arriveMin < live.board.nowMin;
  };
  const begun = (plan: JobPlan): boolean => {
    const job = live.board.jobs.get(plan.jobId);
    return job !== undefined && begunSince(job, plan, planOfJob(ctx.db, plan.jobId));
  };
  if (past < 0 || past > STANDS_MIN || plans.some(comesBefore) || plans.some(begun))
    refuse('PLAN_CHANGED', {});
  return liveBoard(ctx.db, { nowMs: nowMin * MS_PER_MIN }).board;
}

function refuseBold(live: LiveBoard, board: Board, input: In): void {
  const { levelPpm } = live.shop.settings.promises;
  const moved = { board, plans: input.plans, levelPpm };
  const bold = unwantedBold(moved, new Set(input.consent), new Set(input.bold));
  if (bold)
    refuse('PROMISE_BOLD', {
      number: board.jobs.get(bold.jobId)?.number ?? 0,
      percent: Math.round((bold.ppm ?? 0) / 10_000),
    });
}
