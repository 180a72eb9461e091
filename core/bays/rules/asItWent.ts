import type { PersonId, StageId } from '#core/shared/ids.ts';
import type { JobPlan, JobSpec, Piece, StageSpec, Stay } from './model.ts';

/** When a stage was really begun and done, and by whom; of one that is in hand the end counts for nothing. */
export type Done = {
  readonly startMin: number;
  readonly endMin: number;
  readonly personIds: readonly PersonId[];
};

/** A car's stay with what was and is to be done in it. */
export type Drawn = { readonly stay: Stay; readonly pieces: readonly Piece[] };

/**
 * A car's stays with their work, each as it is drawn: see `asItWent`. A stage that was over before its planned time
 * lies where the car stood when it was done, and in the hands that did it.
 */
export function drawnStays(
  job: JobSpec,
  plan: JobPlan,
  done: ReadonlyMap<StageId, Done>,
  nowMin: number,
): readonly Drawn[] {
  const early = doneEarly(job, plan, done);
  const isEarly = (p: Piece): boolean => early.some((e) => e.stageId === p.stageId);
  const drawn = plan.stays.map((stay, i): Drawn => {
    const planned = plan.pieces.filter((p) => inStay(p, stay) && !isEarly(p));
    const pieces = [
      ...early.filter((p) => stayAt(plan, p.startMin) === i).map((p) => ({ ...p, bayId: stay.bayId })),
      ...asItWent(job, planned, done, nowMin),
    ];
    return { stay, pieces };
  });
  const from = drawn.map((d, i) => beganAt(i === 0 ? d.pieces : recorded(d.pieces, done), d.stay));
  return drawn.map((d, i) => {
    const next = drawn[i + 1]?.stay.arriveMin ?? d.stay.leaveMin;
    const ends = recorded(d.pieces, done).map((p) => p.dwellEndMin);
    const leaveMin = Math.max(Math.min(d.stay.leaveMin, from[i + 1] ?? next), ...ends);
    return { ...d, stay: { ...d.stay, arriveMin: from[i] ?? d.stay.arriveMin, leaveMin } };
  });
}

/** Work that was begun: a car that was driven over before its planned minute was there by then, and gone from before. */
function recorded(pieces: readonly Piece[], done: ReadonlyMap<StageId, Done>): readonly Piece[] {
  return pieces.filter((p) => done.has(p.stageId));
}

function beganAt(pieces: readonly Piece[], stay: Stay): number {
  return Math.min(stay.arriveMin, ...pieces.map((p) => p.startMin));
}

function inStay(piece: Piece, stay: Stay): boolean {
  return piece.bayId === stay.bayId && piece.startMin >= stay.arriveMin && piece.startMin < stay.leaveMin;
}

/** Which of its stays a car was in at a minute: the last that had begun, else the first. */
function stayAt(plan: JobPlan, minute: number): number {
  return Math.max(
    0,
    plan.stays.findLastIndex((s) => s.arriveMin <= minute),
  );
}

/** Stages that were over before any of their pieces on the plan was to begin. */
function doneEarly(job: JobSpec, plan: JobPlan, done: ReadonlyMap<StageId, Done>): readonly Piece[] {
  const [first] = plan.stays;
  if (!first) return [];
  return job.stages.flatMap((stage): readonly Piece[] => {
    const went = stage.state === 'done' ? done.get(stage.id) : undefined;
    const own = plan.pieces.filter((p) => p.stageId === stage.id);
    if (!went || own.some((p) => p.startMin < went.endMin)) return [];
    const { startMin, endMin, personIds } = went;
    const dwellEndMin = endMin + restMin(stage);
    return [{ stageId: stage.id, bayId: first.bayId, personIds, startMin, endMin, dwellEndMin }];
  });
}

/** How long what is done still rests; of what nobody attends the whole time was the rest. */
function restMin(stage: StageSpec): number {
  return stage.crew > 0 ? stage.dwellMin : 0;
}

/**
 * The pieces of a car's stay as they are drawn: work that is done lies where it was done, however it was planned, and
 * work in hand from where it was begun; work of a car that is here and should have begun lies from now on, and pushes
 * what comes after it. A piece that was
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
    const stage = job.stages.find((s) => s.id === piece.stageId);
    const state = stage?.state;
    const went = done.get(piece.stageId);
    const first = pieces.findIndex((p) => p.stageId === piece.stageId) === i;
    if (stage?.state === 'done') {
      const last = pieces.findLastIndex((p) => p.stageId === piece.stageId) === i;
      return drawnDone(stage, piece, went, first, last);
    }
    if (state === 'inWork') freeMin = Math.max(freeMin, piece.dwellEndMin);
    if (state === 'inWork' || state === 'paused') return [first ? drawnBegun(piece, went) : piece];
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

/** From where it was begun, be that before or after its planned start; what nobody attends has no work to draw. */
function drawnBegun(piece: Piece, went: Done | undefined): Piece {
  if (!went || went.startMin >= piece.dwellEndMin) return piece;
  const { startMin } = went;
  if (piece.endMin <= piece.startMin) return { ...piece, startMin, endMin: startMin };
  return startMin < piece.endMin ? { ...piece, startMin } : piece;
}

function drawnDone(
  stage: StageSpec,
  piece: Piece,
  went: Done | undefined,
  first: boolean,
  last: boolean,
): readonly Piece[] {
  if (!went) return [piece];
  const startMin = first ? went.startMin : Math.max(piece.startMin, went.startMin);
  const endMin = last ? went.endMin : Math.min(piece.endMin, went.endMin);
  if (endMin <= startMin) return [];
  return [{ ...piece, startMin, endMin, dwellEndMin: last ? endMin + restMin(stage) : endMin }];
}
