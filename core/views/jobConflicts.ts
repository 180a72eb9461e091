import { cureMissingMin, recordedClashes } from '../bookings/rules/workTime.ts';
import type { ReadCtx } from '../context.ts';
import { allRows } from '../db/prepared.ts';
import type { EpochMs } from '../shared/units.ts';
import type { StageView, WorkConflict } from '../shared/views/bookings.ts';

const ALSO = `SELECT w.id, w.stage_id AS stageId, w.person_id AS personId, w.start_ms AS startMs, w.end_ms AS endMs,
    j.number, p.name FROM stage_work w JOIN job_stage s ON s.id = w.stage_id JOIN job j ON j.id = s.job_id
    JOIN person p ON p.id = w.person_id
  WHERE w.person_id = :personId AND w.start_ms < :toMs AND ifnull(w.end_ms, :now) > :fromMs`;

/** What contradicts the plan or itself on a job: stages past their range, cures cut short, people at two cars. */
export function conflictsOf(ctx: ReadCtx, number: number, stages: readonly StageView[]): WorkConflict[] {
  return [...stages.flatMap(ofStage), ...twoAtOnce(ctx, number, stages)];
}

function ofStage(s: StageView): WorkConflict[] {
  if (s.crew > 0) {
    const overMin = Math.floor(s.attendedMs / 60_000) - s.p80Min;
    return s.state !== 'dropped' && overMin > 0 ? [{ kind: 'overrun', stage: s.kind, overMin }] : [];
  }
  if (s.startedMs === null || s.doneMs === null) return [];
  const missingMin = cureMissingMin(s.startedMs, s.dwellMin, s.doneMs);
  return missingMin > 0 ? [{ kind: 'cureCutShort', missingMin }] : [];
}

/** Each person and other job once: their many short stages beside each other are one thing to know. */
function twoAtOnce(ctx: ReadCtx, number: number, stages: readonly StageView[]): WorkConflict[] {
  type Also = Parameters<typeof recordedClashes>[0][number] & { number: number; name: string };
  const found: WorkConflict[] = [];
  const work = stages.flatMap((s) => s.work);
  for (const personId of new Set(work.map((w) => w.person.id))) {
    const own = work.filter((w) => w.person.id === personId);
    const fromMs = Math.min(...own.map((w) => w.startMs));
    const toMs = Math.max(...own.map((w) => w.endMs ?? ctx.now)) + 1;
    const told = new Set<number>();
    const all = allRows<Also>(ctx.db, ALSO, { personId, fromMs, toMs, now: ctx.now as EpochMs });
    for (const { first, second } of recordedClashes(all, ctx.now)) {
      const pair = all.filter((w) => w.id === first.id || w.id === second.id);
      const other = pair.find((w) => w.number !== number);
      if (!other || told.has(other.number) || !pair.some((w) => w.number === number)) continue;
      told.add(other.number);
      const person = { id: personId, name: other.name };
      found.push({ kind: 'twoAtOnce', person, otherJobNumber: other.number });
    }
  }
  return found;
}
