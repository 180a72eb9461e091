import type { PlanFault, PlanRule } from '#core/shared/views/plan.ts';
import type { StageKind } from '#core/shared/vocabulary.ts';
import type { Board, JobPlan, JobSpec, Piece, StageSpec } from './model.ts';
import { openIn, peopleOf } from './validateTime.ts';

/** Hears of a broken rule, with what its sentence needs. */
export type Found = (rule: PlanRule, more?: Partial<PlanFault>) => void;

/**
 * Stages that wait keep the least gap to the one before them and begin within the greatest. After a stage that is over
 * a greatest gap that has passed by now is not named: no plan can keep it any more.
 */
export function checkGaps(board: Board, job: JobSpec, plan: JobPlan, found: Found): void {
  let before: StageSpec | null = null;
  for (const stage of job.stages) {
    if (stage.state === 'dropped') continue;
    if (before && waits(stage))
      checkGap(board, plan, before, stage, (rule, words) =>
        found(rule, { words: { who: job.who, ...words } }),
      );
    before = stage;
  }
}

function checkGap(
  board: Board,
  plan: JobPlan,
  before: StageSpec,
  stage: StageSpec,
  found: (rule: PlanRule, words: PlanFault['words']) => void,
): void {
  const earlier = plan.pieces.filter((p) => p.stageId === before.id).map((p) => p.dwellEndMin);
  const later = plan.pieces.filter((p) => p.stageId === stage.id).map((p) => p.startMin);
  const [over, start] = [Math.max(...earlier), Math.min(...later)];
  if (earlier.length === 0 || later.length === 0 || start < board.nowMin) return;
  const words = { stage: stage.kind, before: before.kind };
  const { leastGapMin, mostGapMin } = before;
  if (start < over + leastGapMin && start >= over) found('gapShort', { ...words, gapMin: leastGapMin });
  if (mostGapMin === null || start <= over + mostGapMin) return;
  if (waits(before) || over + mostGapMin >= board.nowMin) found('gapLong', { ...words, gapMin: mostGapMin });
}

/** Nobody cuts in a bay while a coating is fresh in one that its dust reaches, and nothing is coated while somebody does. */
export function checkDust(board: Board, job: JobSpec, plan: JobPlan, found: Found): void {
  for (const piece of plan.pieces) {
    const kind = kindOf(job, piece);
    const near = board.places.find((p) => p.id === piece.bayId)?.dustWith ?? [];
    if (piece.startMin < board.nowMin || near.length === 0) continue;
    for (const other of board.plans.values()) {
      const theirs = board.jobs.get(other.jobId);
      if (!theirs || other.jobId === plan.jobId) continue;
      for (const p of other.pieces.filter((x) => near.includes(x.bayId))) {
        const words = {
          who: job.who,
          other: theirs.who,
          bay: nameOf(board, piece),
          beside: nameOf(board, p),
        };
        const more = { bayId: piece.bayId, words };
        if (throwsDust(kind) && isFresh(kindOf(theirs, p)) && cutsDuring(board, piece, p))
          found('dustOnCoating', more);
        if (isFresh(kind) && throwsDust(kindOf(theirs, p)) && cutsDuring(board, p, piece))
          found('coatingInDust', more);
      }
    }
  }
}

/** Whether a minute of the cutting is worked while the coating is fresh. */
function cutsDuring(board: Board, cut: Piece, coat: Piece): boolean {
  const [from, to] = [Math.max(cut.startMin, coat.startMin), Math.min(cut.endMin, coat.dwellEndMin)];
  const crew = peopleOf(board, cut);
  return from < to && (crew.length === 0 || openIn(crew, from, to) > 0);
}

function waits({ state }: StageSpec): boolean {
  return state === 'planned' || state === 'paused';
}
function kindOf(job: JobSpec, piece: Piece): StageKind | undefined {
  return job.stages.find((s) => s.id === piece.stageId)?.kind;
}
function throwsDust(kind: StageKind | undefined): boolean {
  return kind === 'cut';
}
function isFresh(kind: StageKind | undefined): boolean {
  return kind === 'protect' || kind === 'cure';
}
function nameOf(board: Board, piece: Piece): string {
  return board.places.find((p) => p.id === piece.bayId)?.name ?? '';
}
