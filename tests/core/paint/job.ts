import type { JobId, VehicleId } from '#core/shared/ids.ts';
import type { TestShop } from '#tests/helpers/shop.ts';

export type PaintCase = { readonly jobId: JobId; readonly vehicleId: VehicleId };

/** A customer, a saloon of 2019 and a correction job, written straight into the tables of their owners. */
export function addJob(shop: TestShop, n = 1, vehicle?: VehicleId): PaintCase {
  const id = (what: string): string => `${what}${String(n).padStart(20 - what.length, '0')}`;
  const jobId = id('j') as JobId;
  const vehicleId = vehicle ?? (id('v') as VehicleId);
  const db = shop.db.raw;
  if (!vehicle) {
    db.prepare(
      `INSERT INTO customer (id, kind, name, ${nameKey(shop)} phone, phone_key, email, address, country, tax_number, locale, note, created_ms)
       VALUES (?, 'person', 'Marit Vane', ${nameKey(shop) ? "'marit vane'," : ''} '', '', '', '', '', '', '', '', 0)`,
    ).run(id('c'));
    db.prepare(
      `INSERT INTO vehicle (id, customer_id, body, make_model, colour, year, plate, plate_key, vin, hardness, note, created_ms)
       VALUES (?, ?, 'saloon', 'Velloy Merrin', 'deep blue', 2019, '', '', '', 'medium', '', 0)`,
    ).run(vehicleId, id('c'));
  }
  db.prepare(
    `INSERT INTO job (id, number, customer_id, vehicle_id, purpose, state, wish, created_ms)
     SELECT ?, ?, customer_id, id, 'correction', 'enquiry', '', ? FROM vehicle WHERE id = ?`,
  ).run(jobId, 100 + n, n, vehicleId);
  return { jobId, vehicleId };
}

/** Customers carry a searching name where their table has the column. */
function nameKey(shop: TestShop): string {
  const columns = shop.db.raw.prepare("SELECT name FROM pragma_table_info('customer')").pluck().all();
  return columns.includes('name_key') ? 'name_key,' : '';
}

/** A done stage of a job with worked minutes, as bookings would leave it. */
export function addDoneStage(
  shop: TestShop,
  jobId: JobId,
  seq: number,
  kind: string,
  estimatedMin: number,
  workedMin: number,
  panels: readonly string[] = [],
): void {
  const id = `s${jobId.slice(-12)}${String(seq).padStart(7, '0')}`;
  const db = shop.db.raw;
  const done = 1_795_000_000_000 + seq;
  db.prepare(
    `INSERT INTO job_stage (id, job_id, seq, kind, state, panels, estimated_min, p20_min, p50_min, p80_min, p95_min, mu, sigma,
       dwell_min, bay_kinds, skill, crew, splittable, note, done_ms)
     VALUES (?, ?, ?, ?, 'done', ?, ?, 1, 2, 3, 4, 1, 0.3, 0, '["correction"]', 'correction', 1, 1, '', ?)`,
  ).run(id, jobId, seq, kind, JSON.stringify(panels), estimatedMin, done);
  db.prepare('INSERT INTO stage_work (stage_id, person_id, start_ms, end_ms) VALUES (?, ?, ?, ?)').run(
    id,
    shop.people.technician,
    done - workedMin * 60_000,
    done,
  );
}
