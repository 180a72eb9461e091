import { add, isOpen, next, openBetween } from '#core/bays/rules/calendar.ts';
import { type Heap, heapOf } from '#core/bays/rules/heap.ts';
import { type Crew, crewOf, type Hands, wakesOf } from './whatIfHands.ts';
import type { SimCar, SimRun, SimShop, SimStage, Visit } from './whatIfShop.ts';

const NEVER = Number.POSITIVE_INFINITY;
type Event = { readonly atMin: number; readonly seq: number; readonly happen: () => void };
/** A car that is here: which stage it is at, how much hand work of it is left, and the place that works on it. */
type Here = {
  readonly car: SimCar;
  readonly visit: Visit;
  stage: number;
  leftMin: number;
  place: number;
  waits: boolean;
};
type Window = { readonly fromMin: number; readonly toMin: number };
type World = {
  readonly shop: SimShop;
  readonly window: Window;
  readonly heap: Heap<Event>;
  readonly crew: Crew;
  readonly taken: boolean[];
  readonly cars: readonly SimCar[];
  /** Who would come now, in the order they may. */
  readonly door: number[];
  readonly here: Here[];
  readonly visits: Visit[];
  readonly sums: { carMin: number; workMin: number; cureMin: number; peopleMin: number; countedMin: number };
  nowMin: number;
  seq: number;
};

/**
 * Runs the shop over its cars, which come in the order of `fromMin`. Each car takes room in the shop from its arrival
 * to its collection, while the desk is open. A stage needs a place of its kind where no other car is worked on, and its
 * hands; what only stands gives way, so no car can shut another out for ever. People put the tools down at the end of
 * their hours and whoever is free goes on; a coat cures without anybody. First come, first served.
 * The run holds no chance of its own: the same cars give the same run.
 */
export function runShop(shop: SimShop, cars: readonly SimCar[], window: Window): SimRun {
  const world: World = {
    ...{ shop, window, cars, door: [], here: [], visits: [], nowMin: -NEVER, seq: 0 },
    heap: heapOf<Event>((a, b) => a.atMin - b.atMin || a.seq - b.seq),
    crew: crewOf(shop.people),
    taken: shop.places.map(() => false),
    sums: { carMin: 0, workMin: 0, cureMin: 0, peopleMin: 0, countedMin: window.fromMin },
  };
  wake(world, wakesOf(shop), 0);
  ask(world, 0);
  for (let event = world.heap.pop(); event && event.atMin <= window.toMin; event = world.heap.pop()) {
    world.nowMin = event.atMin;
    event.happen();
    dispatch(world);
  }
  count(world, window.toMin);
  return { visits: world.visits, ...world.sums };
}

function at(world: World, atMin: number, happen: () => void): void {
  if (atMin === NEVER) return;
  world.seq += 1;
  world.heap.push({ atMin, seq: world.seq, happen });
}

function wake(world: World, wakes: readonly number[], i: number): void {
  at(world, wakes[i] ?? NEVER, () => wake(world, wakes, i + 1));
}

function ask(world: World, i: number): void {
  at(world, world.cars[i]?.fromMin ?? NEVER, () => {
    world.door.push(i);
    ask(world, i + 1);
  });
}

/** Adds up the cars that were here since it was last counted. */
function count(world: World, toMin: number): void {
  const { sums, here, window } = world;
  const until = Math.min(toMin, window.toMin);
  if (until <= sums.countedMin) return;
  sums.carMin += here.length * (until - sums.countedMin);
  sums.countedMin = until;
}

function dispatch(world: World): void {
  for (let more = true; more; ) {
    more = false;
    for (const one of world.here) more = (one.waits && begin(world, one)) || more;
    more = takeIn(world) || more;
  }
}

