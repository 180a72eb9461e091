import type { ReadCtx } from '../context.ts';
import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import { LETTERS_OFF, letterDiff } from '../people/rules/almost.ts';
import { foldText, PHONE_LEAST, phoneKey, samePhone } from '../people/rules/names.ts';
import type { CustomerId } from '../shared/ids.ts';
import { localDayOf } from '../shared/time.ts';
import type { EpochMs } from '../shared/units.ts';
import type { AlmostMatch, CustomerHit, VehicleHit, VehicleLine } from '../shared/views/people.ts';
import { plateKey } from '../vehicles/rules/plate.ts';
import { vehiclesCalled } from './called.ts';
import { shopOf } from './shop.ts';

type Row = Omit<CustomerHit, 'vehicles' | 'lastVisitDay'> & { readonly lastMs: EpochMs | null };

const FIELDS = `c.id, c.kind, c.name, c.phone, c.email,
  (SELECT count(*) FROM job j WHERE j.customer_id = c.id AND j.arrived_ms IS NOT NULL) AS visits,
  (SELECT max(j.arrived_ms) FROM job j WHERE j.customer_id = c.id) AS lastMs`;

/* Every word of the text starts the name or a word in it; names that start with the text come first. */
const BY_NAME = `SELECT ${FIELDS} FROM customer c WHERE c.erased_ms IS NULL
  AND NOT EXISTS (SELECT 1 FROM json_each(:words) w
    WHERE instr(' ' || replace(c.name_key, '-', ' '), ' ' || w.value) = 0)
  ORDER BY instr(c.name_key, :text) <> 1, c.name_key LIMIT :limit`;
const LATEST = `SELECT ${FIELDS} FROM customer c WHERE c.erased_ms IS NULL
  ORDER BY c.created_ms DESC, c.id DESC LIMIT :limit`;
/* What was typed is part of the number, or the number is the end of what was typed with a country code before it. */
const BY_PHONE = `SELECT ${FIELDS} FROM customer c WHERE c.erased_ms IS NULL AND (instr(c.phone_key, :digits) > 0
    OR (length(ltrim(c.phone_key, '0')) >= :whole AND :digits LIKE '%' || ltrim(c.phone_key, '0')))
  ORDER BY c.name_key LIMIT :limit`;
const BY_PLATE = `SELECT ${FIELDS} FROM customer c WHERE c.erased_ms IS NULL AND c.id IN
  (SELECT v.customer_id FROM vehicle v WHERE instr(v.plate_key, :plate) > 0) ORDER BY c.name_key LIMIT :limit`;
const LINES = `SELECT id, body, make_model AS makeModel, colour, year, plate FROM vehicle
  WHERE customer_id = :id ORDER BY created_ms DESC, id`;

/** Vehicles that a customer keeps now, latest first. */
export function vehiclesOf(db: ReadDb, id: CustomerId): readonly VehicleLine[] {
  return allRows<VehicleLine>(db, LINES, { id });
}

/** Fewest digits or letters by which somebody is looked for by telephone or plate. */
const LEAST = 3;

/** Customers by name, telephone or plate, best first; without a text the latest ones. */
export function findCustomers(
  ctx: ReadCtx,
  input: { readonly text: string; readonly limit: number },
): readonly CustomerHit[] {
  const { limit } = input;
  const text = foldText(input.text);
  if (text === '') return hits(ctx, allRows<Row>(ctx.db, LATEST, { limit }));
  const digits = phoneKey(text).replace(/^0+/u, '');
  const plate = plateKey(text);
  const words = JSON.stringify(text.split(/[\s-]+/u).filter((word) => word !== ''));
  const found = [
    ...allRows<Row>(ctx.db, BY_NAME, { words, text, limit }),
    ...(digits.length >= LEAST ? allRows<Row>(ctx.db, BY_PHONE, { digits, whole: PHONE_LEAST, limit }) : []),
    ...(plate.length >= LEAST ? allRows<Row>(ctx.db, BY_PLATE, { plate, limit }) : []),
  ];
  const once = [...new Map(found.map((row) => [row.id, row])).values()];
  return hits(ctx, once.slice(0, limit));
}

