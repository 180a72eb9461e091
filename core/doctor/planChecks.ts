import { faultsOfBoard } from '../bays/rules/validate.ts';
import { oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { PlanRule } from '../shared/views/bays.ts';
import { liveBoard } from '../views/liveBoard.ts';
import type { Check } from './check.ts';

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
    about:
      'no two cars in a bay, nobody at two cars, every stage in a fitting place while the car stands there',
    run: (db) => [...overlaps(db, TWO_CARS), ...overlaps(db, TWO_WORKS), ...brokenRules(db)],
  },
];

const TWO_CARS = `SELECT j.number AS a, k.number AS b, y.name || ' holds both at once' AS "where"
  FROM stay s JOIN stay t ON t.bay_id = s.bay_id AND t.arrive_min >= s.arrive_min AND t.arrive_min < s.leave_min
    AND (t.arrive_min > s.arrive_min OR t.id > s.id)
  JOIN bay y ON y.id = s.bay_id JOIN job j ON j.id = s.job_id JOIN job k ON k.id = t.job_id WHERE y.capacity = 1`;
const TWO_WORKS = `SELECT j.number AS a, k.number AS b, p.name || ' works on both at once' AS "where"
  FROM placement s JOIN placement t ON t.person_id = s.person_id AND t.start_min >= s.start_min AND t.start_min < s.end_min
    AND (t.start_min > s.start_min OR t.id > s.id)
  JOIN person p ON p.id = s.person_id JOIN job j ON j.id = s.job_id JOIN job k ON k.id = t.job_id`;

function overlaps(db: ReadDb, sql: string) {
  return (db.raw.prepare(sql).all() as readonly Pair[]).map((row) => ({
    subject: `jobs ${row.a} and ${row.b}`,
    problem: row.where,
  }));
}

/** The board as it stood when the last thing was written: a file has no present of its own. */
function brokenRules(db: ReadDb) {
  const opened = oneRow<{ hours: number }>(db, 'SELECT count(*) AS hours FROM opening_hours')?.hours ?? 0;
  const last = oneRow<{ at: number | null }>(db, 'SELECT max(at_ms) AS at FROM journal')?.at ?? null;
  if (opened === 0 || last === null) return [];
  const { board } = liveBoard(db, { nowMs: last });
  return faultsOfBoard(board)
    .filter((f) => HARD.includes(f.rule) && board.jobs.get(f.jobId)?.start.kind !== 'here')
    .map((f) => ({
      subject: `job ${board.jobs.get(f.jobId)?.number ?? '?'}`,
      problem: `its plan breaks the rule ${f.rule}`,
    }));
}
