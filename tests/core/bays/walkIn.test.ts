import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { withWalkIns } from '#core/bays/rules/walkIn.ts';
import type { JobId } from '#core/shared/ids.ts';
import type { LocalDay } from '#core/shared/units.ts';
import { CAR_RECORD } from '../../helpers/bookedJob.ts';
import { TEST_NOW } from '../../helpers/shop.ts';
import { board, job, place, plansOf, standing } from './boards.ts';
import { type BayShop, openBayShop, type TestStage } from './shop.ts';

const CUT: TestStage = { kind: 'cut', min: 120, bay: 'correction', skill: 'correction' };
const DAY = '2026-11-25' as LocalDay;

let shop: BayShop;
let walkIn: JobId;
/** A car that came without an appointment an hour ago and stands there. */
beforeEach(() => {
  shop = openBayShop();
  walkIn = shop.job('Marit Vane', [CUT]);
  shop.write('bookings.arrive', { jobId: walkIn, ...CAR_RECORD });
  shop.at(TEST_NOW + 60 * 60_000);
});
afterEach(() => shop.close());

const view = () => shop.read('bays.board', { fromDay: DAY, toDay: '2026-11-27' as LocalDay });

describe('a car that is here and was never planned', () => {
  test('stands in the yard on the board since it came, and is listed as not planned', async () => {
    const { blocks, unplaced, conflicts } = await view();
    expect(blocks.map((b) => [b.jobId, b.bayId, b.arriveMin, b.pieces.length])).toEqual([
      [walkIn, shop.bays[3], TEST_NOW / 60_000, 0],
    ]);
    expect(unplaced.map((u) => u.jobId)).toEqual([walkIn]);
    expect(conflicts).toEqual([]);
    expect(await shop.read('bays.faults', {})).toEqual([]);
  });

  test('leaves room in the yard for one car less', async () => {
    const other = shop.job('Dev Ostler', [CUT]);
    shop.write('bookings.arrive', { jobId: other, ...CAR_RECORD });
    expect((await view()).blocks.map((b) => b.bayId)).toEqual([shop.bays[3], shop.bays[3]]);
    // Bay 2 is shut today: a third car would have to wait in the yard, which is full.
    shop.write('bays.addClosure', { fromDay: DAY, toDay: DAY, bayId: shop.bays[1] ?? null, reason: '' });
    const { offers } = await shop.read('bays.offers', { jobId: shop.job('Ines Brisk', [CUT]) });
    expect(offers.every((o) => o.plan.stays.every((s) => s.bayId !== shop.bays[3]))).toBe(true);
  });

  test('is offered work that goes on from where it stands, and keeps the time it came', async () => {
    const { planRevision, offers } = await shop.read('bays.offers', { jobId: walkIn });
    const plan = offers[0]?.plan;
    if (!plan) throw new Error('no offer');
    expect(plan.stays.map((s) => s.bayId).slice(0, 2)).toEqual([shop.bays[3], shop.bays[1]]);
    expect(plan.stays[0]?.arriveMin).toBe(TEST_NOW / 60_000);
    const pieces = plan.pieces.map((p) => ({ ...p, personIds: [...p.personIds] }));
    shop.write('bays.bookOffer', { planRevision, plan: { jobId: walkIn, stays: [...plan.stays], pieces } });
    expect((await view()).unplaced).toEqual([]);
    expect(await shop.read('bays.faults', {})).toEqual([]);
  });

  test('is booked in the very minute it came, without a stay of no length before the first', async () => {
    shop.at(TEST_NOW);
    const { planRevision, offers } = await shop.read('bays.offers', { jobId: walkIn });
    const plan = offers[0]?.plan;
    if (!plan) throw new Error('no offer');
    expect(plan.stays.every((s) => s.arriveMin < s.leaveMin)).toBe(true);
    expect(plan.stays[0]).toMatchObject({ bayId: shop.bays[1], arriveMin: TEST_NOW / 60_000 });
    const pieces = plan.pieces.map((p) => ({ ...p, personIds: [...p.personIds] }));
    shop.write('bays.bookOffer', { planRevision, plan: { jobId: walkIn, stays: [...plan.stays], pieces } });
    expect((await view()).unplaced).toEqual([]);
    expect(await shop.read('bays.faults', {})).toEqual([]);
  });

  test('is left alone by the re-plan', async () => {
    const { moved, before } = await shop.read('bays.replan', { iterations: 20 });
    expect([moved, before.broken, before.sumReadyMin]).toEqual([[], 0, 0]);
  });
});

test('where the yard has no room, nobody knows where the car stands, and it holds no place', () => {
  const j = job('j', []);
  const full = board({
    places: [place('yard', 'yard')],
    technicians: [],
    nowMin: 100,
    jobs: new Map([[j.id, j]]),
    plans: plansOf([standing('x', 'yard', 0, 200)]),
  });
  const walkIns = [{ jobId: j.id, cameMin: 50 }];
  expect(withWalkIns(full, walkIns).plans.has(j.id)).toBe(false);
  const later = withWalkIns({ ...full, nowMin: 200 }, walkIns);
  expect(later.plans.get(j.id)?.stays).toEqual([{ bayId: 'yard', arriveMin: 50, leaveMin: 1640 }]);
  expect(later.jobs.get(j.id)?.start).toEqual({ kind: 'here', bayId: 'yard', fromMin: 200 });
});
