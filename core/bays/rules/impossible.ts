import type { StageKind } from '#core/shared/vocabulary.ts';
import { NEVER, nextFit } from './calendar.ts';
import { type Board, isOpenStage, type JobSpec, labourAt } from './model.ts';

/** The one rule that makes a job impossible here, and the stage it strikes; `room` when only the weeks are full. */
export type Impossible = {
  readonly reason: 'place' | 'person' | 'crew' | 'length' | 'room';
  readonly stage: StageKind;
};

/** Who is planned next where a car stands alone and is in the way of its going on there; where several stand nobody is. */
export function nextWhereItStands(
  board: Board,
  job: JobSpec,
): { readonly bay: string; readonly other: string; readonly atMin: number } | null {
  const { start } = job;
  if (start.kind !== 'here') return null;
  const place = board.places.find((p) => p.id === start.bayId);
  if (place?.capacity !== 1) return null;
  const stays = [...board.plans.values()].flatMap(({ jobId, stays: own }) =>
    jobId === job.id ? [] : own.map((s) => ({ ...s, other: board.jobs.get(jobId)?.who ?? '' })),
  );
  const next = stays
    .filter((s) => s.bayId === start.bayId && s.leaveMin > board.nowMin)
    .sort((a, b) => a.arriveMin - b.arriveMin)[0];
  return next ? { bay: place.name, other: next.other, atMin: next.arriveMin } : null;
}

export function whyImpossible(board: Board, job: JobSpec): Impossible {
  for (const stage of job.stages.filter(isOpenStage)) {
    const of = (reason: Impossible['reason']): Impossible => ({ reason, stage: stage.kind });
    const exists = board.places.some((p) => stage.bayKinds.includes(p.kind) && p.endsMin > board.nowMin);
    if (!exists) return of('place');
    if (stage.crew === 0) continue;
    const able = board.technicians.filter((t) => t.skills.includes(stage.skill));
    if (able.length === 0) return of('person');
    if (able.length < stage.crew) return of('crew');
    const fits = able.some((t) => nextFit(t.hours, board.nowMin, labourAt(stage, [t.speedPpm])) !== NEVER);
    if (!stage.splittable && !fits) return of('length');
  }
  return { reason: 'room', stage: job.stages[0]?.kind ?? 'wash' };
}
