import { expect, test } from 'vitest';
import { sinceRoom } from '#core/bays/rules/keptClash.ts';
import type { Board, JobPlan } from '#core/bays/rules/model.ts';
import { stoodUntil } from '#core/bays/store/stays.ts';
import type { BayId, JobId } from '#core/shared/ids.ts';
import { openBayShop } from './shop.ts';

const board = { nowMin: 1000 } as Board;
const stay = (bayId: string, arriveMin: number, leaveMin: number) => ({
  bayId: bayId as BayId,
  arriveMin,
  leaveMin,
});
const planOf = (...stays: ReturnType<typeof stay>[]): JobPlan => ({ jobId: 'a' as JobId, stays, pieces: [] });
const until = (ends: Readonly<Record<string, number>>) => (_: JobId, s: { readonly bayId: string }) =>
  ends[s.bayId] ?? 0;

test('a plan holds bays from when the file has room on, and leaves out a stay that is over where it has none', () => {
  const plan = planOf(stay('x', 100, 400), stay('y', 400, 900), stay('z', 900, 1500), stay('x', 1500, 1600));
  const given = until({ x: 500, y: 600 });
  expect(sinceRoom(board, new Map(), plan, given).stays).toEqual([
    stay('y', 600, 900),
    stay('z', 900, 1500),
    stay('x', 1500, 1600),
  ]);
  // What is kept of it already needs no room.
  const kept = new Map([['a' as JobId, planOf(stay('x', 100, 450))]]);
  expect(sinceRoom(board, kept, plan, given).stays[0]).toEqual(stay('x', 100, 400));
});

test('a bay is kept for cars that are gone too, of one car alone, and for nobody after now', () => {
  const shop = openBayShop();
  const [bay, yard] = [shop.bays[0] as BayId, shop.bays.at(-1) as BayId];
  const [gone, here] = ['Dev Ostler', 'Ines Brisk'].map((who) =>
    shop.job(who, [{ kind: 'wash', min: 30, bay: 'wash', skill: 'wash' }]),
  );
  const keep = (id: unknown, at: string, from: number, to: number) =>
    shop.db.raw
      .prepare('INSERT INTO stay (job_id, bay_id, arrive_min, leave_min) VALUES (?, ?, ?, ?)')
      .run(id, at, from, to);
  keep(gone, bay, 1000, 2000);
  keep(gone, yard, 2000, 3000);
  const of = (bayId: BayId, from: number, to: number, nowMin = 5000) =>
    stoodUntil(shop.db, here as JobId, { bayId, arriveMin: from, leaveMin: to }, nowMin);
  expect([of(bay, 500, 1500), of(bay, 500, 1500, 1200), of(bay, 2000, 2500), of(bay, 500, 1000)]).toEqual([
    2000, 1200, 0, 0,
  ]);
  expect(of(yard, 1500, 2500)).toBe(0);
  expect(stoodUntil(shop.db, gone as JobId, { bayId: bay, arriveMin: 500, leaveMin: 1500 }, 5000)).toBe(0);
  shop.db.raw.exec('DELETE FROM stay');
  shop.close();
});
