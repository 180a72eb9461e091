import type { WriteCtx } from '../../context.ts';
import type { JobId, StageId } from '../../shared/ids.ts';
import type { StagePlan } from '../../shared/stagePlan.ts';
import type { PlanBasis } from '../../shared/views/bookings.ts';
import { isAsPlanned, summedAmounts } from '../rules/asPlanned.ts';
import { type MergedStage, mergeStages } from '../rules/stageMerge.ts';
import { type JobPatch, type JobRecord, saveJob } from '../store/jobs.ts';
import {
  addMaterials,
  addStage,
  clearShares,
  materialsOf,
  panelsDoneOf,
  replanStage,
  type StageRecord,
  saveStage,
  setAsideOrder,
  stagesOf,
} from '../store/stages.ts';
import { needJob, step } from './needs.ts';

/**
 * Plans the stages of a whole job anew. A stage that is done stays as it is, one in work takes the new figures; stages
 * not yet begun are replaced, a stage of the same kind keeps its id, one that is no longer wanted is dropped. Materials
 * planned are replaced with them. Work that is added to a job stopped half way makes it go on: its shares are void.
 * Returns the ids of the stages that are not dropped, in the order of work.
 * @throws JOB_STATE when the job has ended
 */
export function setStages(
  ctx: WriteCtx,
  jobId: JobId,
  plans: readonly StagePlan[],
  how: { readonly basis: Exclude<PlanBasis, 'none'> },
): readonly StageId[] {
  const job = needJob(ctx.db, jobId);
  const present = stagesOf(ctx.db, jobId);
  const ticked = panelsDoneOf(ctx.db, jobId);
  const merged = mergeStages(
    present.map((s) => ({ ...s, begun: hasBegun(s), panelsDone: ticked.get(s.id) ?? [] })),
    plans,
  );
  const adds = merged.some((m) => m.do === 'add' || m.do === 'replan');
  const state = adds ? step(job, 'plan') : job.state;
  const order = isLaid(ctx, jobId, present, merged)
    ? present.map((s) => s.id)
    : layAll(ctx, jobId, present, merged);
  const reopened = job.state === 'ready' && state === 'inWork' ? { readyMs: null } : {};
  saveJob(ctx.db, jobId, { state, planBasis: how.basis, ...reopened, ...(adds ? goOn(ctx, job) : {}) });
  ctx.changed(jobId, 'stages', 'planBasis');
  return order;
}

type Merged = readonly MergedStage<StageId>[];

/** Every stage stands where it should already, with the same figures: an agreement to what was just estimated. */
function isLaid(ctx: WriteCtx, jobId: JobId, present: readonly StageRecord[], merged: Merged): boolean {
  if (merged.length !== present.length) return false;
  const materials = materialsOf(ctx.db, jobId);
  return merged.every((part, seq) => {
    const row = present[seq];
    if (part.do !== 'replan' || row?.id !== part.id || row.seq !== seq || row.state !== 'planned')
      return false;
    return isAsPlanned(row, materials.get(row.id) ?? [], part.plan);
  });
}

function layAll(
  ctx: WriteCtx,
  jobId: JobId,
  present: readonly StageRecord[],
  merged: Merged,
): readonly StageId[] {
  setAsideOrder(ctx.db, jobId);
  const order: StageId[] = [];
  for (const [seq, part] of merged.entries()) {
    if (part.do === 'drop') saveStage(ctx.db, part.id, { seq, state: 'dropped' });
    else order.push(lay(ctx, present, jobId, part, seq));
  }
  return order;
}

function hasBegun(s: StageRecord): boolean {
  return s.startedMs !== null || s.state === 'done';
}

/** A job that was stopped half way goes on: what was to be billed by shares is billed as agreed anew. */
function goOn(ctx: WriteCtx, job: JobRecord): JobPatch {
  if (job.stoppedMs === null) return {};
  clearShares(ctx.db, job.id);
  ctx.changed(job.id, 'shares');
  return { stoppedMs: null, endReason: '' };
}

function lay(
  ctx: WriteCtx,
  present: readonly StageRecord[],
  jobId: JobId,
  part: Exclude<MergedStage<StageId>, { readonly do: 'drop' }>,
  seq: number,
): StageId {
  if (part.do === 'keep') {
    saveStage(ctx.db, part.id, { seq });
    return part.id;
  }
  const { materials, ...fields } = part.plan;
  const id = part.do === 'add' ? ctx.newId<StageId>() : part.id;
  const was = part.do === 'refigure' ? present.find((s) => s.id === id)?.state : undefined;
  if (part.do === 'add') addStage(ctx.db, { id, jobId, seq, state: 'planned', ...fields });
  else replanStage(ctx.db, id, { ...fields, seq, state: was ?? 'planned' });
  addMaterials(ctx.db, id, summedAmounts(materials));
  return id;
}
