import type { Calendar, Span } from '#core/bays/rules/calendar.ts';
import type { BayKind, Skill } from '#core/shared/vocabulary.ts';

/** The shop as the what-if sees it: plain data that survives structured clone, in minutes since the epoch. */

/** Room for one car. A yard for three is three places. */
export type SimPlace = { readonly kind: BayKind; readonly shut: readonly Span[] };

/** `pace` 1 = the shop's usual one. Nobody works outside `hours`. */
export type SimPerson = {
  readonly skills: readonly Skill[];
  readonly pace: number;
  readonly hours: Calendar;
};

export type SimShop = {
  readonly open: Calendar;
  /** When cars come and go. */
  readonly desk: Calendar;
  readonly places: readonly SimPlace[];
  readonly people: readonly SimPerson[];
  /** No further car is taken in while so many that are here wait for hands or for a bay. */
  readonly mostWaiting: number;
};

/**
 * A stage as it went. `labourMin` is of one pair of hands at usual pace; with `crew` 0 it runs by itself, as the
 * dwell after it does. `pauseMin` are open minutes that the car stood before it.
 */
export type SimStage = {
  readonly kinds: readonly BayKind[];
  readonly skill: Skill;
  readonly crew: number;
  readonly labourMin: number;
  readonly dwellMin: number;
  readonly pauseMin: number;
  readonly splittable: boolean;
};

/** A car that wants in: it asks, will not come before `fromMin`, and is fetched `fetchMin` after it is ready. */
export type SimCar = {
  readonly askedMin: number;
  readonly fromMin: number;
  readonly stages: readonly SimStage[];
  readonly fetchMin: number;
};

/** What became of one car; Infinity = not in this run any more. */
export type Visit = {
  readonly car: number;
  readonly askedMin: number;
  readonly arrivedMin: number;
  /** The first stage began. */
  begunMin: number;
  readyMin: number;
  leftMin: number;
};

/** A run, and what was counted by time in `[fromMin, toMin)` of it. */
export type SimRun = {
  readonly visits: readonly Visit[];
  /** Cars in the shop, added up over the minutes. */
  readonly carMin: number;
  /** Minutes of places with somebody at the car. */
  readonly workMin: number;
  /** Open minutes of places with a car that cures by itself. */
  readonly cureMin: number;
  /** Minutes of people at cars. */
  readonly peopleMin: number;
};
