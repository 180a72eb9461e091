import { faultsOfBoard } from '../bays/rules/validate.ts';
import { allRows, oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { PlanRule } from '../shared/views/bays.ts';
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

const TWO_CARS = `SELECT j.number AS a, k.number AS b, y.name AS "where"
  FROM stay s JOIN stay t ON t.bay_id = s.bay_id AND t.arrive_min >= s.arrive_min AND t.arrive_min < s.leave_min
    AND (t.arrive_min > s.arrive_min OR t.id > s.id)
  JOIN bay y ON y.id = s.bay_id JOIN job j ON j.id = s.job_id JOIN job k ON k.id = t.job_id WHERE y.capacity = 1`;
const TWO_WORKS = `SELECT j.number AS a, k.number AS b, p.name AS "where"
  FROM placement s JOIN placement t ON t.person_id = s.person_id AND t.start_min >= s.start_min AND t.start_min < s.end_min
    AND (t.start_min > s.start_min OR t.id > s.id)
  JOIN person p ON p.id = s.person_id JOIN job j ON j.id = s.job_id JOIN job k ON k.id = t.job_id`;

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
