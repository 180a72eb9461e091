import type { PersonId, StageId } from '#core/shared/ids.ts';
import type { EpochMin } from '#core/shared/units.ts';
import type { HandView, PieceView } from '#core/shared/views/bays.ts';

/** Time that somebody worked on a stage, in whole minutes; null = they are at it now. */
export type Worked = Pick<HandView, 'stageId' | 'kind' | 'who' | 'startMin'> & {
  readonly personId: PersonId;
  readonly endMin: EpochMin | null;
};
/** A drawn piece of work with whose car it is done on. */
export type WorkOnCar = PieceView & { readonly who: string };
/** A stretch with the one who works it. */
export type Hand = HandView & { readonly personId: PersonId };

/**
 * Who works when: what was worked lies with those who worked it, whoever was planned for it; who is at work goes on to
 * the end of the piece that runs; what waits lies with those it is planned for. What is done and nobody worked on is
 * nobody's. No stretch is empty.
 */
export function handsOn(
  pieces: readonly WorkOnCar[],
  worked: readonly Worked[],
  nowMin: EpochMin,
): readonly Hand[] {
  const attended = new Set(worked.filter((w) => w.endMin === null).map((w) => w.stageId));
  const running = new Map(pieces.filter((p) => runs(p, nowMin)).map((p) => [p.stageId, p]));
  const hands = [
    ...worked.map((w) => recorded(w, running.get(w.stageId), nowMin)),
    ...pieces.flatMap((p) => ahead(p, attended, nowMin)),
  ];
  return hands.filter((h) => h.endMin > h.startMin);
}

/** Begun and to go on now, by the plan. */
function runs(p: PieceView, nowMin: EpochMin): boolean {
  return isBegun(p) && p.startMin <= nowMin && p.endMin > nowMin;
}

function isBegun(p: PieceView): boolean {
  return p.state === 'inWork' || p.state === 'paused';
}

function recorded(w: Worked, running: WorkOnCar | undefined, nowMin: EpochMin): Hand {
  if (w.endMin !== null) return { ...w, endMin: w.endMin, state: 'done', late: false };
  return { ...w, endMin: running?.endMin ?? nowMin, state: 'inWork', late: running?.late ?? false };
}

/** What is still to be done of a piece, in the hands it is planned for; what runs is theirs who are at it. */
function ahead(p: WorkOnCar, attended: ReadonlySet<StageId>, nowMin: EpochMin): readonly Hand[] {
  if (p.state !== 'planned' && !isBegun(p)) return [];
  if (runs(p, nowMin) && attended.has(p.stageId)) return [];
  const { stageId, kind, who, state, late, endMin } = p;
  // Nobody has done what has not begun, also not in the hours that it was planned for: a car may not have come.
  const startMin = p.startMin < nowMin ? nowMin : p.startMin;
  return p.personIds.map((personId) => ({ personId, stageId, kind, who, state, late, startMin, endMin }));
}
