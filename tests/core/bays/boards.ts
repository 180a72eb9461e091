import { alwaysOpen, type Calendar, calendarOf, FAR_MIN, type Span } from '#core/bays/rules/calendar.ts';
import type { Board, JobPlan, JobSpec, Piece, Place, StageSpec, Technician } from '#core/bays/rules/model.ts';
import type { BayId, JobId, PersonId, StageId } from '#core/shared/ids.ts';
import type { BayKind, Skill } from '#core/shared/vocabulary.ts';

/** Small boards for tests: every quantity in plain minutes from 0. */
export function place(id: string, kind: BayKind, capacity = 1, setupMin = 0): Place {
  return { id: id as BayId, name: id, kind, capacity, setupMin, dustWith: [], closed: [], endsMin: FAR_MIN };
}

export function person(
  id: string,
  hours: Calendar = alwaysOpen(),
  speedPpm = 1_000_000,
  skills: readonly Skill[] = ['wash', 'correction', 'protection', 'interior', 'inspection'],
): Technician {
  return { id: id as PersonId, name: id, skills, speedPpm, hours };
}

export function stage(id: string, labourMin: number, more: Partial<StageSpec> = {}): StageSpec {
  return {
    id: id as StageId,
    kind: 'cut',
    state: 'planned',
    labourMin,
    workedMin: 0,
    dwellMin: 0,
    leastGapMin: 0,
    mostGapMin: null,
    bayKinds: ['correction'],
    skill: 'correction',
    crew: 1,
    splittable: true,
    mu: Math.log(Math.max(1, labourMin)),
    sigma: 0,
    ...more,
  };
}

export function job(id: string, stages: readonly StageSpec[], more: Partial<JobSpec> = {}): JobSpec {
  return {
    id: id as JobId,
    number: 1,
    who: id,
    start: { kind: 'free', notBeforeMin: 0 },
    stages,
    promiseMin: null,
    lateWeight: 1,
    confirmed: false,
    jobSigma: 0,
    ...more,
  };
}

export function board(more: Partial<Board> & Pick<Board, 'places' | 'technicians'>): Board {
  const horizonMin = more.horizonMin ?? 5000;
  return {
    nowMin: 0,
    horizonMin,
    open: alwaysOpen(),
    desk: alwaysOpen(),
    slots: Array.from({ length: horizonMin + 1 }, (_, i) => i),
    moveMin: 0,
    jobs: new Map(),
    plans: new Map(),
    ...more,
  };
}

/** A car of another job that stands in a place and is worked on by nobody. */
export function standing(id: string, bay: string, arriveMin: number, leaveMin: number): JobPlan {
  return { jobId: id as JobId, stays: [{ bayId: bay as BayId, arriveMin, leaveMin }], pieces: [] };
}

/** A technician who is held by another job. */
export function busy(id: string, who: string, startMin: number, endMin: number): JobPlan {
  const piece: Piece = {
    stageId: `${id}-s` as StageId,
    bayId: 'elsewhere' as BayId,
    personIds: [who as PersonId],
    startMin,
    endMin,
    dwellEndMin: endMin,
  };
  return { jobId: id as JobId, stays: [], pieces: [piece] };
}

export function plansOf(plans: readonly JobPlan[]): ReadonlyMap<JobId, JobPlan> {
  return new Map(plans.map((p) => [p.jobId, p]));
}

export function open(...spans: readonly (readonly [number, number])[]): Calendar {
  return calendarOf(spans.map(([startMin, endMin]): Span => ({ startMin, endMin })));
}
