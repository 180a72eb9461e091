import type { BayId, StageId } from '#core/shared/ids.ts';
import { next } from './calendar.ts';
import { arrivalMin, type Board, finishOf, type JobPlan, type JobSpec, type Piece } from './model.ts';
import { checkMove, type MoveWish, movedPlan } from './move.ts';
import { chanceBy } from './promise.ts';
import { simulateReady } from './simulate.ts';

const SEED = 20;
/** Fewer draws than a promise is made with: remedies are compared with each other, on the same draws. */
const TRIES = 400;
/** Of each kind of way out so many are drawn for: those that the plan itself ends soonest with. */
const DRAWN = 2;
/** Blocks that are tried: what comes first weighs most. */
const BLOCKS = 2;

/** A way out that breaks no rule, and the chance that the car is ready by its promise with it. */
export type Tried = { readonly wish: MoveWish; readonly plan: JobPlan; readonly ppm: number };
export type Trouble = {
  readonly board: Board;
  readonly job: JobSpec;
  readonly plan: JobPlan;
  readonly promiseMin: number;
  /** When work can begin tomorrow. */
  readonly morningMin: number;
};

/** Stages in another's hands, as soon as they can be, as planned or tomorrow morning: best first. */
export function otherPeople(of: Trouble): readonly Tried[] {
  const wishes = blocksOf(of).flatMap(({ stageIds, bayId, first, soonestMin }) =>
    of.board.technicians
      .filter((person) => !first.personIds.includes(person.id))
      .flatMap((person) =>
        [soonestMin(bayId), first.startMin, of.morningMin].map((startMin) => ({
          ...{ stageIds, bayId, startMin },
          personId: person.id,
        })),
      ),
  );
  return drawn(of, wishes);
}

/** Stages as soon as they can be or tomorrow morning, where they are or in another place: best first. */
export function otherTimes(of: Trouble): readonly Tried[] {
  const wishes = blocksOf(of).flatMap(({ stageIds, soonestMin }) =>
    of.board.places.flatMap((place) =>
      [soonestMin(place.id), of.morningMin].map((startMin) => ({
        ...{ stageIds, bayId: place.id, startMin },
        personId: null,
      })),
    ),
  );
  return drawn(of, wishes);
}

/** The chance by the promise when nothing that waits can begin before a minute: what a lack that lasts until then does. */
export function chanceFrom(of: Trouble, startMin: number): readonly number[] {
  const { board, job, plan } = of;
  const [block] = blocksOf(of);
  if (!block || block.first.startMin >= startMin) return readyRuns(of, plan);
  const from = next(board.open, startMin);
  const moved = movedPlan(board, job, plan, {
    ...{ stageIds: block.stageIds, bayId: block.bayId, startMin: from },
    personId: null,
  });
  return moved ? readyRuns(of, moved) : [];
}

type Waiting = {
  readonly first: Piece;
  readonly bayId: BayId;
  readonly stageIds: readonly StageId[];
  /** From when it could be begun in a place: once the car has come, what is before is over, and it was driven there. */
  readonly soonestMin: (bayId: BayId) => number;
};

/** What nobody has begun, place by place in the order of the plan. */
function blocksOf(of: Trouble): readonly Waiting[] {
  const { board, job, plan } = of;
  const comes = job.start.kind === 'here' ? undefined : plan.stays[0];
  const begun = Math.max(board.nowMin, comes?.arriveMin ?? 0, ...begunUntil(job, plan));
  const waiting = plan.pieces.filter((p) =>
    job.stages.some((s) => s.id === p.stageId && s.state === 'planned' && s.crew > 0),
  );
  return [...Map.groupBy(waiting, (p) => p.bayId)].slice(0, BLOCKS).flatMap(([bayId, pieces]): Waiting[] => {
    const [first] = pieces;
    if (!first) return [];
    const before = plan.pieces.filter((p) => p.startMin < first.startMin).at(-1);
    const free = Math.max(begun, before?.dwellEndMin ?? 0);
    const isDriven = (to: BayId): boolean => (before ? to !== before.bayId : comes !== undefined);
    const soonestMin = (to: BayId): number => free + (isDriven(to) ? arrivalMin(board, to) : 0);
    return [{ first, bayId, stageIds: [...new Set(pieces.map((p) => p.stageId))], soonestMin }];
  });
}

/** When the pieces that stay where they are (what runs, what is half done) are expected to end. */
function begunUntil(job: JobSpec, plan: JobPlan): readonly number[] {
  const begun = new Set(job.stages.filter((s) => s.state !== 'planned').map((s) => s.id));
  return plan.pieces.filter((p) => begun.has(p.stageId)).map((p) => p.dwellEndMin);
}

/** Those wishes that break no rule and end the plan sooner, with their chances. */
function drawn(of: Trouble, wishes: readonly MoveWish[]): readonly Tried[] {
  const { board, job, plan, promiseMin } = of;
  const fit = wishes.flatMap((wish) => {
    const tried = checkMove(board, job, plan, wish);
    if (!tried.ok || tried.consent.length > 0 || finishOf(tried.plan) >= finishOf(plan)) return [];
    return [{ wish, plan: tried.plan }];
  });
  return fit
    .sort((a, b) => finishOf(a.plan) - finishOf(b.plan))
    .slice(0, DRAWN)
    .map((way) => ({ ...way, ppm: chanceBy(readyRuns(of, way.plan), promiseMin) }))
    .sort((a, b) => b.ppm - a.ppm);
}

function readyRuns(of: Trouble, plan: JobPlan): readonly number[] {
  const plans = new Map(of.board.plans).set(of.job.id, plan);
  return simulateReady({ ...of.board, plans }, [of.job.id], SEED, TRIES).get(of.job.id) ?? [];
}
