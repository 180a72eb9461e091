import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { JobId, StageId } from '#core/shared/ids.ts';
import type { JobPlanView } from '#core/shared/views/plan.ts';
import { liveBoard } from '#core/views/liveBoard.ts';
import { CAR_RECORD, unclayed } from '../../helpers/bookedJob.ts';
import { TEST_NOW } from '../../helpers/shop.ts';
import { type BayShop, openBayShop, type TestStage } from './shop.ts';

const WASH: TestStage = { kind: 'wash', min: 180, bay: 'wash', skill: 'wash' };
const CUT: TestStage = { kind: 'cut', min: 120, bay: 'correction', skill: 'correction' };
const NOW = TEST_NOW / 60_000;
const MIN = 60_000;

let shop: BayShop;
beforeEach(() => {
  shop = openBayShop();
});
afterEach(() => shop.close());

const sent = (plan: JobPlanView) => ({
  ...{ jobId: plan.jobId, stays: [...plan.stays] },
  pieces: plan.pieces.map((p) => ({ ...p, personIds: [...p.personIds] })),
});
async function bookFirst(jobId: JobId): Promise<unknown> {
  const { planRevision, offers } = await shop.read('bays.offers', { jobId });
  const plan = offers[0]?.plan;
  if (!plan) throw new Error('no offer');
  return shop.call('bays.bookOffer', { planRevision, plan: sent(plan) });
}
const piecesOf = (jobId: JobId) =>
  shop.db.raw
    .prepare(
      'SELECT stage_id AS id, bay_id AS bay, start_min AS s, end_min AS e FROM placement WHERE job_id = ? ORDER BY s',
    )
    .all(jobId) as { id: StageId; bay: string; s: number; e: number }[];

/** The board shows cars as they now stand, the file holds them as they were planned; neither may say no behind the other. */
describe('a plan beside what is kept of others', () => {
  test('takes a car that came unannounced while the yard was full, once there is room', async () => {
    const yard = shop.bays[3] as string;
    const [from, to] = [NOW - 60, NOW + 30];
    for (const who of ['Dev Ostler', 'Ines Brisk']) {
      const id = shop.job(who, [WASH]);
      const run = (sql: string, ...values: readonly unknown[]) => shop.db.raw.prepare(sql).run(...values);
      run("UPDATE job SET state = 'booked', drop_off_min = ?, pick_up_min = ? WHERE id = ?", from, to, id);
      run('INSERT INTO stay (job_id, bay_id, arrive_min, leave_min) VALUES (?, ?, ?, ?)', id, yard, from, to);
    }
    const walkIn = shop.job('Marit Vane', [CUT]);
    shop.write('bookings.arrive', { jobId: walkIn, ...CAR_RECORD });
    shop.at(TEST_NOW + 60 * MIN);
    expect(await bookFirst(walkIn)).toMatchObject({ ok: true });
    const first = shop.db.raw
      .prepare('SELECT min(arrive_min) FROM stay WHERE job_id = ?')
      .pluck()
      .get(walkIn);
    // It has stood there since it came, whatever the yard was full of.
    expect(first).toBe(NOW);
  });

  test('takes a bay that is kept for a car which runs over elsewhere and comes there later', async () => {
    const late = shop.job('Marit Vane', [WASH, CUT]);
    await bookFirst(late);
    const [wash, cut] = piecesOf(late);
    if (!wash || !cut) throw new Error('no plan');
    shop.at((wash.s - 10) * MIN);
    shop.write('bookings.arrive', { jobId: late, ...CAR_RECORD });
    shop.at((cut.s + 45) * MIN);
    shop.write('bookings.startStage', {
      stageId: wash.id,
      personId: shop.ann,
      setAside: unclayed('not asked for'),
    });
    const { board, kept } = liveBoard(shop.db, { nowMs: (cut.s + 45) * MIN });
    const standsAt = (plans: typeof kept) =>
      plans.get(late)?.stays.find((s) => s.bayId === cut.bay)?.arriveMin;
    const comesMin = standsAt(board.plans) ?? 0;
    expect(comesMin).toBeGreaterThan(standsAt(kept) ?? 0);
    const short = shop.job('Dev Ostler', [{ ...CUT, min: 15 }]);
    shop.write('bays.bookEarliest', { jobId: short, runs: 20, marginMin: 0 });
    const [own] = piecesOf(short);
    expect([own?.bay, (own?.e ?? 0) <= comesMin]).toEqual([cut.bay, true]);
  });
});
