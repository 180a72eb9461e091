import type { LocalDay } from '../core/shared/units.ts';
import type { Skill } from '../core/shared/vocabulary.ts';

export const ZONE = 'Europe/Vienna';

type Spans = readonly (readonly [number, number])[];
/** Minutes since midnight by ISO weekday. */
export type Week = readonly {
  readonly weekday: number;
  readonly startMin: number;
  readonly endMin: number;
}[];

const onDays = (days: readonly number[], spans: Spans): Week =>
  days.flatMap((weekday) => spans.map(([startMin, endMin]) => ({ weekday, startMin, endMin })));

const EARLY = [
  [480, 720],
  [750, 990],
] as const;
const LATE = [
  [600, 810],
  [840, 1080],
] as const;

/** When the shop works and the desk hands cars over. */
export const OPEN: Week = [...onDays([1, 2, 3, 4, 5], [[480, 1080]]), ...onDays([6], [[540, 780]])];

export type Worker = {
  readonly name: string;
  readonly skills: readonly Skill[];
  readonly shifts: Week;
  readonly speedPpm: number;
  /** Days before the demo's day on which a holiday begins, and its days. */
  readonly away: readonly (readonly [number, number])[];
};

/**
 * The four technicians: 134 shift hours in a full week, about 124 after holidays. With 11.5 jobs a week of 7.6 hours
 * that is about 70 % of the time they are there.
 */
export const CREW: readonly Worker[] = [
  {
    name: 'Ines Carrow',
    skills: ['wash', 'correction', 'inspection', 'protection'],
    shifts: onDays([1, 2, 3, 4, 5], EARLY),
    speedPpm: 1_000_000,
    away: weeksOff(30),
  },
  {
    name: 'Tomas Brae',
    skills: ['wash', 'correction', 'interior', 'inspection', 'protection'],
    shifts: [...onDays([2, 3, 4, 5], EARLY), ...onDays([6], [[540, 780]])],
    speedPpm: 960_000,
    away: weeksOff(54),
  },
  {
    name: 'Wren Halloway',
    skills: ['wash', 'correction', 'protection', 'inspection', 'interior'],
    shifts: onDays([1, 2, 3, 4, 5], LATE),
    speedPpm: 1_040_000,
    away: weeksOff(76),
  },
  {
    name: 'Osk Lindell',
    skills: ['wash', 'interior', 'protection', 'inspection'],
    shifts: onDays([1, 2, 3, 4, 5], [[480, 780]]),
    speedPpm: 1_000_000,
    away: weeksOff(98),
  },
];

/** A week off four times a year, never two people at once. */
function weeksOff(before: number): readonly (readonly [number, number])[] {
  return Array.from({ length: 8 }, (_, i) => [before + i * 91, 7] as const);
}

/** Days of the year on which the demo's town does not work. */
const HOLIDAYS = ['01-01', '01-06', '05-01', '08-15', '10-26', '11-01', '12-25', '12-26'];

export function isHoliday(day: LocalDay): boolean {
  return HOLIDAYS.includes(day.slice(5));
}
