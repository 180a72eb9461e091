import { allRows } from '../../db/prepared.ts';
import type { ReadDb } from '../../db/types.ts';
import type { PersonId } from '../../shared/ids.ts';
import type { EpochMin } from '../../shared/units.ts';
import type { BlockView, HandView } from '../../shared/views/bays.ts';
import { type Hand, handsOn, type Worked } from '../rules/handsOn.ts';

/** Who works when between two minutes, in the order of time: on the blocks of the board, and on what is not on it. */
export function handsIn(
  db: ReadDb,
  blocks: readonly BlockView[],
  w: { readonly from: number; readonly to: number },
  nowMin: EpochMin,
): ReadonlyMap<PersonId, readonly HandView[]> {
  const pieces = blocks.flatMap((b) => b.pieces.map((p) => ({ ...p, who: b.who })));
  const hands = handsOn(pieces, workedIn(db, w), nowMin)
    .filter((h) => h.startMin < w.to && h.endMin > w.from)
    .sort((a, b) => a.startMin - b.startMin);
  const byPerson = Map.groupBy(hands, (h) => h.personId);
  return new Map([...byPerson].map(([id, own]) => [id, own.map(withoutPerson)]));
}

function withoutPerson({ personId: _, ...hand }: Hand): HandView {
  return hand;
}

function workedIn(db: ReadDb, w: { readonly from: number; readonly to: number }): readonly Worked[] {
  return allRows<Worked>(
    db,
    // By person and end, as the index has them: a shop keeps its years, and the board is read after every change.
    `WITH w AS (
       SELECT x.* FROM person p CROSS JOIN stage_work x ON x.person_id = p.id AND x.end_ms > :fromMin * 60000
       UNION ALL
       SELECT x.* FROM person p CROSS JOIN stage_work x ON x.person_id = p.id AND x.end_ms IS NULL)
     SELECT w.stage_id AS stageId, s.kind, c.name AS who, w.person_id AS personId, w.start_ms / 60000 AS startMin,
       (w.end_ms + 59999) / 60000 AS endMin
     FROM w JOIN job_stage s ON s.id = w.stage_id JOIN job j ON j.id = s.job_id JOIN customer c ON c.id = j.customer_id
     WHERE w.start_ms < :toMin * 60000`,
    { fromMin: w.from, toMin: w.to },
  );
}
