import { afterEach, beforeEach, expect, it } from 'vitest';
import { endedEarly } from '#core/bays/store/plan.ts';
import { addWork } from '#core/bookings/store/work.ts';
import type { BayId, JobId, StageId } from '#core/shared/ids.ts';
import type { EpochMs, LocalDay } from '#core/shared/units.ts';
import { freeBayMinutes } from '#core/views/mondayBays.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';
import { lookBackDay } from './lookBackDay.ts';

let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
  shop.breaksPlans();
  lookBackDay(shop);
});
afterEach(() => shop.close());

const DAY = { fromDay: '2026-11-25', toDay: '2026-11-25' };

it('a cell of somebody who had left by then opens, and has no jobs', async () => {
  shop.at(Date.parse('2026-12-04T09:00Z'));
  shop.db.raw.prepare("UPDATE person SET ended_day = '2026-11-25' WHERE id = ?").run(shop.people.technician);
  const { people } = await shop.read('figures.utilization', { ...DAY, toDay: '2026-12-03', by: 'week' });
  expect(people[0]?.cells.map((c) => c.availableMin)).toEqual([210, 0]);
  const [was, is] = await Promise.all(
    (people[0]?.cells ?? []).map(({ day, toDay }) =>
      shop.read('figures.cellJobs', {
        ...{ fromDay: day, toDay, bayId: null, personId: shop.people.technician },
      }),
    ),
  );
  expect(was?.jobs).toHaveLength(1);
  expect(is).toEqual({ name: 'The technician', jobs: [] });
});

it('a bay whose car was fetched sooner than planned is free from then on', () => {
  const free = () => freeBayMinutes(shop.db, '2026-11-26' as LocalDay, 'Europe/Berlin');
  // Open ten hours on Wednesdays; the board had the car there until the Thursday after the next one.
  const [cameMin, untilMin] = ['2026-11-25T08:00Z', '2026-12-03T16:00Z'].map((t) => Date.parse(t) / 60_000);
  shop.db.raw.exec(`DELETE FROM stay; INSERT INTO stay (job_id,bay_id,arrive_min,leave_min)
    SELECT j.id, b.id, ${cameMin}, ${untilMin} FROM job j, bay b`);
  expect(free()).toBe(600);
  shop.db.raw.exec("UPDATE job SET state = 'ready', collected_ms = NULL");
  expect(free()).toBe(0);
});

it('work stays in the bay where it was done, though the rest of its stage is planned in another now', async () => {
  const { raw } = shop.db;
  const [old, other] = ['b'.repeat(20), 'd'.repeat(20)];
  const at = (time: string) => Date.parse(`2026-11-25T${time}Z`) as EpochMs;
  const placedIn = (bay: string): void =>
    void raw.exec(`DELETE FROM placement; INSERT INTO placement (job_id,stage_id,bay_id,start_min,end_min,dwell_end_min)
      SELECT job_id, id, '${bay}', 1, 2, 2 FROM job_stage`);
  const worked = (from: string, to: string) =>
    addWork(shop.db, {
      ...{ stageId: 's' as StageId, personId: shop.people.technician, corrected: false },
      ...{ startMs: at(from), endMs: at(to) },
    });
  raw.exec(`DELETE FROM stage_work; DELETE FROM stay;
    INSERT INTO bay (id,name,kind,capacity,seq,started_day) VALUES ('${other}','Bay 3','correction',1,2,'2016-01-01');
    INSERT INTO stay (job_id,bay_id,arrive_min,leave_min) SELECT id, '${old}', ${at('08:00') / 60_000}, ${at('10:00') / 60_000} FROM job;
    INSERT INTO stay (job_id,bay_id,arrive_min,leave_min) SELECT id, '${other}', ${at('10:00') / 60_000}, ${at('16:00') / 60_000} FROM job;`);
  placedIn(old);
  worked('09:00', '10:00');
  placedIn(other);
  worked('10:30', '12:00');
  shop.at(Date.parse('2026-11-26T09:00Z'));
  const { bays } = await shop.read('figures.utilization', DAY);
  // It dries for an hour in Bay 3, and is fetched at 15:00.
  expect(bays.map((b) => [b.total.attendedMin, b.total.cureMin])).toEqual([
    [60, 0],
    [90, 60],
  ]);
});

it('work on a stage that is planned in parts counts where the part was planned that had begun by then', () => {
  const { raw } = shop.db;
  const [old, other] = ['b'.repeat(20), 'd'.repeat(20)];
  const at = (time: string) => Date.parse(`2026-11-25T${time}Z`) as EpochMs;
  raw.exec(`DELETE FROM stage_work; DELETE FROM placement;
    INSERT INTO bay (id,name,kind,capacity,seq,started_day) VALUES ('${other}','Bay 3','correction',1,2,'2016-01-01');`);
  const put = raw.prepare(`INSERT INTO placement (job_id,stage_id,bay_id,start_min,end_min,dwell_end_min)
    SELECT job_id, id, ?, ?, ?, ? FROM job_stage`);
  for (const [bay, from, to] of [
    [old, '09:00', '10:00'],
    [other, '11:00', '12:00'],
  ] as const)
    put.run(bay, at(from) / 60_000, at(to) / 60_000, at(to) / 60_000);
  const who = { stageId: 's' as StageId, personId: shop.people.technician, corrected: false };
  for (const [from, to] of [
    ['08:30', '08:45'],
    ['09:05', '10:10'],
    ['11:00', '11:50'],
  ] as const)
    addWork(shop.db, { ...who, startMs: at(from), endMs: at(to) });
  const bays = raw.prepare('SELECT bay_id FROM stage_work ORDER BY start_ms').pluck().all();
  expect(bays).toEqual([old, old, other]);
});

it('a bay does not begin after work that was done in it, wherever the board has its stage and its car since', async () => {
  const bayId = 'b'.repeat(20) as BayId;
  shop.db.raw.exec(`UPDATE stage_work SET bay_id = '${bayId}'; DELETE FROM stay; DELETE FROM placement`);
  const begins = (startedDay: string) => shop.call('bays.changeBay', { bayId, revision: 1, startedDay });
  expect(await begins('2026-11-26')).toMatchObject({ error: { code: 'BAY_USED_BEFORE' } });
  expect(await begins('2026-11-25')).toMatchObject({ ok: true });
});

it('a car that stood in a bay until its job was cancelled stood there all the same', async () => {
  const jobId = 'j'.repeat(20) as JobId;
  shop.db.raw.exec(`DELETE FROM stage_work;
    UPDATE job SET state = 'here', ready_ms = NULL, collected_ms = NULL;
    UPDATE job_stage SET state = 'planned', started_ms = NULL, done_ms = NULL;`);
  const hours = async () => {
    const now = shop.now();
    shop.at(Date.parse('2026-11-26T09:00Z'));
    const { bays } = await shop.read('figures.utilization', DAY);
    shop.at(now);
    return bays[0]?.total;
  };
  shop.at(Date.parse('2026-11-25T11:00Z'));
  shop.write('bookings.cancelJob', { jobId, reason: 'sold the car', deposit: null });
  // Open 07:00–17:00Z; it came at 08:00 and went at 11:00. The bay is free from then on.
  expect(await hours()).toMatchObject({ availableMin: 600, attendedMin: 0, waitingMin: 180, blockedMin: 0 });
  const stays = shop.db.raw.prepare('SELECT max(leave_min) * 60000 FROM stay').pluck();
  expect(stays.get()).toBe(Date.parse('2026-11-25T11:00Z'));
  expect(endedEarly(shop.db, Math.floor(shop.now() / 60_000))).toEqual([]);
});
