import { faultsOfBoard } from '../bays/rules/validate.ts';
import { allRows, oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { PlanRule } from '../shared/views/plan.ts';
import { liveBoard } from '../views/liveBoard.ts';
import type { Broken, Check } from './check.ts';

/**
 * What no plan may break, whatever happens in the shop. Rules that an absence, a closure or a late car can break after
 * the plan was made are conflicts on the board, not faults of the file.
 */
const HARD: readonly PlanRule[] = ['noPlace', 'bayKind', 'pieceOutsideStay', 'stageOrder', 'dwellShort'];

type Pair = { readonly a: number; readonly b: number; readonly where: string };

/** The plan of the bays against the rules that every plan keeps. */
export const planChecks: readonly Check[] = [
  {
    name: 'plan.rules',
    run: (db) => [...overlaps(db, 'cars', TWO_CARS), ...overlaps(db, 'works', TWO_WORKS), ...brokenRules(db)],
  },
];

/** In order of their beginning two neighbours overlap where any two do. */
const TWO_CARS = `SELECT a, b, "where" FROM (
    SELECT lag(j.number) OVER by_time AS a, j.number AS b, y.name AS "where", s.arrive_min AS from_min,
      lag(s.leave_min) OVER by_time AS before_min
    FROM stay s JOIN bay y ON y.id = s.bay_id JOIN job j ON j.id = s.job_id WHERE y.capacity = 1
    WINDOW by_time AS (PARTITION BY s.bay_id ORDER BY s.arrive_min, s.id))
  WHERE from_min < before_min`;
const TWO_WORKS = `SELECT a, b, "where" FROM (
    SELECT lag(j.number) OVER by_time AS a, j.number AS b, p.name AS "where", s.start_min AS from_min,
      lag(s.end_min) OVER by_time AS before_min
    FROM placement s JOIN person p ON p.id = s.person_id JOIN job j ON j.id = s.job_id
    WINDOW by_time AS (PARTITION BY s.person_id ORDER BY s.start_min, s.id))
  WHERE from_min < before_min`;

function overlaps(db: ReadDb, what: string, sql: string): readonly Broken[] {
  return allRows<Pair>(db, sql).map((row) => ({
    what,
    a: String(row.a),
    b: String(row.b),
    where: row.where,
  }));
}

/** The board as it stood when the last thing was written: a file has no present of its own. */
function brokenRules(db: ReadDb): readonly Broken[] {
  const opened = oneRow<{ hours: number }>(db, 'SELECT count(*) AS hours FROM opening_hours')?.hours ?? 0;
  const last = oneRow<{ at: number | null }>(db, 'SELECT max(at_ms) AS at FROM journal')?.at ?? null;
  if (opened === 0 || last === null) return [];
  const { board } = liveBoard(db, { nowMs: last });
  return faultsOfBoard(board)
    .filter((f) => HARD.includes(f.rule) && board.jobs.get(f.jobId)?.start.kind !== 'here')
    .map((f) => ({ what: 'rule', job: String(board.jobs.get(f.jobId)?.number ?? '?'), rule: f.rule }));
}
