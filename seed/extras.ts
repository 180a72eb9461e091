import { DomainError } from '../core/shared/errors.ts';
import type { StagePlan } from '../core/shared/stagePlan.ts';
import { isoWeekday, localDayOf } from '../core/shared/time.ts';
import type { EpochMin } from '../core/shared/units.ts';
import type { BayKind, PanelId, Skill, StageKind } from '../core/shared/vocabulary.ts';
import { ZONE } from './crew.ts';
import { DAY, MINUTE, type Stage } from './story.ts';

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

type Times = { readonly dropOffMin: EpochMin; readonly pickUpMin: EpochMin };

/** Books where it fits first from a moment on, back at the first hour that is sure enough: as an offer is promised. */
export function bookFrom(on: Stage, jobId: string, fromMs: number): Times {
  return on.door.write('bays.bookEarliest', { ...soonest(jobId, fromMs), marginMin: null });
}

/** The same; null where the weeks ahead are full. */
export function bookIfRoom(on: Stage, jobId: string, fromMs: number): Times | null {
  try {
    return bookFrom(on, jobId, fromMs);
  } catch (error) {
    if (error instanceof DomainError && error.code === 'NO_PLACE_FOR_JOB') return null;
    throw error;
  }
}

/** Books where it fits first, back some minutes after the planned finish, however sure that is. */
export function bookWith(on: Stage, jobId: string, fromMs: number, marginMin: number): Times {
  return on.door.write('bays.bookEarliest', { ...soonest(jobId, fromMs), marginMin });
}

/** Few simulated runs: the chances are as true, only less fine. */
const RUNS = 12;

function soonest(jobId: string, fromMs: number) {
  return { jobId, notBeforeMin: Math.ceil(fromMs / MINUTE), runs: RUNS };
}

/** The next weekday morning after some days. */
export function someDaysLater(on: Stage, nowMs: number, days: number): number {
  const at = on.floor.nextOpen(nowMs + days * DAY);
  return isoWeekday(localDayOf(at, ZONE)) > 5 ? on.floor.nextOpen(at + 2 * DAY) : at;
}