function hits(ctx: ReadCtx, rows: readonly Row[]): readonly CustomerHit[] {
  if (rows.length === 0) return [];
  const { zone } = shopOf(ctx.db);
  return rows.map(({ lastMs, ...row }) => ({
    ...row,
    vehicles: vehiclesOf(ctx.db, row.id),
    lastVisitDay: lastMs === null ? null : localDayOf(lastMs, zone),
  }));
}

const SAME_TAIL = `SELECT c.phone_key AS key, ${FIELDS} FROM customer c WHERE c.erased_ms IS NULL
  AND :tail <> '' AND c.phone_key LIKE '%' || :tail`;
const SAME_PLATE = `SELECT ${FIELDS} FROM customer c JOIN vehicle v ON v.customer_id = c.id
  WHERE c.erased_ms IS NULL AND :plate <> '' AND v.plate_key = :plate`;

/** Somebody known with the same telephone or plate whose name is at most two letters off; the nearest, or null. */
export function findAlmost(
  ctx: ReadCtx,
  input: { readonly name: string; readonly phone: string; readonly plate: string },
): AlmostMatch | null {
  const phone = phoneKey(input.phone);
  const tail = phone.length >= PHONE_LEAST ? phone.slice(-PHONE_LEAST) : '';
  const byPhone = allRows<Row & { readonly key: string }>(ctx.db, SAME_TAIL, { tail })
    .filter((row) => samePhone(row.key, phone))
    .map(({ key: _, ...row }) => row);
  const byPlate = allRows<Row>(ctx.db, SAME_PLATE, { plate: plateKey(input.plate) });
  const both = new Set(byPlate.map((row) => row.id));
  const phones = new Set(byPhone.map((row) => row.id));
  const near = [...new Map([...byPhone, ...byPlate].map((row) => [row.id, row])).values()]
    .map((row) => ({ row, diff: letterDiff(input.name.trim(), row.name) }))
    .filter(({ diff }) => diff.letters <= LETTERS_OFF)
    .sort((a, b) => a.diff.letters - b.diff.letters)[0];
  if (!near) return null;
  const [customer] = hits(ctx, [near.row]);
  if (!customer) return null;
  const { letters, inFirst, inSecond } = near.diff;
  const same = !phones.has(customer.id) ? 'plate' : both.has(customer.id) ? 'both' : 'phone';
  return { customer, same, letters, inTyped: inFirst, inKnown: inSecond };
}

const VEHICLES = `SELECT v.id, v.body, v.make_model AS makeModel, v.colour, v.year, v.plate, v.vin,
  v.customer_id AS customerId, c.name AS customer FROM vehicle v JOIN customer c ON c.id = v.customer_id
  WHERE (:key <> '' AND (instr(v.plate_key, :key) > 0 OR instr(replace(replace(upper(v.vin), ' ', ''), '-', ''), :key) > 0))
    OR v.id IN (SELECT value FROM json_each(:called)) OR instr(c.name_key, :text) > 0
  ORDER BY v.plate_key <> :key, v.make_model, v.id LIMIT :limit`;

/** Vehicles by plate, make and model, vehicle number or owner. Nothing typed finds nothing. */
export function findVehicles(
  ctx: ReadCtx,
  input: { readonly text: string; readonly limit: number },
): readonly VehicleHit[] {
  const text = foldText(input.text);
  if (text === '') return [];
  const plate = plateKey(input.text);
  const key = plate.length >= LEAST ? plate : '';
  const called = JSON.stringify(vehiclesCalled(ctx.db, text));
  return allRows<VehicleHit>(ctx.db, VEHICLES, { text, key, called, limit: input.limit });
}
