import type { ReadCtx } from '../../context.ts';
import { allRows } from '../../db/prepared.ts';
import { minuteOf } from '../../shared/time.ts';
import type { EpochMin } from '../../shared/units.ts';
import type { ConflictView, UnplacedView } from '../../shared/views/bays.ts';
import type { LiveBoard } from '../../views/liveBoard.ts';
import { padsNow } from '../../views/stockPads.ts';
import { conflictsOn, type PadsLacking } from '../rules/conflicts.ts';
import { isOpenStage } from '../rules/model.ts';
import { faultsOfBoard } from '../rules/validate.ts';

/** Every conflict on the board, with whether somebody has taken note of it. */
export function conflictViews(ctx: ReadCtx, live: LiveBoard): readonly ConflictView[] {
  const seen = new Set(
    allRows<{ key: string }>(ctx.db, 'SELECT conflict_key AS key FROM conflict_seen').map((r) => r.key),
  );
  const ready = new Set([...live.rows.values()].filter((r) => r.state === 'ready').map((r) => r.id));
  const { zone, settings } = live.shop;
  const facts = { ready, graceMin: settings.promises.graceMin, pads: padsLacking(ctx, zone) };
  return conflictsOn(live.board, facts, faultsOfBoard(live.board)).map((c) => ({
    ...c,
    atMin: c.atMin as EpochMin,
    acknowledged: seen.has(c.key),
  }));
}

/** The first job each sort of pad will be missing for, though what is clean by then is counted. */
function padsLacking(ctx: ReadCtx, zone: string): readonly PadsLacking[] {
  return padsNow(ctx).flatMap(({ itemName: item, shortage }) => {
    if (!shortage || shortage.jobId === null) return [];
    const { jobId, needs, has, washHelps, day } = shortage;
    return [{ jobId, item, needs, has, washHelps, atMin: minuteOf(day, 0, zone) }];
  });
}

/** Cars that are expected and whose work has no place on the board yet. */
export function unplaced(live: LiveBoard): readonly UnplacedView[] {
  return [...live.rows.values()].flatMap((row) => {
    const job = live.board.jobs.get(row.id);
    const open = (job?.stages ?? []).filter(isOpenStage);
    const placed = new Set(live.board.plans.get(row.id)?.pieces.map((p) => p.stageId));
    if (!['booked', 'here', 'inWork'].includes(row.state) || open.length === 0) return [];
    if (open.every((s) => placed.has(s.id))) return [];
    const workMin = open.reduce((sum, s) => sum + s.labourMin, 0);
    return [
      { jobId: row.id, number: row.number, who: row.who, vehicle: row.vehicle, state: row.state, workMin },
    ];
  });
}
