import { isHere, liveJob } from '../bays/rules/live.ts';
import type { Board, JobPlan, JobSpec, Piece, StageSpec } from '../bays/rules/model.ts';
import { type WalkIn, withWalkIns } from '../bays/rules/walkIn.ts';
import type { ReadDb } from '../db/types.ts';
import { refuse } from '../shared/errors.ts';
import type { JobId } from '../shared/ids.ts';
import { addLocalDays, localDayOf } from '../shared/time.ts';
import type { LocalDay } from '../shared/units.ts';
import type { BaysSetupView, StageGapView } from '../shared/views/baysSetup.ts';
import type { Shop } from '../shared/views/shop.ts';
import {
  type JobRow,
  jobRows,
  type PlacementRow,
  partsOfJobs,
  type StageRow,
  type StayRow,
  stageKinds,
} from './baysJobs.ts';
import { baysSetup, planRevisionOf } from './baysSetup.ts';
import { shopOf } from './shop.ts';
import { shopOver } from './shopOver.ts';

/** How far ahead the board plans. */
export const PLAN_DAYS = 84;

/** The live board with what its rules need, and the rows that screens add names and colours from. */
export type LiveBoard = {
  readonly board: Board;
  /** Plans as they are kept, before started work is projected. */
  readonly kept: ReadonlyMap<JobId, JobPlan>;
  readonly shop: Shop;
  readonly setup: BaysSetupView;
  readonly rows: ReadonlyMap<JobId, JobRow>;
  readonly planRevision: number;
};
export type BoardAsk = {
  readonly nowMs: number;
  /** A job that is not booked yet but wanted on the board. */
  readonly jobId?: JobId;
  /** Leaves out cars that were fetched: nothing is placed beside them. */
  readonly withoutGone?: boolean;
  /** Days that are looked at: hours are laid over them too, however long ago or far ahead. */
  readonly fromDay?: LocalDay;
  readonly toDay?: LocalDay;
};

/**
 * Reads the whole board as it stands now: hours laid over days, people, places, plans, and started work projected
 * to when it is expected to end.
 * @throws HOURS_NOT_SET before the shop has opening hours
 */
export function liveBoard(db: ReadDb, ask: BoardAsk): LiveBoard {
  const shop = shopOf(db);
  const today = localDayOf(ask.nowMs, shop.zone);
  const from = ask.fromDay && ask.fromDay < today ? ask.fromDay : addLocalDays(today, -3);
  const lastDay = addLocalDays(today, PLAN_DAYS);
  const to = ask.toDay && ask.toDay > lastDay ? ask.toDay : lastDay;
  const setup = baysSetup(db, today);
  if (setup.hours.length === 0) refuse('HOURS_NOT_SET', {});
  const { fromMin, toMin, ...laid } = shopOver({ from, to, lastDay }, setup, shop);
  const range = { jobId: ask.jobId ?? null, fromMin: ask.withoutGone ? toMin : fromMin, toMin };
  const listed = jobRows(db, range);
  const rows = new Map(listed.map((r) => [r.id, r]));
  const nowMin = Math.floor(ask.nowMs / 60_000);
  const { board, kept } = withJobs({ nowMin, ...laid, jobs: new Map(), plans: new Map() }, rows, {
    ...partsOfJobs(db, listed, ask.nowMs),
    gaps: setup.gaps,
  });
  return { board, kept, shop, setup, rows, planRevision: planRevisionOf(db) };
}

type Parts = {
  readonly stages: readonly StageRow[];
  readonly gaps: readonly StageGapView[];
  readonly stays: readonly StayRow[];
  readonly placements: readonly PlacementRow[];
};

function withJobs(
  board: Board,
  rows: ReadonlyMap<JobId, JobRow>,
  parts: Parts,
): Pick<LiveBoard, 'board' | 'kept'> {
  const stages = Map.groupBy(parts.stages, (s) => s.jobId);
  const gaps = new Map(parts.gaps.map((g) => [g.stage, g]));
  const specs = (id: JobId): readonly StageSpec[] =>
    (stages.get(id) ?? []).map((s) => stageOf(s, gaps.get(s.kind)));
  const stays = Map.groupBy(parts.stays, (s) => s.jobId);
  const placements = Map.groupBy(parts.placements, (p) => p.jobId);
  const jobs = new Map<JobId, JobSpec>();
  const plans = new Map<JobId, JobPlan>();
  const kept = new Map<JobId, JobPlan>();
  for (const row of rows.values()) {
    const plan: JobPlan = {
      jobId: row.id,
      stays: (stays.get(row.id) ?? []).map(({ bayId, arriveMin, leaveMin }) => ({
        bayId,
        arriveMin,
        leaveMin,
      })),
      pieces: gather(placements.get(row.id) ?? []),
    };
    const live = liveJob(board, row, specs(row.id), plan);
    jobs.set(row.id, live.job);
    kept.set(row.id, plan);
    if (plan.stays.length > 0) plans.set(row.id, live.plan);
  }
  return { board: withWalkIns({ ...board, jobs, plans }, walkInsOf(rows, plans)), kept };
}

function walkInsOf(rows: ReadonlyMap<JobId, JobRow>, plans: Board['plans']): readonly WalkIn[] {
  return [...rows.values()].flatMap(({ id, state, arrivedMs }) =>
    isHere(state) && arrivedMs !== null && !plans.has(id)
      ? [{ jobId: id, cameMin: Math.floor(arrivedMs / 60_000) }]
      : [],
  );
}

function stageOf(row: StageRow, gap: StageGapView | undefined): StageSpec {
  const { id, kind, state, skill, crew, sigma } = row;
  // Hours are of all people together; two who work at once are half as long at the car.
  const atOnce = Math.max(1, crew);
  const labourMin = Math.ceil(row.p50Min / atOnce);
  const mu = row.mu - Math.log(atOnce);
  const goneMin = row.workedMs / 60_000;
  // What nobody attends runs on by itself: first its labour, then its dwell.
  const workedMin = crew === 0 ? Math.min(goneMin, labourMin) : goneMin;
  const dwellMin = Math.max(0, Math.ceil(row.dwellMin - (goneMin - workedMin)));
  return {
    ...{ id, kind, state, dwellMin, skill, crew, mu, sigma, workedMin, labourMin },
    bayKinds: stageKinds(row),
    splittable: row.splittable === 1,
    leastGapMin: gap?.leastMin ?? 0,
    mostGapMin: gap?.mostMin ?? null,
  };
}

function gather(rows: readonly PlacementRow[]): readonly Piece[] {
  const pieces: Piece[] = [];
  for (const { personId, jobId: _, ...row } of rows) {
    const last = pieces.at(-1);
    if (last && personId && last.stageId === row.stageId && last.startMin === row.startMin)
      pieces[pieces.length - 1] = { ...last, personIds: [...last.personIds, personId] };
    else pieces.push({ ...row, personIds: personId ? [personId] : [] });
  }
  return pieces;
}
