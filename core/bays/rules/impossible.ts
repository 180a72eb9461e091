import type { StageKind } from '#core/shared/vocabulary.ts';
import { NEVER, nextFit } from './calendar.ts';
import { type Board, isOpenStage, type JobSpec, labourAt } from './model.ts';

/** The one rule that makes a job impossible here, and the stage it strikes; `room` when only the weeks are full. */
export type Impossible = {
  readonly reason: 'place' | 'person' | 'crew' | 'length' | 'room';
  readonly stage: StageKind;
};

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
