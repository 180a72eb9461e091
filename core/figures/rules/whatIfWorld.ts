import { type Heap, heapOf } from '#core/bays/rules/heap.ts';
import type { BayKind, Skill } from '#core/shared/vocabulary.ts';
import { type Crew, crewOf } from './whatIfHands.ts';
import type { SimCar, SimShop, SimStage, Visit } from './whatIfShop.ts';

export const NEVER = Number.POSITIVE_INFINITY;
type Event = { readonly atMin: number; readonly seq: number; readonly happen: () => void };
/** A car that is here: which stage it is at, how much hand work of it is left, and the place that works on it. */
export type Here = {
  readonly car: SimCar;
  readonly visit: Visit;
  stage: number;
  leftMin: number;
  place: number;
  /** The how manieth that came. */
  readonly turn: number;
};
export type Window = { readonly fromMin: number; readonly toMin: number };
export type World = {
  readonly shop: SimShop;
  readonly window: Window;
  readonly heap: Heap<Event>;
  readonly crew: Crew;
  readonly taken: boolean[];
  readonly byKind: ReadonlyMap<BayKind, readonly number[]>;
  readonly cars: readonly SimCar[];
  /** Who would come now, in the order they may. */
  readonly door: number[];
  readonly here: Here[];
  /** Those of them that wait for hands or a bay, the earliest that came first. */
  readonly waiting: Here[];
  /** Found in this round of looking: kinds of bays of which none is free, skills of which nobody is. */
  readonly full: Set<BayKind>;
  readonly busy: Set<Skill>;
  readonly visits: Visit[];
  readonly sums: { carMin: number; workMin: number; cureMin: number; peopleMin: number; countedMin: number };
  /** Something came free since it was last looked what can begin. */
  freed: boolean;
  nowMin: number;
  seq: number;
};

export function worldOf(shop: SimShop, cars: readonly SimCar[], window: Window): World {
  return {
    ...{
      shop,
      window,
      cars,
      door: [],
      here: [],
      waiting: [],
      visits: [],
      full: new Set(),
      busy: new Set(),
      freed: true,
      nowMin: -NEVER,
      seq: 0,
    },
    heap: heapOf<Event>((a, b) => a.atMin - b.atMin || a.seq - b.seq),
    crew: crewOf(shop.people),
    taken: shop.places.map(() => false),
    byKind: Map.groupBy(shop.places.keys(), (i) => shop.places[i]?.kind ?? 'yard'),
    sums: { carMin: 0, workMin: 0, cureMin: 0, peopleMin: 0, countedMin: window.fromMin },
  };
}

/** Lets something happen at a minute; NEVER = not at all. */
export function at(world: World, atMin: number, happen: () => void): void {
  if (atMin === NEVER) return;
  world.seq += 1;
  world.heap.push({ atMin, seq: world.seq, happen });
}

/** Adds up the cars that were here since it was last counted. */
export function count(world: World, toMin: number): void {
  const { sums, here, window } = world;
  const until = Math.min(toMin, window.toMin);
  if (until <= sums.countedMin) return;
  sums.carMin += here.length * (until - sums.countedMin);
  sums.countedMin = until;
}

/** Lines up for hands or a bay, behind whoever came earlier. */
export function wait(world: World, one: Here): void {
  const { waiting } = world;
  let at = waiting.length;
  while (at > 0 && (waiting[at - 1]?.turn ?? 0) > one.turn) at -= 1;
  waiting.splice(at, 0, one);
}

/** A place of a kind that the stage can be done in, where no other car is worked on and which is not shut; −1 = none. */
export function freePlace({ shop, taken, nowMin, full, byKind }: World, stage: SimStage): number {
  for (const kind of stage.kinds) {
    if (full.has(kind)) continue;
    for (const i of byKind.get(kind) ?? []) {
      if (taken[i]) continue;
      const shut = shop.places[i]?.shut ?? [];
      if (shut.length === 0 || !shut.some((s) => s.startMin <= nowMin && nowMin < s.endMin)) return i;
    }
    full.add(kind);
  }
  return -1;
}

export function within(window: Window, fromMin: number, toMin: number): number {
  return Math.max(0, Math.min(toMin, window.toMin) - Math.max(fromMin, window.fromMin));
}
