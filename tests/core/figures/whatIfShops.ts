import { alwaysOpen, type Calendar } from '#core/bays/rules/calendar.ts';
import type { SimCar, SimPerson, SimPlace, SimShop, SimStage } from '#core/figures/rules/whatIfShop.ts';
import type { BayKind, Skill } from '#core/shared/vocabulary.ts';

/** Small shops for tests of the what-if, in plain minutes from 0, always open unless said otherwise. */
export function personOf(
  hours: Calendar = alwaysOpen(),
  skills: readonly Skill[] = ['correction'],
): SimPerson {
  return { skills, pace: 1, hours };
}

export function placesOf(kind: BayKind, count: number): SimPlace[] {
  return Array.from({ length: count }, () => ({ kind, shut: [] }));
}

export function shopOf(of: {
  readonly people: readonly SimPerson[];
  readonly bays: number;
  readonly hours?: Calendar;
  readonly more?: readonly SimPlace[];
}): SimShop {
  const hours = of.hours ?? alwaysOpen();
  return {
    ...{ open: hours, desk: hours, people: of.people, mostWaiting: Number.POSITIVE_INFINITY },
    places: [...placesOf('correction', of.bays), ...(of.more ?? [])],
  };
}

export function stageOf(more: Partial<SimStage> = {}): SimStage {
  return {
    ...{ kinds: ['correction'], skill: 'correction', crew: 1, labourMin: 0, dwellMin: 0, pauseMin: 0 },
    splittable: true,
    ...more,
  };
}

export function carOf(stages: readonly SimStage[], askedMin: number, fetchMin = 0): SimCar {
  return { askedMin, fromMin: askedMin, stages, fetchMin };
}
