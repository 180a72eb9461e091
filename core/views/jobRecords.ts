import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { JobId, PersonId, VehicleId } from '../shared/ids.ts';
import type { EpochMs } from '../shared/units.ts';
import type { CarRecordView, OverrideView } from '../shared/views/bookings.ts';

const RECORDS = `SELECT r.id, r.kind, r.at_ms AS atMs, r.late_min AS lateMin, r.mileage, r.mileage_unit AS mileageUnit,
    r.key_count AS keyCount, r.belongings, r.damage, r.pictures_record AS picturesRecord,
    r.pictures_publish AS picturesPublish, r.agreed_by AS agreedBy, r.agreed_way AS agreedWay, r.strokes, r.note, r.locale,
    p.id AS byId, p.name AS byName
  FROM car_record r LEFT JOIN person p ON p.id = r.person_id WHERE r.job_id = :jobId ORDER BY r.at_ms, r.id`;
const OVERRIDES = `SELECT o.rule, p.name AS by, o.reason, o.at_ms AS atMs, o.panels
  FROM job_override o JOIN person p ON p.id = o.person_id WHERE o.job_id = :jobId ORDER BY o.at_ms, o.rowid`;

const LAST_CLOCK = `SELECT r.at_ms AS atMs, r.mileage, r.mileage_unit AS mileageUnit
  FROM car_record r JOIN job j ON j.id = r.job_id
  WHERE j.vehicle_id = :vehicleId AND r.mileage IS NOT NULL AND r.at_ms <= :atMs
  ORDER BY r.at_ms DESC, r.rowid DESC LIMIT 1`;

/** What a car's clock said last at that instant or before it, at whichever job. */
export function lastClockOf(
  db: ReadDb,
  vehicleId: VehicleId,
  atMs: EpochMs,
): (Pick<CarRecordView, 'atMs' | 'mileageUnit'> & { readonly mileage: number }) | undefined {
  return allRows<{ atMs: EpochMs; mileage: number; mileageUnit: 'km' | 'mi' }>(db, LAST_CLOCK, {
    ...{ vehicleId, atMs },
  })[0];
}

/** How the car came and went, earliest first. */
export function recordsOf(db: ReadDb, jobId: JobId): CarRecordView[] {
  type Row = Omit<CarRecordView, 'damage' | 'strokes' | 'picturesRecord' | 'picturesPublish' | 'by'> & {
    readonly damage: string;
    readonly strokes: string;
    readonly picturesRecord: number;
    readonly picturesPublish: number;
    readonly byId: PersonId | null;
    readonly byName: string | null;
  };
  return allRows<Row>(db, RECORDS, { jobId }).map(({ byId, byName, ...row }) => ({
    ...row,
    damage: JSON.parse(row.damage),
    strokes: JSON.parse(row.strokes),
    picturesRecord: row.picturesRecord === 1,
    picturesPublish: row.picturesPublish === 1,
    by: byId !== null && byName !== null ? { id: byId, name: byName } : null,
  }));
}

/** Rules of the trade that somebody set aside on this job. */
export function overridesOf(db: ReadDb, jobId: JobId): OverrideView[] {
  type Row = Omit<OverrideView, 'panels'> & { readonly panels: string };
  return allRows<Row>(db, OVERRIDES, { jobId }).map((o) => ({ ...o, panels: JSON.parse(o.panels) }));
}
