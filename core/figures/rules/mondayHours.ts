import type { Ppm } from '#core/shared/units.ts';
import type { MondayThing } from '#core/shared/views/monday.ts';
import type { MondayFacts } from './mondayFacts.ts';
import { byStake, money, say, sum, thing, who } from './mondayThing.ts';

const ONE = 1_000_000;
/** Drift that is told: a tenth over, on at least so many stages. @source common practice, no source */
const TOLD_DRIFT_PPM = 1_100_000;
const TOLD_STAGES = 10;

export function idleBays({ idle }: MondayFacts): MondayThing | null {
  const fills = Math.min(idle.freeMin, idle.wantedMin);
  if (fills === 0) return null;
  return thing('idleBays', '/bays', {
    savedMinor: Math.max(0, Math.round((fills * idle.perBayHourMinor) / 60)),
    said: say('idleBays', { free: { is: 'hours', minutes: idle.freeMin }, count: idle.requests.length }),
    why: { fills: { is: 'hours', minutes: fills }, perHour: money(idle.perBayHourMinor) },
    cases: byStake(idle.requests).map((r) => ({
      to: `/jobs/${r.jobId}`,
      said: say('idleBays.case', {
        ...who(r),
        hours: { is: 'hours', minutes: r.minutes },
        worth: money(r.worthMinor),
      }),
    })),
  });
}

/** Hours that booked stages will take beyond what they were said to, as long as the estimates stay as they are. */
export function hoursOver(d: Pick<MondayFacts['drift'][number], 'aheadMin' | 'driftPpm'>): number {
  return Math.max(0, Math.round((d.aheadMin * (d.driftPpm - ONE)) / ONE));
}

export function drift({ drift: all }: MondayFacts): MondayThing | null {
  const told = all.filter((d) => d.stages >= TOLD_STAGES && d.driftPpm >= TOLD_DRIFT_PPM);
  const lost = (d: (typeof all)[number]): number => Math.max(0, (hoursOver(d) * d.perHourMinor) / 60);
  const over = sum(told, hoursOver);
  return thing('drift', '/figures', {
    savedMinor: Math.round(sum(told, lost)),
    said: say('drift', { count: told.length }),
    why: { over: { is: 'hours', minutes: over }, perHour: money(told[0]?.perHourMinor ?? 0) },
    cases: told
      .toSorted((a, b) => lost(b) - lost(a))
      .map((d) => ({
        to: '/figures',
        said: say('drift.case', {
          stage: { is: 'stage', stage: d.stage },
          over: { is: 'share', ppm: (d.driftPpm - ONE) as Ppm },
          stages: d.stages,
          ahead: { is: 'hours', minutes: d.aheadMin },
        }),
      })),
  });
}
