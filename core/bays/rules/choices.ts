import type { JobId, PersonId } from '#core/shared/ids.ts';
import type { OfferKind } from '#core/shared/views/bays.ts';
import { lastAtOrBelow, type Span } from './calendar.ts';
import { type Board, finishOf, isOpenStage, type JobSpec } from './model.ts';
import { occupancyOf } from './occupancy.ts';
import { type Placement, placeJob } from './offers.ts';
import { promiseSlot } from './promise.ts';
import { simulateReady } from './simulate.ts';

/** What the customer asked for. `day` is a span of minutes in which the car is to come. */
export type OfferWish = {
  readonly notBeforeMin: number;
  readonly technicianId: PersonId | null;
  readonly day: Span | null;
  readonly count: number;
  readonly levelPpm: number;
};
export type Choice = {
  readonly kind: OfferKind;
  readonly placement: Placement;
  /** Sorted simulated minutes of being ready. */
  readonly ready: readonly number[];
  /** The promised handover: the first slot at which enough of the runs are ready. */
  readonly pickUpMin: number;
};

/** Releases tried: each of the next days on which the desk opens. */
const DAYS_TRIED = 24;
const SEED = 20;

/**
 * Dated offers that differ in kind: soonest back, soonest in, least waiting, the named technician, the named day,
 * then later ones until there are `count`. Empty when the job fits nowhere before the horizon.
 */
export function offersFor(board: Board, job: JobSpec, wish: OfferWish): readonly Choice[] {
  const place = placer(board, job);
  const releases = releasesFrom(board, wish.notBeforeMin);
  const found = releases.flatMap((t) => place(t, null) ?? []);
  const first = found[0];
  if (!first) return [];
  const picked: { kind: OfferKind; placement: Placement }[] = [{ kind: 'soonestBack', placement: first }];
  const take = (kind: OfferKind, placement: Placement | null | undefined): void => {
    if (!placement || picked.some((p) => sameOffer(p.placement, placement))) return;
    picked.push({ kind, placement });
  };
  if (wish.day) take('day', dayPlacement(board, place, wish.day));
  if (wish.technicianId) take('technician', place(wish.notBeforeMin, new Set([wish.technicianId])));
  take('soonestIn', least(found, arriveOf));
  take(
    'leastWaiting',
    least(found, (p) => p.pickUpMin - arriveOf(p)),
  );
  for (const placement of found) if (picked.length < wish.count) take('later', placement);
  const chosen = picked.slice(0, Math.max(1, wish.count));
  return chosen.map((c) => promised(board, job, c.kind, c.placement, wish.levelPpm));
}

export type SoonestWish = {
  readonly notBeforeMin: number;
  readonly levelPpm: number;
  readonly runs: number;
  /** Minutes after the planned finish that are promised instead of the slot that is sure enough; null = sure enough. */
  readonly marginMin: number | null;
};

/**
 * The first place that fits from a minute on, dropped off as late as leaves the pick-up the same, and promised after
 * `runs` simulations; null when there is none.
 */
export function soonestFor(board: Board, job: JobSpec, wish: SoonestWish): Choice | null {
  const place = placer(board, job);
  const first = place(Math.max(wish.notBeforeMin, board.nowMin), null);
  if (!first) return null;
  const placement = lastDropOff(board, place, first);
  if (wish.marginMin === null)
    return promised(board, job, 'soonestBack', placement, wish.levelPpm, wish.runs);
  const held = place(arriveOf(placement), null, placement.readyMin + wish.marginMin) ?? placement;
  const ready = readyOf(board, job, held, wish.runs);
  return { kind: 'soonestBack', placement: held, ready, pickUpMin: held.pickUpMin };
}

/** Halves the openings between drop-off and pick-up: a later drop-off never makes the pick-up earlier. */
function lastDropOff(board: Board, place: Placer, first: Placement): Placement {
  const slots = board.slots.filter((t) => t > arriveOf(first) && t < first.pickUpMin);
  let best = first;
  let [low, high] = [0, slots.length - 1];
  while (low <= high) {
    const middle = (low + high) >> 1;
    const later = place(slots[middle] ?? 0, null);
    if (later && later.pickUpMin === first.pickUpMin) {
      best = later;
      low = middle + 1;
    } else high = middle - 1;
  }
  return best;
}

type Placer = (notBeforeMin: number, people: ReadonlySet<PersonId> | null, hold?: number) => Placement | null;

function placer(board: Board, job: JobSpec): Placer {
  const occupancy = occupancyOf(board, new Set([job.id]), board.nowMin);
  const stages = job.stages.filter(isOpenStage);
  return (notBeforeMin, people, hold = 0) =>
    placeJob(
      board,
      occupancy,
      { ...job, start: job.start.kind === 'here' ? job.start : { kind: 'free', notBeforeMin } },
      { people, holdUntilMin: hold, stages },
    );
}

function releasesFrom(board: Board, notBeforeMin: number): readonly number[] {
  const from = Math.max(notBeforeMin, board.nowMin);
  const at = lastAtOrBelow(board.desk.starts, from);
  const later = board.desk.starts.slice(at + 1, at + 1 + DAYS_TRIED);
  return [from, ...later];
}

function dayPlacement(board: Board, place: Placer, day: Span): Placement | null {
  const placement = place(Math.max(day.startMin, board.nowMin), null);
  return placement && arriveOf(placement) < day.endMin ? placement : null;
}

