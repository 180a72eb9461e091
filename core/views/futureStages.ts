import type { ReadCtx } from '../context.ts';
import { allRows, oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import { refuse } from '../shared/errors.ts';
import type { PersonId } from '../shared/ids.ts';
import { addLocalDays, localDayOf, minuteOf } from '../shared/time.ts';
import type { LocalDay } from '../shared/units.ts';
import type { PlacedStage } from '../shared/views/people.ts';
import { shopOf } from './shop.ts';

const PLACED = `SELECT p.job_id AS jobId, j.number, s.kind AS stage, c.name AS customer,
    min(p.start_min) AS startMin, max(p.end_min) AS endMin
  FROM placement p
  JOIN job j ON j.id = p.job_id
  JOIN job_stage s ON s.id = p.stage_id
  JOIN customer c ON c.id = j.customer_id
  WHERE p.person_id = :personId AND p.end_min > :fromMin
    AND j.state IN ('enquiry', 'quoted', 'booked', 'here', 'inWork') AND s.state NOT IN ('done', 'dropped')
  GROUP BY p.stage_id ORDER BY startMin, j.number`;

/** The stages that are placed with somebody and not over by the end of their last day, in order of time. */
export function stagesAfter(
  db: ReadDb,
  personId: PersonId,
  lastDay: LocalDay,
  zone: string,
): readonly PlacedStage[] {
  const fromMin = minuteOf(addLocalDays(lastDay, 1), 0, zone);
  return allRows<PlacedStage>(db, PLACED, { personId, fromMin });
}

/** The same for a person as they stand: after their last day, or after today for somebody who stays. @throws NOT_FOUND */
export function futureStages(
  ctx: ReadCtx,
  input: { readonly personId: PersonId; readonly lastDay?: LocalDay | undefined },
): readonly PlacedStage[] {
  const { personId } = input;
  const { zone } = shopOf(ctx.db);
  const sql = 'SELECT ended_day AS endedDay FROM person WHERE id = :personId';
  const person = oneRow<{ readonly endedDay: LocalDay | null }>(ctx.db, sql, { personId });
  if (!person) refuse('NOT_FOUND', { what: 'person', id: personId });
  const lastDay = input.lastDay ?? person.endedDay ?? localDayOf(ctx.now, zone);
  return stagesAfter(ctx.db, personId, lastDay, zone);
}
