import { add, isOpen, next, openBetween } from '#core/bays/rules/calendar.ts';
import { type Hands, wakesOf } from './whatIfHands.ts';
import type { SimCar, SimRun, SimShop, SimStage, Visit } from './whatIfShop.ts';
import {
  at,
  count,
  freePlace,
  type Here,
  NEVER,
  type Window,
  type World,
  wait,
  within,
  worldOf,
} from './whatIfWorld.ts';

/**
 * Runs the shop over its cars, which come in the order of `fromMin`. Each car takes room in the shop from its arrival
 * to its collection, while the desk is open. A stage needs a place of its kind where no other car is worked on, and its
 * hands; what only stands gives way, so no car can shut another out for ever. People put the tools down at the end of
 * their hours and whoever is free goes on; a coat cures without anybody. First come, first served.
 * The run holds no chance of its own: the same cars give the same run.
 */
export function runShop(shop: SimShop, cars: readonly SimCar[], window: Window): SimRun {
  const world = worldOf(shop, cars, window);
  wake(world, wakesOf(shop), 0);
  ask(world, 0);
  for (let event = world.heap.pop(); event && event.atMin <= window.toMin; event = world.heap.pop()) {
    world.nowMin = event.atMin;
    world.freed = true;
    event.happen();
    dispatch(world);
  }
  count(world, window.toMin);
  return { visits: world.visits, ...world.sums };
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

function dispatch(world: World): void {
  for (let more = true; more; ) {
    // What was found full or busy stays so until something comes free.
    if (world.freed) {
      world.full.clear();
      world.busy.clear();
    }
    world.freed = false;
    for (let i = 0; i < world.waiting.length; ) {
      const one = world.waiting[i];
      if (one && begin(world, one)) {
        world.waiting.splice(world.waiting.indexOf(one), 1);
      } else i += 1;
    }
    more = takeIn(world) || world.freed;
  }
}

/** One car from the door, where there is room for it and not too many here wait already. */
function takeIn(world: World): boolean {
  const { shop, here, door, nowMin } = world;
  const [first] = door;
  if (first === undefined || here.length >= shop.places.length || !isOpen(shop.desk, nowMin)) return false;
  if (world.waiting.length >= shop.mostWaiting) return false;
  const car = world.cars[first];
  if (!car) return false;
  count(world, nowMin);
  door.shift();
  const { askedMin } = car;
  const ahead = { begunMin: NEVER, readyMin: NEVER, leftMin: NEVER };
  const visit: Visit = { car: first, askedMin, arrivedMin: nowMin, ...ahead };
  world.visits.push(visit);
  const one: Here = { car, visit, stage: -1, leftMin: 0, place: -1, turn: world.visits.length };
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
  if (stage.pauseMin <= 0) wait(world, one);
  else at(world, add(world.shop.open, world.nowMin, stage.pauseMin), () => wait(world, one));
}

function leave(world: World, one: Here): void {
  count(world, world.nowMin);
  one.visit.leftMin = world.nowMin;
  world.here.splice(world.here.indexOf(one), 1);
}

/** Begins a stage, or goes on with it after a break, where place and hands are free now. */
function begin(world: World, one: Here): boolean {
  const { nowMin, busy } = world;
  const stage = one.car.stages[one.stage];
  if (!stage || (stage.crew > 0 && busy.has(stage.skill))) return false;
  const place = one.place >= 0 ? one.place : freePlace(world, stage);
  if (place < 0) return false;
  const hands = stage.crew === 0 ? null : world.crew.pick(stage, nowMin, one.leftMin);
  if (stage.crew > 0 && !hands) {
    if (!world.crew.anyFree(stage.skill, nowMin)) busy.add(stage.skill);
    return false;
  }
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
    if (one.leftMin > 1e-6) wait(world, one);
    else dwell(world, one, stage.dwellMin);
  });
}

/** The place is held until what was put on has cured. */
function dwell(world: World, one: Here, minutes: number): void {
  const { nowMin, window, shop } = world;
  const [from, to] = [Math.max(nowMin, window.fromMin), Math.min(nowMin + minutes, window.toMin)];
  if (minutes > 0) world.sums.cureMin += openBetween(shop.open, from, to);
  const over = (): void => {
    world.taken[one.place] = false;
    world.freed = true;
    one.place = -1;
    goOn(world, one);
  };
  if (minutes > 0) at(world, nowMin + minutes, over);
  else over();
}
