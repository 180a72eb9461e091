import type { BayId, PersonId } from '#core/shared/ids.ts';
import { type Behind, behindOf } from './begun.ts';
import { lastAtOrBelow, NEVER } from './calendar.ts';
import { type Collected, finishIn, rank } from './collected.ts';
import { labelsInTime } from './inTime.ts';
import { type FindersAt, type Label, labelsOfStage, sameStay, yardStops } from './labels.ts';
import { crewFinders, type LabourFinder, type Workers } from './labour.ts';
import type { Board, JobPlan, JobSpec, Piece, StageSpec, Stay } from './model.ts';
import type { Occupancy } from './occupancy.ts';

/** What limits a placement beyond the board itself. */
export type PlaceWish = {
  /** Only these technicians may work on it; null = everybody. */
  readonly people: ReadonlySet<PersonId> | null;
  /** The place must hold the car at least until here. */
  readonly holdUntilMin: number;
  /** Stages still to be placed, in order. */
  readonly stages: readonly StageSpec[];
  /** Stages that were given to somebody: they alone work on these, where `people` allows them. */
  readonly only?: ReadonlyMap<StageSpec, ReadonlySet<PersonId>>;
  /** A car not agreed yet comes as soon as it can wait somewhere, not as late as its work allows. */
  readonly comesEarly?: boolean;
  /** The soonest ready, though it may be fetched later for it; else the soonest that it can be fetched. */
  readonly readyFirst?: boolean;
};
export type Placement = {
  readonly plan: JobPlan;
  readonly readyMin: number;
  readonly pickUpMin: number;
};

/**
 * The exact earliest placement of a job on a fixed board: the least handover slot, then the least finish.
 * Labels are (stages done, place, gap of that place) with the earliest time in that gap. Exact because the
 * calendar functions are monotone and waiting in a gap is allowed, so for the same label earlier dominates.
 * Null when nothing fits before the horizon.
 */
export function placeJob(
  board: Board,
  occupancy: Occupancy,
  job: JobSpec,
  wish: PlaceWish,
): Placement | null {
  const behind = behindOf(board, job, wish.stages[0]);
  let labels: readonly Label[] = arrivals(board, occupancy, job, wish.stages[0], behind);
  if (wish.comesEarly) labels = earliestOf(labels);
  let mostMin = behind.mostGapMin;
  for (const stage of wish.stages) {
    const finders = findersOf(board, {
      stage,
      technicians: board.technicians,
      occupancy,
      allowed: allowedFor(stage, wish),
    });
    labels =
      mostMin === null
        ? labelsOfStage(board, occupancy, [...labels, ...yardStops(board, occupancy, labels)], stage, finders)
        : labelsInTime({ board, occupancy, stage, finders, mostMin }, labels);
    if (labels.length === 0) return null;
    mostMin = stage.mostGapMin;
  }
  const best = collect(board, [...labels, ...yardStops(board, occupancy, labels)], wish);
  return best && walkBack(board, job, best, wish.comesEarly === true);
}

function allowedFor(stage: StageSpec, { people, only }: PlaceWish): ReadonlySet<PersonId> | null {
  const given = only?.get(stage);
  return given && (people === null || [...given].every((id) => people.has(id))) ? given : people;
}

/** Who may do a stage in each place, worked out once; the same everywhere where dust is no matter. */
function findersOf(board: Board, workers: Workers): FindersAt {
  const everywhere = board.places.every((p) => p.dustWith.length === 0);
  const known = new Map<number, readonly LabourFinder[]>();
  return (at) => {
    const key = everywhere ? 0 : at;
    const finders = known.get(key) ?? crewFinders(workers, board.places[at]?.id as BayId);
    known.set(key, finders);
    return finders;
  };
}

/**
 * Labels of the car having arrived and nothing done: in the yard, or straight into a place of the first stage. One that is
 * here may have to leave where it stands the minute it can.
 */
function arrivals(
  board: Board,
  occupancy: Occupancy,
  job: JobSpec,
  first: StageSpec | undefined,
  { overMin, leastMin }: Behind,
): readonly Label[] {
  const labels: Label[] = [];
  board.places.forEach((place, at) => {
    const here = job.start.kind === 'here';
    if (here && job.start.kind === 'here' && place.id !== job.start.bayId) return;
    if (!here && place.kind !== 'yard' && !first?.bayKinds.includes(place.kind)) return;
    const gaps = occupancy.placeGaps(place.id);
    for (let gap = 0; gap < gaps.length; gap += 1) {
      const span = gaps[gap];
      const t = span ? arrivalIn(board, job, span.startMin) : NEVER;
      if (!span || t < span.startMin || t > span.endMin || (t === span.endMin && !here)) continue;
      const ready = here ? t : t + board.moveMin + place.setupMin;
      const workMin = Math.max(ready, leastMin);
      const nothing = { overMin, leastMin, from: null, piece: null, later: () => null };
      labels.push({ at, gap, span, enterMin: t, freeMin: t, workMin, ...nothing });
      if (here) return;
    }
  });
  return labels;
}

