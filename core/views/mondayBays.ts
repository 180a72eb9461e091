import { openBetween, subtract } from '../bays/rules/calendar.ts';
import { daysBetween } from '../bays/rules/hours.ts';
import type { ReadCtx } from '../context.ts';
import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import { grouped, honestyOf } from '../figures/rules/honesty.ts';
import type { MondayFacts } from '../figures/rules/mondayFacts.ts';
import type { BayId } from '../shared/ids.ts';
import { addLocalDays, instantOf, minuteOf } from '../shared/time.ts';
import type { LocalDay, Ppm } from '../shared/units.ts';
import type { StageKind } from '../shared/vocabulary.ts';
import { baysSetup } from './baysSetup.ts';
import { finishedWork } from './finishedWork.ts';
import { bayHours } from './hoursFrame.ts';
import { jobSums } from './jobSums.ts';
import { utilizationView } from './utilization.ts';

const AHEAD_DAYS = 7;
const BOOKED_DAYS = 28;
/** How far back is "lately". */
const LATELY_DAYS = 90;

/** What the last three months brought after materials: an hour worked, an hour of a car in a bay, a job. 0 without any. */
export type Lately = {
  readonly perHourMinor: number;
  readonly perBayHourMinor: number;
  readonly jobMinor: number;
  readonly jobMin: number;
};

export function latelyOf(ctx: ReadCtx, today: LocalDay, zone: string): Lately {
  const range = { fromDay: addLocalDays(today, -LATELY_DAYS), toDay: addLocalDays(today, -1) };
  const rows = jobSums(ctx.db, {
    fromMs: instantOf(range.fromDay, 0, zone),
    toMs: instantOf(addLocalDays(range.toDay, 1), 0, zone),
  });
  const { total } = utilizationView(ctx, { ...range, by: 'month' });
  const usedMin = total.availableMin - total.idleMin;
  const broughtMinor = rows.reduce((sum, r) => sum + r.netMinor - r.materialMinor, 0);
  const workedMin = rows.reduce((sum, r) => sum + r.workedMin, 0);
  return {
    perHourMinor: workedMin === 0 ? 0 : (broughtMinor * 60) / workedMin,
    perBayHourMinor: usedMin === 0 ? 0 : (broughtMinor * 60) / usedMin,
    jobMinor: rows.length === 0 ? 0 : Math.round(rows.reduce((sum, r) => sum + r.netMinor, 0) / rows.length),
    jobMin: rows.length === 0 ? 0 : Math.round(workedMin / rows.length),
  };
}

/**
 * Open minutes of the coming seven days, tomorrow first, in which no car is planned to stand in a bay; one that is gone
 * holds none, though the plan has it there until somebody changes it.
 */
export function freeBayMinutes(db: ReadDb, today: LocalDay, zone: string): number {
  const days = daysBetween(addLocalDays(today, 1), addLocalDays(today, AHEAD_DAYS), zone);
  const [fromMin, toMin] = [days[0]?.startMin ?? 0, days.at(-1)?.endMin ?? 0];
  const setup = baysSetup(db, today);
  type Stay = { readonly bayId: BayId; readonly startMin: number; readonly endMin: number };
  const stays = allRows<Stay>(
    db,
    `SELECT s.bay_id AS bayId, s.arrive_min AS startMin, s.leave_min AS endMin FROM stay s JOIN job j ON j.id = s.job_id
     WHERE s.leave_min > :fromMin AND s.arrive_min < :toMin AND j.state NOT IN ('collected', 'cancelled', 'noShow')`,
    { fromMin, toMin },
  );
  return setup.bays
    .filter((bay) => bay.kind !== 'yard')
    .reduce((sum, bay) => {
      const taken = stays.filter((s) => s.bayId === bay.bayId);
      return sum + openBetween(subtract(bayHours(bay, { days, setup, zone }), taken), fromMin, toMin);
    }, 0);
}

const AHEAD = `SELECT s.kind, sum(s.p50_min) AS minutes FROM job_stage s JOIN job j ON j.id = s.job_id
  WHERE j.state IN ('booked', 'here', 'inWork') AND s.state = 'planned' AND s.crew > 0 AND j.drop_off_min < :untilMin
  GROUP BY s.kind`;

/** Stages of the last three months by kind: how far over they ran, and what of the kind is booked for the next four weeks. */
export function driftFacts(
  db: ReadDb,
  today: LocalDay,
  zone: string,
  perHourMinor: number,
): MondayFacts['drift'] {
  const untilMin = minuteOf(addLocalDays(today, BOOKED_DAYS), 0, zone);
  const ahead = new Map(
    allRows<{ kind: StageKind; minutes: number }>(db, AHEAD, { untilMin }).map((r) => [r.kind, r.minutes]),
  );
  const done = finishedWork(
    db,
    instantOf(addLocalDays(today, -LATELY_DAYS), 0, zone),
    instantOf(addLocalDays(today, 1), 0, zone),
  );
  return grouped(done, (w) => w.kind).flatMap(([, works]) => {
    const [first] = works;
    const { stages, driftPpm } = honestyOf(works);
    return first
      ? [
          {
            ...{ stage: first.kind, stages, driftPpm: driftPpm as Ppm },
            ...{ aheadMin: ahead.get(first.kind) ?? 0, perHourMinor },
          },
        ]
      : [];
  });
}
