import { type DayRow, daysBetween } from '#core/bays/rules/hours.ts';
import type { Asks, PastJob } from '#core/figures/rules/whatIfAsks.ts';
import type { BayId, PersonId } from '#core/shared/ids.ts';
import type { LocalDay, Ppm } from '#core/shared/units.ts';
import type { BaysSetupView } from '#core/shared/views/baysSetup.ts';
import { stageOf } from './whatIfShops.ts';

const ZONE = 'Europe/Berlin';
/** Twelve weeks over the end of summer time. */
export const DAYS: readonly DayRow[] = daysBetween('2026-09-07' as LocalDay, '2026-11-29' as LocalDay, ZONE);

/** A job as a record might have it: four hours of hands and a coat, a week ahead, two days in the shop. */
export function pastJob(more: Partial<PastJob> = {}): PastJob {
  return {
    ...{
      purpose: 'correction',
      weekday: 2,
      minuteOfDay: 600,
      leadMin: 7 * 1440,
      stayMin: 2880,
      fetchMin: 120,
    },
    stages: [
      { kind: 'cut', ...stageOf({ labourMin: 240, pauseMin: 60 }) },
      { kind: 'cure', ...stageOf({ crew: 0, dwellMin: 600, pauseMin: 30 }) },
    ],
    ...{ workMin: 240, handsMin: 240, cureMin: 300, promisedMin: 900, tookMin: 800 },
    ...{ netMinor: 60_000, materialMinor: 5_000 },
    ...more,
  };
}

/** So many alike but told apart by their days in the shop, spread over the weekdays of four weeks. */
export function asksOf(count: number): Asks {
  const jobs = Array.from({ length: count }, (_, i) =>
    pastJob({ weekday: (i % 5) + 1, stayMin: 2000 + i, netMinor: 50_000 + 1000 * i }),
  );
  return { jobs, weeks: 4, times: 1, shares: new Map([['correction', 1]]) };
}

/** One correction bay, a yard for two, one technician; Monday to Friday from 8 to 17 with an hour at noon. */
export function setupOf(): BaysSetupView {
  const week = [1, 2, 3, 4, 5];
  const startedDay = '2026-01-01' as LocalDay;
  const bay = { capacity: 1, setupMin: 0, startedDay, endedDay: null, revision: 1 };
  return {
    bays: [
      { ...bay, bayId: 'b1' as BayId, name: 'One', kind: 'correction' },
      { ...bay, bayId: 'y' as BayId, name: 'Yard', kind: 'yard', capacity: 2 },
    ],
    hours: week.flatMap((weekday) =>
      (['shop', 'desk'] as const).map((kind) => ({ weekday, kind, openMin: 480, closeMin: 1020 })),
    ),
    technicians: [
      {
        personId: 'p1' as PersonId,
        name: 'Ada',
        skills: ['correction', 'protection'],
        speedPpm: 1_000_000 as Ppm,
        startedDay,
        endedDay: null,
        shifts: week.flatMap((weekday) => [
          { weekday, startMin: 480, endMin: 720 },
          { weekday, startMin: 780, endMin: 1020 },
        ]),
      },
    ],
    ...{ closures: [], absences: [], gaps: [], dust: [] },
  };
}
