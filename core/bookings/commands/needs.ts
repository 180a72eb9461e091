import type { WriteCtx } from '../../context.ts';
import type { ReadDb } from '../../db/types.ts';
import { refuse } from '../../shared/errors.ts';
import type { JobId, PersonId, StageId, VehicleId } from '../../shared/ids.ts';
import { localDayOf } from '../../shared/time.ts';
import type { EpochMs } from '../../shared/units.ts';
import type { JobAction } from '../../shared/views/bookings.ts';
import type { BodyStyle, JobState } from '../../shared/vocabulary.ts';
import { paintVehicle } from '../../views/inspection.ts';
import { shopOf } from '../../views/shop.ts';
import { stateAfter } from '../rules/jobStates.ts';
import { findJob, type JobRecord } from '../store/jobs.ts';
import { findWorker, type WorkerRow } from '../store/people.ts';
import { findStage, type StageRecord } from '../store/stages.ts';

/** The job. @throws NOT_FOUND when there is none */
export function needJob(db: ReadDb, id: JobId): JobRecord {
  return findJob(db, id) ?? refuse('NOT_FOUND', { what: 'job', id });
}

/** A stage with its job. @throws NOT_FOUND when there is none */
export function needStage(db: ReadDb, id: StageId): { readonly stage: StageRecord; readonly job: JobRecord } {
  const stage = findStage(db, id) ?? refuse('NOT_FOUND', { what: 'stage', id });
  return { stage, job: needJob(db, stage.jobId) };
}

/** What its panels are called by. */
export function bodyOf(db: ReadDb, id: VehicleId): BodyStyle {
  return (paintVehicle(db, id) ?? refuse('NOT_FOUND', { what: 'vehicle', id })).body;
}

/** The state that follows. @throws JOB_STATE when the job's state does not allow the action */
export function step(job: JobRecord, action: JobAction): JobState {
  return (
    stateAfter(job.state, action) ?? refuse('JOB_STATE', { number: job.number, jobState: job.state, action })
  );
}

/**
 * Who is at work at an instant, now if none is given: the person named, else whoever is signed in.
 * @throws NOT_FOUND when there is no such person
 * @throws PERSON_NOT_HERE when they had left by then
 */
export function needWorker(ctx: WriteCtx, named: PersonId | undefined, atMs: EpochMs = ctx.now): WorkerRow {
  const id = named ?? ctx.actor?.personId ?? refuse('NOT_ALLOWED', { needs: 'technician', has: 'nobody' });
  const person = findWorker(ctx.db, id) ?? refuse('NOT_FOUND', { what: 'person', id });
  const day = localDayOf(atMs, shopOf(ctx.db).zone);
  if (person.endedDay !== null && person.endedDay < day) refuse('PERSON_NOT_HERE', { name: person.name });
  return person;
}

/** @throws STAGE_STATE when `wrong`: the stage's state does not allow the action */
export function refuseState(
  stage: StageRecord,
  wrong: boolean,
  action: 'start' | 'pause' | 'finish' | 'drop' | 'panel',
): void {
  if (wrong) refuse('STAGE_STATE', { stage: stage.kind, stageState: stage.state, action });
}
