import { allRows } from '../../db/prepared.ts';
import type { ReadDb } from '../../db/types.ts';
import type { PersonId, StageId } from '../../shared/ids.ts';
import type { EpochMin } from '../../shared/units.ts';
import type { BlockView, PieceView } from '../../shared/views/bays.ts';
import { middleOf } from '../../views/jobHours.ts';
import type { LiveBoard } from '../../views/liveBoard.ts';
import { type Done, drawnStays } from '../rules/asItWent.ts';
import { isOpenStage, type JobSpec, type Piece, type StageSpec } from '../rules/model.ts';

const min = (t: number): EpochMin => t as EpochMin;

/** Cars as blocks in their places, with what was done drawn when it was done and what waits drawn from now on. */
export function blocksIn(
  db: ReadDb,
  live: LiveBoard,
  w: { readonly from: number; readonly to: number },
): readonly BlockView[] {
  const blocks: BlockView[] = [];
  const done = wentSince(db, w.from, live.board.nowMin);
  const middle = middleOf(db, [...live.board.plans.keys()]);
  for (const plan of live.board.plans.values()) {
    const row = live.rows.get(plan.jobId);
    const job = live.board.jobs.get(plan.jobId);
    if (!row || !job) continue;
    const workMin = middle.get(plan.jobId) ?? 0;
    const { number, who, vehicle, state } = row;
    for (const { stay, pieces } of drawnStays(job, plan, done, live.board.nowMin)) {
      if (stay.leaveMin <= w.from || stay.arriveMin >= w.to) continue;
      blocks.push({
        ...{ jobId: plan.jobId, number, who, vehicle, state, bayId: stay.bayId, workMin },
        arriveMin: min(stay.arriveMin),
        leaveMin: min(stay.leaveMin),
        confirmed: job.confirmed,
        pieces: pieces.flatMap((p) => pieceView(job, p)),
      });
    }
  }
  return blocks;
}

/**
 * When stages that were done from a minute on were begun and done, in whole minutes, and who worked on them; those in
 * hand end now.
 */
function wentSince(db: ReadDb, fromMin: number, nowMin: number): ReadonlyMap<StageId, Done> {
  type Row = {
    readonly id: StageId;
    readonly startMs: number;
    readonly endMs: number | null;
    readonly people: string;
  };
  const rows = allRows<Row>(
    db,
    `SELECT id, started_ms AS startMs, done_ms AS endMs,
       (SELECT json_group_array(DISTINCT w.person_id) FROM stage_work w WHERE w.stage_id = job_stage.id) AS people
     FROM job_stage WHERE started_ms IS NOT NULL
       AND (state = 'done' AND done_ms >= :fromMs OR state IN ('inWork', 'paused'))`,
    { fromMs: fromMin * 60_000 },
  );
  return new Map(
    rows.map((r) => [
      r.id,
      {
        startMin: Math.floor(r.startMs / 60_000),
        endMin: r.endMs === null ? nowMin : Math.ceil(r.endMs / 60_000),
        personIds: JSON.parse(r.people) as readonly PersonId[],
      },
    ]),
  );
}

function pieceView(job: JobSpec, p: Piece): readonly PieceView[] {
  const stage = job.stages.find((s) => s.id === p.stageId);
  if (!stage) return [];
  const { stageId, personIds } = p;
  const late = job.promiseMin !== null && isOpenStage(stage) && p.dwellEndMin > job.promiseMin;
  return [
    {
      ...{ stageId, kind: stage.kind, state: stage.state, splittable: canSplit(stage), late, personIds },
      startMin: min(p.startMin),
      endMin: min(p.endMin),
      dwellEndMin: min(p.dwellEndMin),
    },
  ];
}

/** Only what somebody works on can be shared. */
function canSplit(stage: StageSpec): boolean {
  return stage.splittable && stage.crew > 0;
}
