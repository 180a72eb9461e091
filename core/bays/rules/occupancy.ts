import type { BayId, JobId, PersonId } from '#core/shared/ids.ts';
import { airOf } from './air.ts';
import { gapsBetween, lastAtOrBelow, type Span } from './calendar.ts';
import type { Board, JobPlan, Place, Technician } from './model.ts';

/** What is taken, per place and per technician, and the gaps that are left. Plans can be taken out and put in. */
export type Occupancy = {
  readonly placeGaps: (id: BayId) => readonly Span[];
  readonly personGaps: (id: PersonId) => readonly Span[];
  /** When somebody cuts near a place, and when a coating is fresh near it: sorted, apart from each other. */
  readonly dustNear: (id: BayId) => readonly Span[];
  readonly freshNear: (id: BayId) => readonly Span[];
  /**
   * Whether cars would have to change places in a shop without a yard: who leaves `to` at that minute goes, over others if
   * need be, into `from`. Before the doors of a yard, full or not, there is room to pass. Common practice, no source.
   */
  readonly wouldPass: (from: BayId, to: BayId, atMin: number) => boolean;
  readonly remove: (plan: JobPlan) => void;
  readonly put: (plan: JobPlan) => void;
};

type Held = {
  readonly jobId: JobId;
  readonly startMin: number;
  readonly endMin: number;
  /** Where the car is driven at the end; null when it is collected, and for people. */
  readonly into: BayId | null;
};
type Lane = { held: Held[]; gaps: readonly Span[] | null };

type Rows = ReadonlyMap<BayId, { readonly place: Place; readonly lane: Lane }>;
type People = ReadonlyMap<PersonId, Lane>;

/** The occupancy of every plan on the board but those in `without`. Gaps begin at `fromMin`. */
export function occupancyOf(board: Board, without: ReadonlySet<JobId>, fromMin: number): Occupancy {
  const places = new Map(board.places.map((p) => [p.id, { place: p, lane: emptyLane() }]));
  const people = new Map(board.technicians.map((t) => [t.id, emptyLane()]));
  const air = airOf(board);
  const horizon = board.horizonMin;
  const hasYard = board.places.some((p) => p.kind === 'yard');
  const occupancy: Occupancy = {
    placeGaps: (id) => {
      const row = places.get(id);
      if (!row) return [];
      row.lane.gaps ??= freeSpans(row.place, row.lane.held, fromMin, horizon);
      return row.lane.gaps;
    },
    personGaps: (id) => {
      const lane = people.get(id);
      if (!lane) return [];
      lane.gaps ??= gapsBetween(lane.held, fromMin, horizon);
      return lane.gaps;
    },
    dustNear: air.dustNear,
    freshNear: air.freshNear,
    wouldPass: (from, to, atMin) => !hasYard && isRound(places, from, to, atMin),
    remove: (plan) => {
      air.remove(plan);
      dropAll(places, people, plan);
    },
    put: (plan) => {
      air.put(plan);
      holdAll(places, people, plan);
    },
  };
  for (const plan of board.plans.values()) if (!without.has(plan.jobId)) occupancy.put(plan);
  return occupancy;
}

function emptyLane(): Lane {
  return { held: [], gaps: null };
}

function drop(lane: Lane | undefined, jobId: JobId): void {
  if (!lane) return;
  lane.held = lane.held.filter((h) => h.jobId !== jobId);
  lane.gaps = null;
}

function dropAll(places: Rows, people: People, { jobId, stays, pieces }: JobPlan): void {
  for (const { bayId } of stays) drop(places.get(bayId)?.lane, jobId);
  for (const { personIds } of pieces) for (const id of personIds) drop(people.get(id), jobId);
}

function holdAll(places: Rows, people: People, { jobId, stays, pieces }: JobPlan): void {
  stays.forEach(({ bayId, arriveMin, leaveMin }, i) => {
    const into = stays[i + 1]?.bayId ?? null;
    hold(places.get(bayId)?.lane, { jobId, startMin: arriveMin, endMin: leaveMin, into });
  });
  for (const { personIds, startMin, endMin } of pieces)
    for (const id of personIds) hold(people.get(id), { jobId, startMin, endMin, into: null });
}

function hold(lane: Lane | undefined, held: Held): void {
  if (!lane || held.endMin <= held.startMin) return;
  lane.held.push(held);
  lane.gaps = null;
}

/** Follows who leaves a place at a minute, from place to place; where several cars stand there is room to pass. */
function isRound(rows: Rows, from: BayId, to: BayId, atMin: number): boolean {
  let at: BayId | null = to;
  for (let step = 0; at !== null && step < rows.size; step += 1) {
    if (at === from) return true;
    const row = rows.get(at);
    if (!row || row.place.capacity > 1) return false;
    at = row.lane.held.find((h) => h.endMin === atMin)?.into ?? null;
  }
  return at === from;
}

/** Spans in which one more car fits: fewer than `capacity` stand there, the place is not closed and exists. */
function freeSpans(place: Place, held: readonly Span[], from: number, horizon: number): readonly Span[] {
  const to = Math.min(horizon, place.endsMin);
  if (to <= from) return [];
  return gapsBetween([...place.closed, ...fullSpans(held, place.capacity)], from, to);
}

/** Where `capacity` or more of the spans overlap. */
function fullSpans(held: readonly Span[], capacity: number): readonly Span[] {
  if (capacity === 1) return held;
  const steps = held.flatMap((h) => [
    { at: h.startMin, by: 1 },
    { at: h.endMin, by: -1 },
  ]);
  steps.sort((a, b) => a.at - b.at || a.by - b.by);
  const full: Span[] = [];
  let count = 0;
  let since = 0;
  for (const step of steps) {
    const was = count;
    count += step.by;
    if (was < capacity && count >= capacity) since = step.at;
    if (was >= capacity && count < capacity && step.at > since)
      full.push({ startMin: since, endMin: step.at });
  }
  return full;
}

/** Index of the first gap that ends after `t`. */
export function gapFrom(gaps: readonly Span[], starts: readonly number[], t: number): number {
  const i = lastAtOrBelow(starts, t);
  if (i >= 0 && t < (gaps[i]?.endMin ?? 0)) return i;
  return i + 1;
}

/** Technicians who may work on something, one by one or as pairs for a crew of two. */
export function withSkill(
  technicians: readonly Technician[],
  skill: string,
  allowed: ReadonlySet<PersonId> | null,
): readonly Technician[] {
  return technicians.filter(
    (t) => t.skills.some((s) => s === skill) && (allowed === null || allowed.has(t.id)),
  );
}
