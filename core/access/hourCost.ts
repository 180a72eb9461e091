import type { WriteCtx } from '../context.ts';
import { refuse } from '../shared/errors.ts';
import type { PersonId } from '../shared/ids.ts';
import { localDayOf } from '../shared/time.ts';
import type { LocalDay, Minor } from '../shared/units.ts';
import { firstWorkedMs } from '../views/labourCost.ts';
import { shopOf } from '../views/shop.ts';
import { personOf } from './commands.ts';
import { checkCostDay, checkNear } from './rules/hourCost.ts';
import * as store from './store.ts';

/**
 * Says what an hour of somebody's work costs the shop from a day on; null takes the row of that day away.
 * @throws NOT_FOUND, STALE (somebody else has said something else for that day), HOUR_COST_DAY, HOUR_COST_FAR
 */
export function setHourCost(
  ctx: WriteCtx,
  input: {
    readonly personId: PersonId;
    readonly fromDay: LocalDay;
    readonly hourCostMinor: number | null;
    readonly wasMinor: number | null;
    readonly farMeant: boolean;
  },
): null {
  const { personId, fromDay, hourCostMinor: hourMinor } = input;
  const person = personOf(ctx, personId);
  const costs = store.allHourCosts(ctx.db);
  const stood = costs.find((c) => c.personId === personId && c.fromDay === fromDay);
  if ((stood?.hourMinor ?? null) !== input.wasMinor) refuse('STALE', { what: 'person' });
  if (hourMinor === null) {
    if (!stood) refuse('NOT_FOUND', { what: 'hourCost', id: fromDay });
    store.dropHourCost(ctx.db, personId, fromDay);
  } else {
    const { zone } = shopOf(ctx.db);
    const worked = firstWorkedMs(ctx.db, personId);
    const workedDay = worked === null ? null : localDayOf(worked, zone);
    checkCostDay(person, fromDay, { today: localDayOf(ctx.now, zone), workedDay });
    if (!input.farMeant) checkNear(person, { fromDay, hourMinor }, costs);
    store.putHourCost(ctx.db, { personId, fromDay, hourMinor: hourMinor as Minor });
  }
  ctx.changed(personId, 'hourCost');
  return null;
}
