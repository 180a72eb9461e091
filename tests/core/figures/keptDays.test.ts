import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { daysBetween } from '#core/bays/rules/hours.ts';
import { figuresChecks } from '#core/doctor/figuresChecks.ts';
import type { LocalDay } from '#core/shared/units.ts';
import { keptDays } from '#core/views/keptDays.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';
import { aside, found, keepAll, keptShop, min, ms, placed, stay, told, work, worked } from './keptShop.ts';

/** 20 October to 24 November. */
const ALL = 36;
let shop: TestShop;
beforeAll(() => {
  shop = openTestShop();
  shop.breaksPlans();
  keptShop(shop);
  keepAll(shop);
});
afterAll(() => shop.close());

const examine = (): readonly unknown[] => figuresChecks.flatMap((check) => check.run(shop.db));
const holding = (): number =>
  keptDays(
    shop.db,
    daysBetween('2026-10-01' as LocalDay, '2026-11-25' as LocalDay, 'Europe/Berlin'),
    Math.floor(shop.now() / 60_000),
  ).size;
const dropAll = (triggers: readonly string[]): void => {
  for (const name of triggers) shop.db.raw.exec(`DROP TRIGGER kept_${name}`);
};

/** Triggers, without `kept_` → a change that only they notice. `who` stands for the technician, `desk` for the desk. */
const CHANGES: readonly (readonly [string, string])[] = [
  ['work_insert', work('s2', 'who', '18T10:00', '18T11:00')],
  ['work_delete', `DELETE FROM stage_work WHERE start_ms = ${ms('12T09:00')}`],
  ['work_update', `UPDATE stage_work SET end_ms = ${ms('12T11:00')} WHERE start_ms = ${ms('12T09:00')}`],
  [
    'work_update',
    `UPDATE stage_work SET start_ms = ${ms('17T08:00')}, end_ms = ${ms('17T09:00')} WHERE start_ms = ${ms('12T09:00')}`,
  ],
  [
    'stage_insert',
    `INSERT INTO job_stage SELECT 's5',job_id,9,kind,state,panels,estimated_min,p20_min,p50_min,p80_min,p95_min,mu,sigma,dwell_min,bay_kinds,skill,crew,splittable,note,${ms('16T14:00')},${ms('16T15:30')},revision FROM job_stage WHERE id = 's4'`,
  ],
  ['stage_update', `UPDATE job_stage SET done_ms = ${ms('18T12:00')} WHERE id = 's3'`],
  ['stage_update', `UPDATE job_stage SET p50_min = 120 WHERE id = 's1'`],
  ['stage_update', `UPDATE job_stage SET started_ms = ${ms('23T12:00')} WHERE id = 't2'`],
  ['stage_delete', `DELETE FROM job_stage WHERE id = 's4'`],
  ['job_update', `UPDATE job SET collected_ms = ${ms('17T15:00')} WHERE id = 'A'`],
  ['job_update', `UPDATE job SET vehicle_id = 'w' WHERE id = 'A'`],
  ['job_update', `UPDATE job SET arrived_ms = NULL WHERE id = 'B'`],
  ['stay_insert', stay('C', 'b2', '10T08:00', '11T15:00')],
  ['stay_update', `UPDATE stay SET leave_min = ${min('17T08:00')} WHERE job_id = 'A' AND bay_id = 'b1'`],
  ['stay_delete', `DELETE FROM stay WHERE job_id = 'A' AND bay_id = 'b2'`],
  ['placement_insert', placed('A', 's3', 'b2')],
  ['placement_delete', `DELETE FROM placement WHERE stage_id = 's1'`],
  ['finding_insert', found('g', 'heavy')],
  ['finding_update', `UPDATE finding SET removed_ms = 2 WHERE id = 'f'`],
  ['hardness', `UPDATE vehicle SET hardness = 'medium' WHERE id = 'v'`],
  ['closure_insert', `INSERT INTO closure VALUES ('l','2026-11-13','2026-11-13','b1','')`],
  ['closure_update', `UPDATE closure SET from_day = '2026-11-09', to_day = '2026-11-09' WHERE id = 'k'`],
  ['closure_delete', `DELETE FROM closure WHERE id = 'k'`],
  ['absence_insert', `INSERT INTO absence VALUES ('z','who',${min('13T09:00')},${min('13T12:00')},'')`],
  [
    'absence_update',
    `UPDATE absence SET start_min = ${min('09T09:00')}, end_min = ${min('09T12:00')} WHERE id = 'a'`,
  ],
  ['absence_delete', `DELETE FROM absence WHERE id = 'a'`],
  ['opening_hours_insert', `INSERT INTO opening_hours VALUES (6,'shop',480,720)`],
  ['opening_hours_update', `UPDATE opening_hours SET close_min = 1020 WHERE weekday = 1`],
  ['opening_hours_delete', 'DELETE FROM opening_hours WHERE weekday = 1'],
  ['shift_insert', `INSERT INTO shift VALUES ('who',6,480,720)`],
  ['shift_update', `UPDATE shift SET end_min = 960 WHERE person_id = 'who' AND weekday = 1`],
  ['shift_delete', `DELETE FROM shift WHERE person_id = 'who' AND weekday = 1`],
  [
    'bay_insert',
    `INSERT INTO bay (id,name,kind,capacity,seq,started_day) VALUES ('b4','Bay 4','correction',1,4,'2026-11-02')`,
  ],
  ['bay_update', `UPDATE bay SET started_day = '2026-11-10' WHERE id = 'b3'`],
  ['bay_update', `UPDATE bay SET ended_day = '2026-11-10' WHERE id = 'b3'`],
  ['bay_delete', `DELETE FROM bay WHERE id = 'b3'`],
  ['technician_insert', `INSERT INTO technician (person_id,skills,speed_ppm) VALUES ('desk','[]',1000000)`],
  ['technician_delete', `DELETE FROM technician WHERE person_id = 'who'`],
  ['person_update', `UPDATE person SET started_day = '2026-11-10' WHERE id = 'who'`],
  ['person_update', `UPDATE person SET ended_day = '2026-11-20' WHERE id = 'who'`],
];