function earliestOf(labels: readonly Label[]): readonly Label[] {
  const first = Math.min(...labels.map((l) => l.enterMin));
  return labels.filter((l) => l.enterMin === first);
}

function arrivalIn(board: Board, job: JobSpec, gapStart: number): number {
  switch (job.start.kind) {
    case 'over':
      return NEVER;
    case 'free':
      return slotFrom(board, Math.max(job.start.notBeforeMin, gapStart));
    case 'agreed':
      return job.start.dropOffMin;
    case 'here':
      return Math.max(job.start.fromMin, gapStart);
  }
}

/** The first handover slot at or after `t`; NEVER beyond the horizon. */
export function slotFrom(board: Board, t: number): number {
  const i = lastAtOrBelow(board.slots, t);
  return board.slots[i] === t ? t : (board.slots[i + 1] ?? NEVER);
}

/** The last handover slot at or before `t`; −NEVER when there is none. */
export function slotUpTo(board: Board, t: number): number {
  return board.slots[lastAtOrBelow(board.slots, t)] ?? -NEVER;
}

function collect(board: Board, labels: readonly Label[], wish: PlaceWish): Collected | null {
  let best: Collected | null = null;
  for (const label of labels) {
    const readyMin = finishIn(label);
    const pickUpMin = slotFrom(board, Math.max(label.freeMin, wish.holdUntilMin));
    if (pickUpMin > label.span.endMin) continue;
    const next = { label, pickUpMin, readyMin };
    const sooner = wish.readyFirst && best ? readyMin - best.readyMin : 0;
    if (!best || (sooner || rank(board, next, best)) < 0) best = next;
  }
  return best;
}

/** Turns the chain of labels into stays and pieces; a car that was not agreed yet is dropped off as late as fits. */
function walkBack(
  board: Board,
  job: JobSpec,
  { label: last, pickUpMin }: Collected,
  early: boolean,
): Placement {
  const chain: Label[] = [];
  for (let at: Label | null = last; at; at = at.from) chain.unshift(at);
  const pieces: Piece[] = [];
  const stays: Stay[] = [];
  for (const label of chain) {
    const bayId = board.places[label.at]?.id;
    if (!bayId) continue;
    if (label.piece) pieces.push({ ...label.piece, bayId });
    if (label.from && sameStay(label, label.from)) continue;
    const previous = stays.pop();
    if (previous && previous.arriveMin < label.enterMin)
      stays.push({ ...previous, leaveMin: label.enterMin });
    stays.push({ bayId, arriveMin: label.enterMin, leaveMin: pickUpMin });
  }
  const plan: JobPlan = { jobId: job.id, stays, pieces };
  const worked = chain.find((l) => l.piece);
  const tidy = job.start.kind === 'free' && worked && !early ? arriveLate(board, plan, worked) : plan;
  return { plan: tidy, readyMin: finishIn(last), pickUpMin };
}

/** Same work at the same times, but the car comes as late as it can: straight into the bay where that fits. */
function arriveLate(board: Board, plan: JobPlan, worked: Label): JobPlan {
  const at = plan.stays.findIndex((s) => s.arriveMin === worked.enterMin);
  const [first, stay] = [plan.stays[0], plan.stays[at]];
  const startMin = plan.pieces[0]?.startMin;
  if (!first || !stay || startMin === undefined) return plan;
  const setup = board.places[worked.at]?.setupMin ?? 0;
  const latest = slotUpTo(board, startMin - board.moveMin - setup);
  if (latest >= Math.max(worked.span.startMin, first.arriveMin))
    return { ...plan, stays: [{ ...stay, arriveMin: latest }, ...plan.stays.slice(at + 1)] };
  if (at === 0) return plan;
  const arriveMin = Math.max(first.arriveMin, slotUpTo(board, first.leaveMin));
  const stays = [{ ...first, arriveMin }, ...plan.stays.slice(1)];
  return { ...plan, stays: stays.filter((s) => s.leaveMin > s.arriveMin) };
}
