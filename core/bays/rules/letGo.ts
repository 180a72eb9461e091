import type { JobPlan, Piece, StageSpec } from './model.ts';

/**
 * A kept plan without what it holds for nothing: people of a stage that was done early or dropped are free from now
 * on. What was worked on keeps its place, so that the record still says where; a stage dropped before its time goes.
 * Null when the plan holds nothing in vain.
 */
export function letGo(kept: JobPlan, stages: readonly StageSpec[], nowMin: number): JobPlan | null {
  const pieces = kept.pieces.flatMap((piece) => freed(piece, stages, nowMin));
  const same = pieces.length === kept.pieces.length && pieces.every((p, i) => p === kept.pieces[i]);
  return same ? null : { ...kept, pieces };
}

function freed(piece: Piece, stages: readonly StageSpec[], nowMin: number): readonly Piece[] {
  const state = stages.find((s) => s.id === piece.stageId)?.state ?? 'dropped';
  if ((state !== 'done' && state !== 'dropped') || piece.endMin <= nowMin) return [piece];
  if (piece.startMin < nowMin)
    return [{ ...piece, endMin: nowMin, dwellEndMin: nowMin + dwellOf(piece, state) }];
  if (state === 'dropped') return [];
  return [{ ...piece, personIds: [], startMin: nowMin, endMin: nowMin, dwellEndMin: nowMin }];
}

function dwellOf(piece: Piece, state: 'done' | 'dropped'): number {
  return state === 'done' ? piece.dwellEndMin - piece.endMin : 0;
}
