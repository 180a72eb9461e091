import type { WriteCtx } from '../../context.ts';
import type { JobId, StageId } from '../../shared/ids.ts';
import type { MaterialAmount, StagePlan } from '../../shared/stagePlan.ts';
import type { PlanBasis } from '../../shared/views/bookings.ts';
import { mergeStages } from '../rules/stageMerge.ts';
import { saveJob } from '../store/jobs.ts';
import {
  addMaterials,
  addStage,
  replanStage,
  type StageRecord,
  saveStage,
  setAsideOrder,
  stagesOf,
} from '../store/stages.ts';
import { needJob, step } from './needs.ts';

/**
 * Plans the stages of a whole job anew. What was begun stays as it is; stages not yet begun are replaced, a stage
 * of the same kind keeps its id, one that is no longer wanted is dropped. Materials planned are replaced with them.
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
  const merged = mergeStages(present.map(asPresent), plans);
  const adds = merged.some((m) => m.do === 'add' || m.do === 'replan');
  const state = adds ? step(job, 'plan') : job.state;
  setAsideOrder(ctx.db, jobId);
  const order: StageId[] = [];
  for (const [seq, part] of merged.entries()) {
    if (part.do === 'drop') saveStage(ctx.db, part.id, { seq, state: 'dropped' });
    else order.push(part.do === 'keep' ? keep(ctx, part.id, seq) : lay(ctx, jobId, part, seq));
  }
  const reopened = job.state === 'ready' && state === 'inWork' ? { readyMs: null } : {};
  saveJob(ctx.db, jobId, { state, planBasis: how.basis, ...reopened });
  ctx.changed(jobId, 'stages', 'planBasis');
  return order;
}

function asPresent(s: StageRecord): Pick<StageRecord, 'id' | 'kind' | 'state'> & { begun: boolean } {
  return { id: s.id, kind: s.kind, state: s.state, begun: s.startedMs !== null || s.state === 'done' };
}

function keep(ctx: WriteCtx, id: StageId, seq: number): StageId {
  saveStage(ctx.db, id, { seq });
  return id;
}

function lay(
  ctx: WriteCtx,
  jobId: JobId,
  part:
    | { readonly do: 'replan'; readonly id: StageId; readonly plan: StagePlan }
    | { readonly do: 'add'; readonly plan: StagePlan },
  seq: number,
): StageId {
  const { materials, ...fields } = part.plan;
  const id = part.do === 'replan' ? part.id : ctx.newId<StageId>();
  if (part.do === 'replan') replanStage(ctx.db, id, { ...fields, seq, state: 'planned' });
  else addStage(ctx.db, { id, jobId, seq, state: 'planned', ...fields });
  addMaterials(ctx.db, id, summed(materials));
  return id;
}

function summed(materials: readonly MaterialAmount[]): readonly MaterialAmount[] {
  const total = new Map<MaterialAmount['material'], number>();
  for (const { material, amount } of materials) total.set(material, (total.get(material) ?? 0) + amount);
  return [...total].map(([material, amount]) => ({ material, amount }));
}
