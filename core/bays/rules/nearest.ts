import type { BayId, StageId } from '#core/shared/ids.ts';
import { next, type Span } from './calendar.ts';
import { type Lands, landsAt } from './lands.ts';
import { type Board, isOpenStage, type JobPlan, type JobSpec } from './model.ts';
import { checkMove, type Mover, type MoveWish, movedPlan } from './move.ts';
import { type Occupancy, occupancyOf } from './occupancy.ts';

/** How many places are named. */
const NEAREST = 2;
/** Quarters of an hour around the wish that are tried one by one; beyond them every fourth, up to five days off. */
const STEP_MIN = 15;
const CLOSE = 32;
const FAR = 96 * 5;
/** Held at `startMin` the block comes to lie at `lands`. `asks`: somebody has to agree to it. */
export type Near = {
  readonly bayId: BayId;
  readonly startMin: number;
  readonly lands: Lands;
  readonly asks: boolean;
};

/**
 * The nearest places that work: the same block tried on a quarter-hour grid around the wish, in every fitting bay, one
 * time a bay. Where it stands already is no help to whoever wants it elsewhere, and is left out, and so is a start at
 * which nobody could begin before the next one that is tried. Where no place works without asking anybody, those that work
 * with consent; far from the wish and back towards where the block lies only where there are none of these either.
 */
export function nearestPlaces(
  board: Board,
  job: JobSpec,
  plan: JobPlan,
  wish: MoveWish,
  mover: Mover = movedPlan,
): readonly Near[] {
  const kinds = job.stages.filter((s) => wish.stageIds.includes(s.id)).map((s) => s.bayKinds);
  const places = board.places.filter((p) => kinds.every((k) => k.includes(p.kind)));
  const occupancy = occupancyOf(board, new Set([job.id]), board.nowMin);
  const liesMin = landsAt(plan, wish.stageIds)?.startMin ?? wish.startMin;
  // In the order in which they are wanted: free, with consent, and the same two on the way back.
  const found: [Near[], Near[], Near[], Near[]] = [[], [], [], []];
  const [free, , back] = found;
  for (const { startMin, untilMin } of startsAround(board, wish.startMin)) {
    if (free.length + back.length >= NEAREST) break;
    // With something to offer nobody waits for the rest of the week to be tried.
    const isFar = Math.abs(startMin - wish.startMin) > CLOSE * STEP_MIN;
    if (isFar && found.flat().length >= NEAREST) break;
    const isBack = isFar && Math.abs(startMin - liesMin) < Math.abs(startMin - wish.startMin);
    for (const { id: bayId } of places) {
      if ([...free, ...back].some((f) => f.bayId === bayId)) continue;
      const held = { ...wish, bayId, startMin };
      const moved = mover(board, job, plan, held, occupancy);
      const near = moved && nearOf(job, moved, held, mover);
      // The whole check looks at every plan: only what could stand there at all is worth it.
      if (!near || near.lands.startMin >= untilMin || !hasRoom(board, occupancy, moved)) continue;
      const tried = checkMove(board, job, plan, held, () => moved, occupancy);
      if (!tried.ok || staysAsItIs(plan, moved, wish)) continue;
      // A whole job that is shifted comes at another time, of course; all else is asked for only where nothing is free.
      const asks = tried.consent.some((f) => mover === movedPlan || f.rule !== 'dropOffMoved');
      const kind = found[asks ? (isBack ? 3 : 1) : isBack ? 2 : 0];
      if (!kind.some((f) => f.bayId === bayId)) kind.push({ ...near, asks: tried.consent.length > 0 });
    }
  }
  return found.find((kind) => kind.length > 0)?.slice(0, NEAREST) ?? [];
}

/** Whether every place has room for the stays that are left of a plan. */
function hasRoom(board: Board, occupancy: Occupancy, { stays }: JobPlan): boolean {
  return stays.every(({ bayId, arriveMin, leaveMin }) => {
    const from = Math.max(arriveMin, board.nowMin);
    const holds = (gap: Span): boolean =>
      gap.startMin <= from && Math.min(leaveMin, board.horizonMin) <= gap.endMin;
    return leaveMin <= board.nowMin || occupancy.placeGaps(bayId).some(holds);
  });
}

/** Where a block that is held comes to lie: from where it begins until all that is carried with it is over. */
export function nearOf(
  job: JobSpec,
  tried: JobPlan,
  wish: MoveWish,
  mover: Mover,
): Omit<Near, 'asks'> | null {
  const { bayId, startMin } = wish;
  const [held, all] = [landsAt(tried, wish.stageIds), landsAt(tried, carriedIds(job, wish, mover))];
  return held && all && { bayId, startMin, lands: { startMin: held.startMin, endMin: all.endMin } };
}

/** The stages that move with a block: its own, or all that are not done. */
export function carriedIds(job: JobSpec, wish: MoveWish, mover: Mover): readonly StageId[] {
  return mover === movedPlan ? wish.stageIds : job.stages.filter(isOpenStage).map((s) => s.id);
}

/** Open minutes outward from a wish, from now on and on the board, each with where the next one that is tried may be. */
function* startsAround(
  board: Board,
  at: number,
): Generator<{ readonly startMin: number; readonly untilMin: number }> {
  for (let step = 0; step <= FAR; step += step < CLOSE ? 1 : 4)
    for (const sign of step === 0 ? [1] : [1, -1]) {
      const startMin = next(board.open, at + sign * step * STEP_MIN);
      const untilMin = startMin + (step < CLOSE ? 1 : 4) * STEP_MIN;
      if (startMin >= board.nowMin && startMin <= board.horizonMin) yield { startMin, untilMin };
    }
}

/** The block keeps its places and times in the plan that was tried. */
function staysAsItIs(plan: JobPlan, tried: JobPlan, wish: MoveWish): boolean {
  const of = (p: JobPlan): string =>
    JSON.stringify(
      p.pieces
        .filter((x) => wish.stageIds.includes(x.stageId))
        .map((x) => [x.stageId, x.bayId, x.startMin, x.personIds])
        .sort(),
    );
  return of(plan) === of(tried);
}
