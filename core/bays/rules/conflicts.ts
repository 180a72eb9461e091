import type { BayId, JobId } from '#core/shared/ids.ts';
import type { ConflictKind } from '#core/shared/views/bays.ts';
import type { PlanFault } from '#core/shared/views/plan.ts';
import { type Board, isOpenStage, type JobPlan, type JobSpec } from './model.ts';

/** What happened against the plan. It is recorded as it is; the board only says so. */
export type Conflict = {
  readonly key: string;
  readonly kind: ConflictKind;
  readonly jobId: JobId;
  readonly otherJobId: JobId | null;
  readonly bayId: BayId | null;
  readonly atMin: number;
  readonly minutes: number;
  readonly words: Readonly<Record<string, string | number>>;
};
/** A job that clean pads will be missing for: how many it needs, how many are clean by then, and whether washing helps. */
export type PadsLacking = {
  readonly jobId: JobId;
  readonly item: string;
  readonly needs: number;
  readonly has: number;
  readonly washHelps: boolean;
  readonly atMin: number;
};
export type ConflictFacts = {
  readonly ready: ReadonlySet<JobId>;
  readonly graceMin: number;
  readonly pads: readonly PadsLacking[];
};

/** Every conflict on the live board: late cars, overruns, cars not collected, two started cars for one place. */
export function conflictsOn(
  board: Board,
  facts: ConflictFacts,
  faults: readonly PlanFault[],
): readonly Conflict[] {
  const found: Conflict[] = [];
  for (const job of board.jobs.values()) {
    const plan = board.plans.get(job.id);
    if (plan) found.push(...ofJob(board, job, plan, facts));
  }
  for (const p of facts.pads) {
    const job = board.jobs.get(p.jobId);
    if (job) found.push(ofPads(job, p));
  }
  for (const f of faults) {
    // A late promise and a late car have their own words.
    if (f.rule === 'promiseMissed' || f.rule === 'dropOffPassed') continue;
    const two = f.rule === 'bayTaken' && bothHere(board, f);
    const kind: ConflictKind = two ? 'twoCars' : 'planBroken';
    found.push({
      ...base(f.jobId, kind, f.bayId, board.nowMin, 0),
      key: `${kind}/${f.jobId}/${f.rule}/${f.words['stage'] ?? ''}/${f.bayId ?? f.personId ?? ''}`,
      words: { who: board.jobs.get(f.jobId)?.who ?? '', ...f.words, rule: f.rule },
    });
  }
  return found;
}

function base(
  jobId: JobId,
  kind: ConflictKind,
  bayId: BayId | null,
  atMin: number,
  minutes: number,
): Conflict {
  return { key: `${kind}/${jobId}`, kind, jobId, otherJobId: null, bayId, atMin, minutes, words: {} };
}

/** Known by the minute that was agreed: whoever took note of it once has not taken note of the next time. */
function agreedFor(
  kind: ConflictKind,
  jobId: JobId,
  bayId: BayId | null,
  atMin: number,
  late: number,
): Conflict {
  return { ...base(jobId, kind, bayId, atMin, late), key: `${kind}/${jobId}/${atMin}` };
}

function ofPads(job: JobSpec, p: PadsLacking): Conflict {
  return {
    ...base(job.id, 'padsMissing', null, p.atMin, 0),
    key: `padsMissing/${job.id}/${p.item}`,
    words: { who: job.who, item: p.item, needs: p.needs, has: p.has, help: p.washHelps ? 'wash' : 'order' },
  };
}

function ofJob(board: Board, job: JobSpec, plan: JobPlan, facts: ConflictFacts): readonly Conflict[] {
  const found: Conflict[] = [];
  const words = { who: job.who };
  const now = board.nowMin;
  const first = plan.stays[0];
  if (job.start.kind === 'agreed' && now > job.start.dropOffMin + facts.graceMin) {
    const late = now - job.start.dropOffMin;
    found.push({
      ...agreedFor('lateArrival', job.id, first?.bayId ?? null, job.start.dropOffMin, late),
      words,
    });
  }
  const bayId = plan.stays.findLast((s) => s.arriveMin <= now)?.bayId ?? null;
  if (facts.ready.has(job.id) && job.promiseMin !== null && now > job.promiseMin)
    found.push({ ...agreedFor('notCollected', job.id, bayId, job.promiseMin, now - job.promiseMin), words });
  found.push(...notBegun(board, job, plan, facts));
  for (const stage of job.stages) {
    const over = Math.round(stage.workedMin - stage.labourMin);
    if ((stage.state === 'inWork' || stage.state === 'paused') && stage.labourMin > 0 && over > 0)
      found.push({
        ...base(job.id, 'overrun', bayId, now, over),
        key: `overrun/${job.id}/${stage.id}`,
        words: { ...words, stage: stage.kind },
      });
  }
  return found;
}

/** The next stage of a car that is here, when its time came and nobody has begun it. */
function notBegun(board: Board, job: JobSpec, plan: JobPlan, facts: ConflictFacts): readonly Conflict[] {
  const stage = job.stages.find(isOpenStage);
  const piece = plan.pieces.find((p) => p.stageId === stage?.id);
  if (!stage || !piece || stage.state !== 'planned' || job.start.kind !== 'here') return [];
  const late = board.nowMin - piece.startMin;
  if (late <= facts.graceMin) return [];
  return [
    {
      ...base(job.id, 'notBegun', piece.bayId, piece.startMin, late),
      key: `notBegun/${job.id}/${stage.id}`,
      words: { who: job.who, stage: stage.kind },
    },
  ];
}

function bothHere(board: Board, fault: PlanFault): boolean {
  const there = [...board.plans.values()].filter((p) => {
    const job = board.jobs.get(p.jobId);
    return (
      job?.start.kind === 'here' &&
      p.stays.some((s) => s.bayId === fault.bayId && s.arriveMin <= board.nowMin && board.nowMin < s.leaveMin)
    );
  });
  return there.length > 1;
}
