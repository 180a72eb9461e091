import { secondsLeft } from '../access/rules/tries.ts';
import type { ReadCtx } from '../context.ts';
import { allRows } from '../db/prepared.ts';
import { localDayOf } from '../shared/time.ts';
import type { EpochMs, LocalDay } from '../shared/units.ts';
import type { HerePerson, HourCostRow, StaffRow, WhoIsHere } from '../shared/views/people.ts';
import { shopIfSetUp, shopOf } from './shop.ts';

type HereRow = Omit<HerePerson, 'hasPin' | 'waitSec'> & {
  readonly hasPin: number;
  readonly waitMs: EpochMs;
};

const HERE = `SELECT id, name, role, pin_hash IS NOT NULL AS hasPin, pin_wait_ms AS waitMs FROM person
  WHERE started_day <= :today AND (ended_day IS NULL OR ended_day >= :today)
  ORDER BY name COLLATE NOCASE, id`;

/** Who may sign in today, and who is signed in at this window. */
export function whoIsHere(ctx: ReadCtx): WhoIsHere {
  const shop = shopIfSetUp(ctx.db);
  if (!shop) return { people: [], me: null };
  const today: LocalDay = localDayOf(ctx.now, shop.zone);
  const people = allRows<HereRow>(ctx.db, HERE, { today }).map(({ waitMs, hasPin, ...row }) => ({
    ...row,
    hasPin: hasPin === 1,
    waitSec: secondsLeft(waitMs, ctx.now),
  }));
  return { people, me: ctx.actor };
}

const STAFF = `SELECT id, name, role, pin_hash IS NOT NULL AS hasPin, started_day AS startedDay,
  ended_day AS endedDay, revision FROM person ORDER BY ended_day IS NOT NULL, started_day, id`;

/** Everybody who works or worked here; those who left come last. */
export function staff(ctx: ReadCtx): readonly StaffRow[] {
  type Row = Omit<StaffRow, 'hasPin'> & { readonly hasPin: number };
  return allRows<Row>(ctx.db, STAFF).map((row) => ({ ...row, hasPin: row.hasPin === 1 }));
}

const HOUR_COSTS = `SELECT person_id AS personId, from_day AS fromDay, hour_minor AS hourMinor,
    from_day = (SELECT max(n.from_day) FROM hour_cost n WHERE n.person_id = c.person_id AND n.from_day <= :today) AS now
  FROM hour_cost c ORDER BY person_id, from_day DESC`;

/** What an hour of each person's work costs the shop, the latest day first. */
export function hourCosts(ctx: ReadCtx): readonly HourCostRow[] {
  type Row = Omit<HourCostRow, 'now'> & { readonly now: number | null };
  const today = localDayOf(ctx.now, shopOf(ctx.db).zone);
  return allRows<Row>(ctx.db, HOUR_COSTS, { today }).map((row) => ({ ...row, now: row.now === 1 }));
}
