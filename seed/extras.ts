import type { StagePlan } from '../core/shared/stagePlan.ts';
import { isoWeekday, localDayOf } from '../core/shared/time.ts';
import type { EpochMin } from '../core/shared/units.ts';
import type { BayKind, PanelId, Skill, StageKind } from '../core/shared/vocabulary.ts';
import type { Car } from './cast.ts';
import { ZONE } from './crew.ts';
import { actAs, DAY, HOUR, MINUTE, type Stage } from './story.ts';

/** A stage that nobody estimated from panels: a look at the paint, a small redo. */
export function plainStage(
  kind: StageKind,
  minutes: number,
  skill: Skill,
  bayKinds: readonly BayKind[],
  panels: readonly PanelId[] = [],
): StagePlan {
  const sigma = 0.25;
  const at = (z: number): number => Math.round(minutes * Math.exp(z * sigma));
  return {
    ...{ kind, skill, crew: 1, dwellMin: 0, splittable: true, materials: [], note: '' },
    ...{ panels: [...panels], bayKinds: [...bayKinds], estimatedMin: minutes },
    ...{ p20Min: at(-0.842), p50Min: minutes, p80Min: at(0.842), p95Min: at(1.645) },
    ...{ mu: Math.log(minutes), sigma },
  };
}

/** Two people who want a look at their paint first: one comes this week, one next. */
export function fewVisits(on: Stage, cast: () => Car): void {
  for (const [before, ahead] of [
    [2, 1],
    [1, 3],
  ] as const) {
    const callMs = on.floor.nextOpen(on.untilMs - before * DAY);
    if (callMs >= on.untilMs) continue;
    on.events.at(callMs + MINUTE, (now) => {
      actAs(on, on.desk, now);
      const car = cast();
      const { jobId } = on.door.write('bookings.openJob', {
        customerId: car.customerId,
        vehicleId: car.vehicleId,
        purpose: 'inspectionVisit',
        wish: 'Wants to know what can be done before deciding.',
      });
      const stages = [plainStage('inspection', 30, 'inspection', ['wash', 'correction', 'protection'])];
      on.door.write('bookings.setStages', { jobId, basis: 'provisional', stages });
      bookFrom(on, jobId, on.untilMs + ahead * DAY - HOUR, 60);
    });
  }
}

/**
 * Books where it fits first from a moment on, and promises some hours after the planned finish: the demo's desk
 * dares more than the program would.
 */
export function bookFrom(
  on: Stage,
  jobId: string,
  fromMs: number,
  marginMin: number,
): { readonly dropOffMin: EpochMin; readonly pickUpMin: EpochMin } {
  // The chance of an old promise is counted from few simulated runs: as true, only less fine.
  const runs = on.untilMs - fromMs < 14 * DAY ? 400 : 20;
  const notBeforeMin = Math.ceil(fromMs / MINUTE);
  return on.door.write('bays.bookEarliest', { jobId, notBeforeMin, runs, marginMin });
}
/** The next weekday morning after some days. */
export function someDaysLater(on: Stage, nowMs: number, days: number): number {
  const at = on.floor.nextOpen(nowMs + days * DAY);
  return isoWeekday(localDayOf(at, ZONE)) > 5 ? on.floor.nextOpen(at + 2 * DAY) : at;
}
