import type { JobId } from '#core/shared/ids.ts';
import { type Board, isOpenStage, type JobPlan, type JobSpec, type Piece, type StageSpec } from './model.ts';

/** A piece of work that is not done, with whose it is. */
export type Row = {
  readonly job: JobSpec;
  readonly plan: JobPlan;
  readonly piece: Piece;
  readonly stage: StageSpec;
  /** Its place among the pieces of the plan. */
  readonly order: number;
};

/** All work of a board that is not done, in planned order; of two planned for the same minutes that of `first` comes first. */
export function openWork(board: Board, first: ReadonlySet<JobId>): readonly Row[] {
  const own = [...first].flatMap((id) => openPieces(board.jobs.get(id), board.plans.get(id)));
  const others = [...board.plans.values()].flatMap((plan) =>
    first.has(plan.jobId) ? [] : openPieces(board.jobs.get(plan.jobId), plan),
  );
  return [...own, ...others].sort(inPlannedOrder);
}

/** The work of one job placed like this that is not done, in planned order. */
export function openWorkOf(job: JobSpec, plan: JobPlan): readonly Row[] {
  return openPieces(job, plan).sort(inPlannedOrder);
}

function inPlannedOrder(a: Row, b: Row): number {
  return a.piece.startMin - b.piece.startMin || a.piece.endMin - b.piece.endMin;
}

/** Pieces of stages that are not done. */
function openPieces(job: JobSpec | undefined, plan: JobPlan | undefined): Row[] {
  if (!plan || !job || job.start.kind === 'over') return [];
  return plan.pieces.flatMap((piece, order): Row[] => {
    const stage = job.stages.find((s) => s.id === piece.stageId);
    return stage && isOpenStage(stage) ? [{ job, plan, piece, stage, order }] : [];
  });
}
