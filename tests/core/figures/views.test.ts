import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { LocalDay } from '#core/shared/units.ts';
import type { UtilizationParts } from '#core/shared/views/figures.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';

let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
});
afterEach(() => shop.close());

const min = (iso: string): number => Date.parse(iso) / 60_000;
const ms = (iso: string): number => Date.parse(iso);

/** One bay open 08:00–18:00 local on Wednesdays; one car there on 25 November 2026, local time is UTC+1. */
function oneDay(): void {
  const { raw } = shop.db;
  const who = shop.people.technician;
  raw.exec(`
    INSERT INTO opening_hours VALUES (3, 'shop', 480, 1080);
    INSERT INTO bay (id, name, kind, capacity, seq, started_day) VALUES ('b', 'Bay 2', 'correction', 1, 1, '2016-01-01');
    INSERT INTO customer (id,kind,name,phone,phone_key,email,address,country,tax_number,locale,note,created_ms) VALUES ('c','person','Dev Ostler','','','','','','','','',1);
    INSERT INTO vehicle (id,customer_id,body,make_model,colour,plate,plate_key,vin,hardness,note,created_ms) VALUES ('v','c','saloon','Harrowe Lintel','','','','','hard','',1);
    INSERT INTO job (id,number,customer_id,vehicle_id,purpose,state,wish,drop_off_min,pick_up_min,arrived_ms,ready_ms,collected_ms,created_ms)
      VALUES ('j',7,'c','v','correction','collected','',${min('2026-11-25T08:00Z')},${min('2026-11-25T16:00Z')},${ms('2026-11-25T08:00Z')},${ms('2026-11-25T14:00Z')},${ms('2026-11-25T15:00Z')},1);
    INSERT INTO job_stage (id,job_id,seq,kind,state,panels,estimated_min,p20_min,p50_min,p80_min,p95_min,mu,sigma,dwell_min,bay_kinds,skill,crew,splittable,note,started_ms,done_ms)
      VALUES ('s','j',0,'cut','done','[]',100,90,100,150,180,4.6,0.2,60,'["correction"]','correction',1,1,'',${ms('2026-11-25T09:00Z')},${ms('2026-11-25T12:00Z')});
    INSERT INTO stay (job_id,bay_id,arrive_min,leave_min) VALUES ('j','b',${min('2026-11-25T08:00Z')},${min('2026-11-25T16:00Z')});
    INSERT INTO placement (job_id,stage_id,bay_id,person_id,start_min,end_min,dwell_end_min)
      VALUES ('j','s','b','${who}',${min('2026-11-25T09:00Z')},${min('2026-11-25T11:00Z')},${min('2026-11-25T12:00Z')});
    INSERT INTO stage_work (stage_id,person_id,start_ms,end_ms) VALUES ('s','${who}',${ms('2026-11-25T09:00Z')},${ms('2026-11-25T12:00Z')});
  `);
}
const day = { fromDay: '2026-11-25' as LocalDay, toDay: '2026-11-25' as LocalDay };

