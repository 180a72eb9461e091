import type { JobPlan, Piece, StageSpec } from './model.ts';

/**
 * A kept plan without what it holds for nothing: people of a stage that was done early or dropped are free from now
 * on. What was worked on keeps its place, so that the record still says where; a stage dropped before its time goes.
 * A stage in work that will end sooner than planned (`live` is the plan as it now looks) is held no longer than that.
 * Null when the plan holds nothing in vain.
 */
export function letGo(
  kept: JobPlan,
  stages: readonly StageSpec[],
  nowMin: number,
  live: JobPlan | undefined = undefined,
): JobPlan | null {
  const pieces = kept.pieces
    .flatMap((piece) => freed(piece, stages, nowMin))
    .map((piece) => shortened(piece, stages, live));
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

function shortened(piece: Piece, stages: readonly StageSpec[], live: JobPlan | undefined): Piece {
  if (stages.find((s) => s.id === piece.stageId)?.state !== 'inWork') return piece;
  const now = live?.pieces.findLast((p) => p.stageId === piece.stageId && p.startMin <= piece.endMin);
  if (!now || now.endMin >= piece.endMin) return piece;
  const endMin = Math.max(now.endMin, piece.startMin);
  // Work that will be over before its planned hour holds nobody in it: what is left of the piece is empty.
  const personIds = endMin > piece.startMin ? piece.personIds : [];
  return { ...piece, personIds, endMin, dwellEndMin: endMin + (piece.dwellEndMin - piece.endMin) };
}