/** One car from the door, where there is room for it and not too many here wait already. */
function takeIn(world: World): boolean {
  const { shop, here, door, nowMin } = world;
  const [first] = door;
  if (first === undefined || here.length >= shop.places.length || !isOpen(shop.desk, nowMin)) return false;
  if (here.reduce((n, h) => n + (h.waits ? 1 : 0), 0) >= shop.mostWaiting) return false;
  const car = world.cars[first];
  if (!car) return false;
  count(world, nowMin);
  door.shift();
  const { askedMin } = car;
  const ahead = { begunMin: NEVER, readyMin: NEVER, leftMin: NEVER };
  const visit: Visit = { car: first, askedMin, arrivedMin: nowMin, ...ahead };
  world.visits.push(visit);
  const one: Here = { car, visit, stage: -1, leftMin: 0, place: -1, waits: false };
  here.push(one);
  goOn(world, one);
  return true;
}

/** On to the next stage after its pause, or ready and fetched. */
function goOn(world: World, one: Here): void {
  one.stage += 1;
  const stage = one.car.stages[one.stage];
  if (!stage) {
    one.visit.readyMin = world.nowMin;
    at(world, next(world.shop.desk, world.nowMin + one.car.fetchMin), () => leave(world, one));
    return;
  }
  one.leftMin = stage.labourMin;
  if (stage.pauseMin <= 0) one.waits = true;
  else
    at(world, add(world.shop.open, world.nowMin, stage.pauseMin), () => {
      one.waits = true;
    });
}

function leave(world: World, one: Here): void {
  count(world, world.nowMin);
  one.visit.leftMin = world.nowMin;
  world.here.splice(world.here.indexOf(one), 1);
}

/** Begins a stage, or goes on with it after a break, where place and hands are free now. */
function begin(world: World, one: Here): boolean {
  const { nowMin, crew } = world;
  const stage = one.car.stages[one.stage];
  if (!stage) return false;
  const place = one.place >= 0 ? one.place : freePlace(world, stage);
  if (place < 0) return false;
  const hands = stage.crew === 0 ? null : crew.pick(stage, nowMin, one.leftMin);
  if (stage.crew > 0 && !hands) return false;
  one.waits = false;
  one.place = place;
  world.taken[place] = true;
  one.visit.begunMin = Math.min(one.visit.begunMin, nowMin);
  if (hands) work(world, one, stage, hands);
  else dwell(world, one, one.leftMin + stage.dwellMin);
  return true;
}

/** Until the stage is done or somebody's hours are over, whichever is first. */
function work(world: World, one: Here, stage: SimStage, hands: Hands): void {
  const { nowMin, crew } = world;
  crew.take(hands.people);
  const tookMin = Math.min(one.leftMin / hands.pace, hands.untilMin - nowMin);
  const workedMin = within(world.window, nowMin, nowMin + tookMin);
  world.sums.workMin += workedMin;
  world.sums.peopleMin += workedMin * hands.people.length;
  at(world, nowMin + tookMin, () => {
    crew.free(hands.people);
    one.leftMin -= tookMin * hands.pace;
    if (one.leftMin > 1e-6) one.waits = true;
    else dwell(world, one, stage.dwellMin);
  });
}

function freePlace({ shop, taken, nowMin }: World, stage: SimStage): number {
  for (const kind of stage.kinds)
    for (let i = 0; i < shop.places.length; i += 1) {
      const place = shop.places[i];
      if (taken[i] || place?.kind !== kind) continue;
      if (!place.shut.some((s) => s.startMin <= nowMin && nowMin < s.endMin)) return i;
    }
  return -1;
}

/** The place is held until what was put on has cured. */
function dwell(world: World, one: Here, minutes: number): void {
  const { nowMin, window, shop } = world;
  const [from, to] = [Math.max(nowMin, window.fromMin), Math.min(nowMin + minutes, window.toMin)];
  if (minutes > 0) world.sums.cureMin += openBetween(shop.open, from, to);
  const over = (): void => {
    world.taken[one.place] = false;
    one.place = -1;
    goOn(world, one);
  };
  if (minutes > 0) at(world, nowMin + minutes, over);
  else over();
}

function within(window: Window, fromMin: number, toMin: number): number {
  return Math.max(0, Math.min(toMin, window.toMin) - Math.max(fromMin, window.fromMin));
}