describe('the owner’s look back', () => {
  it('splits a bay’s ten open hours into what happened in them', async () => {
    oneDay();
    shop.at(ms('2026-11-26T09:00Z'));
    const { bays } = await shop.read('figures.utilization', day);
    // open 07:00–17:00Z: idle 1 h before it came, waiting 1 h, attended 3 h, cure 1 h, blocked 2 h until collected at 15:00Z, idle 2 h
    expect(bays[0]?.total).toEqual({
      availableMin: 600,
      attendedMin: 180,
      cureMin: 60,
      waitingMin: 60,
      blockedMin: 120,
      idleMin: 180,
    });
    expect(bays[0]?.cells[0]).toMatchObject({ closedMin: 840, day: day.fromDay, toDay: day.toDay });
  });

  it('counts a car from when it really came until it really went, before and after its planned time', async () => {
    oneDay();
    const set = "UPDATE job SET arrived_ms = ?, collected_ms = ? WHERE id = 'j'";
    shop.db.raw.prepare(set).run(ms('2026-11-25T07:30Z'), ms('2026-11-26T08:00Z'));
    shop.at(ms('2026-11-26T09:00Z'));
    const { bays } = await shop.read('figures.utilization', day);
    // open 07:00–17:00Z, planned 08:00–16:00: idle ½ h, waiting 1½ h, attended 3 h, cure 1 h, blocked 4 h until it closes
    expect(bays[0]?.total).toMatchObject({
      ...{ attendedMin: 180, cureMin: 60, waitingMin: 90, blockedMin: 240, idleMin: 30 },
    });
  });

  it('counts of several places each until the car was to leave it, and only the last until it went', async () => {
    oneDay();
    shop.db.raw.exec(`
      INSERT INTO bay (id, name, kind, capacity, seq, started_day) VALUES ('d', 'Bay 3', 'protection', 1, 2, '2016-01-01');
      DELETE FROM stay;
      INSERT INTO stay (job_id,bay_id,arrive_min,leave_min) VALUES
        ('j','b',${min('2026-11-25T08:00Z')},${min('2026-11-25T12:30Z')}),
        ('j','d',${min('2026-11-25T12:30Z')},${min('2026-11-25T13:30Z')});`);
    shop.at(ms('2026-11-26T09:00Z'));
    const { bays } = await shop.read('figures.utilization', day);
    // Bay 2 from 08:00 to 12:30, half an hour of which it dries; Bay 3 until it was collected at 15:00.
    expect(
      bays.map((b) => [b.total.attendedMin, b.total.waitingMin + b.total.blockedMin, b.total.idleMin]),
    ).toEqual([
      [180, 60, 300],
      [0, 150, 450],
    ]);
  });

  it('does not count the hours that are still to come', async () => {
    oneDay();
    shop.at(ms('2026-11-25T09:30Z'));
    const { bays } = await shop.read('figures.utilization', day);
    expect(bays[0]?.total.availableMin).toBe(150);
  });

  it('does not count the hours before the shop’s first day as idle', async () => {
    oneDay();
    const before = { ...day, fromDay: '2026-09-30' as LocalDay };
    shop.write('people.addCustomer', { kind: 'person', name: 'Ana Brisk', phone: '0555 018 100' });
    shop.at(ms('2026-11-26T09:00Z'));
    const { total } = await shop.read('figures.utilization', before);
    expect(total.availableMin).toBe(600);
  });

  it('adds up to the minute: parts to open hours, with the closed ones to the day, on a day of 23 hours too', async () => {
    oneDay();
    shop.at(ms('2027-04-01T09:00Z'));
    const range = { fromDay: '2027-03-22' as LocalDay, toDay: '2027-03-29' as LocalDay };
    for (const asked of [day, range]) {
      const { bays, total } = await shop.read('figures.utilization', asked);
      const parts = (of: UtilizationParts): number =>
        of.attendedMin + of.cureMin + of.waitingMin + of.blockedMin + of.idleMin;
      for (const cell of bays.flatMap((b) => b.cells)) {
        expect(parts(cell)).toBe(cell.availableMin);
        expect(cell.availableMin + cell.closedMin).toBe(cell.day === '2027-03-28' ? 1380 : 1440);
      }
      const sum = bays.flatMap((b) => b.cells).reduce((all, c) => all + c.availableMin, 0);
      expect([parts(total), total.availableMin]).toEqual([sum, sum]);
      expect(sum).toBe(600);
    }
  });

  it('holds estimate against actual, by stage, person and paint', async () => {
    oneDay();
    const view = await shop.read('figures.honesty', day);
    expect(view.all).toMatchObject({
      stages: 1,
      estimatedMin: 100,
      actualMin: 180,
      driftPpm: 1_800_000,
      within: 0,
    });
    expect(view.byHardness[0]).toMatchObject({ key: 'hard', stages: 1 });
    expect(view.byTechnician[0]?.label).toEqual({ kind: 'text', text: 'The technician' });
    expect(view.outliers[0]).toMatchObject({ jobNumber: 7, stage: 'cut', p50Min: 100, actualMin: 180 });
  });

  it('refuses a range that ends before it begins', async () => {
    expect(await shop.call('figures.margin', { fromDay: '2026-11-25', toDay: '2026-11-24' })).toMatchObject({
      error: { code: 'BAD_INPUT', data: { field: 'toDay' } },
    });
  });

  it('counts the hours of a job in what it brought', async () => {
    oneDay();
    expect(await shop.read('figures.margin', day)).toMatchObject({
      workedMin: 180,
      netMinor: 0,
      perHourMinor: 0,
      jobs: [{ jobNumber: 7 }],
    });
  });
});