function arriveOf(placement: Placement): number {
  return placement.plan.stays[0]?.arriveMin ?? Number.POSITIVE_INFINITY;
}

function sameOffer(a: Placement, b: Placement): boolean {
  return a.pickUpMin === b.pickUpMin && arriveOf(a) === arriveOf(b) && crewOf(a) === crewOf(b);
}
function crewOf(p: Placement): string {
  return p.plan.pieces.map((x) => x.personIds.join()).join('/');
}

function least(placements: readonly Placement[], by: (p: Placement) => number): Placement | undefined {
  return placements.toSorted((a, b) => by(a) - by(b))[0];
}

/**
 * Simulates the placement and lets the car stand until the slot that is sure enough. When its last place is needed
 * before that, the job is placed again so that it can stand (at most three times).
 */
function promised(
  board: Board,
  job: JobSpec,
  kind: OfferKind,
  start: Placement,
  levelPpm: number,
  runs?: number,
): Choice {
  const occupancy = occupancyOf(board, new Set([job.id]), board.nowMin);
  const stages = job.stages.filter(isOpenStage);
  let placement = start;
  let ready: readonly number[] = [];
  let pickUpMin = placement.pickUpMin;
  for (let round = 0; round < 3; round += 1) {
    ready = readyOf(board, job, placement, runs);
    pickUpMin = Math.max(placement.pickUpMin, promiseSlot(board, ready, levelPpm));
    if (placement.plan.stays.at(-1)?.leaveMin === pickUpMin || pickUpMin === Number.POSITIVE_INFINITY) break;
    const people = new Set(placement.plan.pieces.flatMap((p) => p.personIds));
    const from = { kind: 'free', notBeforeMin: arriveOf(start) } as const;
    const held = placeJob(
      board,
      occupancy,
      { ...job, start: job.start.kind === 'here' ? job.start : from },
      { people: people.size === 0 ? null : people, holdUntilMin: pickUpMin, stages },
    );
    if (!held) break;
    placement = held;
    if (sameWork(held, start) && round > 0) break;
  }
  return { kind, placement, ready, pickUpMin: placement.plan.stays.at(-1)?.leaveMin ?? pickUpMin };
}

function sameWork(a: Placement, b: Placement): boolean {
  return finishOf(a.plan) === finishOf(b.plan);
}

/** Simulated minutes of being ready for a job placed like this on the board. */
export function readyOf(
  board: Board,
  job: JobSpec,
  placement: Pick<Placement, 'plan'>,
  runs?: number,
): readonly number[] {
  const plans = new Map(board.plans).set(job.id, placement.plan);
  const jobs = new Map(board.jobs).set(job.id, job);
  return simulateReady({ ...board, plans, jobs }, [job.id], SEED, runs).get(job.id) ?? [];
}

/** Which limit, lifted on its own, would let the car be ready soonest; `workItself` when none helps. */
export type Why = {
  readonly kind: 'bays' | 'people' | 'yard' | 'deskHours' | 'workItself';
  readonly names: readonly string[];
  readonly gainMin: number;
};

export function whyNotEarlier(board: Board, job: JobSpec, placement: Placement, notBeforeMin: number): Why {
  const without = (plans: Board['plans'], more: Partial<Board> = {}): number => {
    const freed: Board = { ...board, ...more, plans };
    return placer(freed, job)(notBeforeMin, null)?.readyMin ?? placement.readyMin;
  };
  const keep = (stays: boolean, pieces: boolean): Board['plans'] =>
    new Map(
      [...board.plans].map(([id, p]): [JobId, typeof p] => [
        id,
        { ...p, stays: stays ? p.stays : [], pieces: pieces ? p.pieces : [] },
      ]),
    );
  const yards = board.places.map((p) => (p.kind === 'yard' ? { ...p, capacity: 50 } : p));
  const ready = placement.readyMin;
  const bayIds = new Set(placement.plan.pieces.map((p) => p.bayId));
  const people = new Set(placement.plan.pieces.flatMap((p) => p.personIds));
  const reasons: Why[] = [
    { kind: 'bays', names: namesIn(board.places, bayIds), gainMin: ready - without(keep(false, true)) },
    {
      kind: 'people',
      names: namesIn(board.technicians, people),
      gainMin: ready - without(keep(true, false)),
    },
    { kind: 'yard', names: [], gainMin: ready - without(board.plans, { places: yards }) },
    {
      kind: 'deskHours',
      names: [],
      gainMin: ready - without(board.plans, { slots: everyQuarter(board, notBeforeMin) }),
    },
  ];
  const best = reasons.reduce((a, b) => (b.gainMin > a.gainMin ? b : a));
  return best.gainMin > 0 ? best : { kind: 'workItself', names: [], gainMin: 0 };
}

function namesIn<T>(
  rows: readonly { readonly id: T; readonly name: string }[],
  ids: ReadonlySet<T>,
): string[] {
  return rows.filter((r) => ids.has(r.id)).map((r) => r.name);
}

/** Every quarter of an hour of the next two weeks, as if the desk never closed. */
function everyQuarter(board: Board, from: number): readonly number[] {
  const quarters = Array.from({ length: 14 * 96 }, (_, i) => (Math.ceil(from / 15) + i) * 15);
  return [...quarters, ...board.slots.filter((s) => s > (quarters.at(-1) ?? 0))];
}
