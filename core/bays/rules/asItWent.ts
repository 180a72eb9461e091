import type { StageId } from '#core/shared/ids.ts';
import type { JobSpec, Piece } from './model.ts';

/** When a stage was really begun and done. */
export type Done = { readonly startMin: number; readonly endMin: number };

/**
 * The pieces of a car's stay as they are drawn: work that is done lies where it was done, however it was planned; work
 * of a car that is here and should have begun lies from now on, and pushes what comes after it. A piece that was
 * planned for a time when its stage was over already vanishes. The plan itself is not changed.
 */
export function asItWent(
  job: JobSpec,
  pieces: readonly Piece[],
  done: ReadonlyMap<StageId, Done>,
  nowMin: number,
): readonly Piece[] {
  let freeMin = nowMin;
  return pieces.flatMap((piece, i): readonly Piece[] => {
    const state = job.stages.find((s) => s.id === piece.stageId)?.state;
    if (state === 'done') {
      const first = pieces.findIndex((p) => p.stageId === piece.stageId) === i;
      const last = pieces.findLastIndex((p) => p.stageId === piece.stageId) === i;
      return drawnDone(piece, done.get(piece.stageId), first, last);
    }
    if (state === 'inWork') freeMin = Math.max(freeMin, piece.dwellEndMin);
    if (state !== 'planned' || job.start.kind !== 'here' || piece.startMin >= freeMin) return [piece];
    const by = freeMin - piece.startMin;
    freeMin = piece.dwellEndMin + by;
    return [
      {
        ...piece,
        startMin: piece.startMin + by,
        endMin: piece.endMin + by,
        dwellEndMin: piece.dwellEndMin + by,
      },
    ];
  });
}

function drawnDone(piece: Piece, went: Done | undefined, first: boolean, last: boolean): readonly Piece[] {
  if (!went) return [piece];
  const startMin = first ? went.startMin : Math.max(piece.startMin, went.startMin);
  const endMin = last ? went.endMin : Math.min(piece.endMin, went.endMin);
  if (endMin <= startMin) return [];
  return [{ ...piece, startMin, endMin, dwellEndMin: Math.max(endMin, last ? piece.dwellEndMin : endMin) }];
}