const change = (sql: string): void =>
  void shop.db.raw.exec(
    sql.replaceAll("'who'", `'${shop.people.technician}'`).replaceAll("'desk'", `'${shop.people.desk}'`),
  );

describe('what is kept of past days', () => {
  it('is all of them up to yesterday, and answers as the records do', () => {
    expect(holding()).toBe(ALL);
    expect(told(shop)).toEqual(worked(shop));
    expect(examine()).toEqual([]);
  });

  it.each(CHANGES)('is not told once %s has changed them, and is kept anew', (trigger, sql) => {
    const before = told(shop);
    aside(shop, () => {
      change(sql);
      expect(told(shop)).not.toEqual(before);
      expect(told(shop)).toEqual(worked(shop));
      keepAll(shop);
      expect(holding()).toBe(ALL);
      expect(told(shop)).toEqual(worked(shop));
      expect(examine()).toEqual([]);
    });
    // The same with the guard taken away: what is told, or what the doctor says of it, must then be wrong.
    aside(shop, () => {
      dropAll([trigger]);
      change(sql);
      expect([told(shop), examine()]).not.toEqual([worked(shop), []]);
    });
  });

  it('is told of no day that is to come again, where the clock went back', () => {
    const now = shop.now();
    shop.at(ms('18T10:00'));
    expect(told(shop)).toEqual(worked(shop));
    shop.at(now);
  });

  it('holds no longer when the zone changes, though its days begin and end as they did', () => {
    const without = (triggers: readonly string[]): number =>
      aside(shop, () => {
        dropAll(triggers);
        change(`UPDATE shop SET zone = 'Europe/Madrid'`);
        return holding();
      });
    expect(without([])).toBe(0);
    expect(without(['zone'])).toBe(ALL);
  });

  it('has a change to show for each of its triggers', () => {
    const all = shop.db.raw.prepare(
      "SELECT substr(name, 6) FROM sqlite_master WHERE type = 'trigger' AND name LIKE 'kept_%'",
    );
    const tried = new Set([...CHANGES.map(([name]) => name), 'zone', 'mark_widen']);
    expect(new Set(all.pluck().all())).toEqual(tried);
  });
});
