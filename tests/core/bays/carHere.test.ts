import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { JobId, StageId } from '#core/shared/ids.ts';
import type { EpochMin, LocalDay } from '#core/shared/units.ts';
import type { JobPlanView } from '#core/shared/views/plan.ts';
import { unclayed } from '#tests/helpers/bookedJob.ts';
import { CAR_RECORD } from '../../helpers/bookedJob.ts';
import { type BayShop, openBayShop, type TestStage } from './shop.ts';

const WASH: TestStage = { kind: 'wash', min: 60, bay: 'wash', skill: 'wash' };
const CUT: TestStage = { kind: 'cut', min: 120, bay: 'correction', skill: 'correction' };
const PROTECT: TestStage = { kind: 'protect', min: 60, bay: 'protection', skill: 'protection' };
const DAY = '2026-11-25' as LocalDay;
type Placed = {
  readonly stageId: StageId;
  readonly kind: string;
  readonly startMin: number;
  readonly endMin: number;
};

let shop: BayShop;
let jobId: JobId;
/** A car that was washed as planned and is being cut since its planned minute; only Ann works here. */
beforeEach(async () => {
  shop = openBayShop();
  shop.write('bays.setTechnician', { personId: shop.ben, skills: [], shifts: [] });
  jobId = shop.job('Marit Vane', [WASH, CUT, PROTECT]);
  shop.write('bays.bookEarliest', { jobId, runs: 20 });
  shop.at((agreed().dropOffMin ?? 0) * 60_000);
  shop.write('bookings.arrive', { jobId, ...CAR_RECORD });
  const [wash, cut] = placed(jobId);
  if (!wash || !cut) throw new Error('no work');
  begin(wash);
  shop.at(wash.endMin * 60_000);
  shop.write('bookings.finishStage', { stageId: wash.stageId });
  begin(cut);
});
afterEach(() => shop.close());

function begin(at: Placed): void {
  shop.at(at.startMin * 60_000);
  const setAside = unclayed('clayed at home');
  shop.write('bookings.startStage', { stageId: at.stageId, personId: shop.ann, setAside });
}
function placed(of: JobId): readonly Placed[] {
  return shop.db.raw
    .prepare(
      `SELECT p.stage_id AS stageId, s.kind, p.start_min AS startMin, p.end_min AS endMin FROM placement p
       JOIN job_stage s ON s.id = p.stage_id WHERE p.job_id = ? ORDER BY p.start_min`,
    )
    .all(of) as Placed[];
}
function agreed(): { readonly dropOffMin: number; readonly pickUpMin: number } {
  return shop.db.raw
    .prepare('SELECT drop_off_min AS dropOffMin, pick_up_min AS pickUpMin FROM job WHERE id = ?')
    .get(jobId) as { dropOffMin: number; pickUpMin: number };
}
function sent(plan: JobPlanView) {
  return {
    ...plan,
    stays: [...plan.stays],
    pieces: plan.pieces.map((p) => ({ ...p, personIds: [...p.personIds] })),
  };
}
async function otherDates(): Promise<JobPlanView> {
  const { planRevision, offers } = await shop.read('bays.offers', { jobId });
  const plan = offers[0]?.plan;
  if (!plan) throw new Error('no offer');
  shop.write('bays.bookOffer', { planRevision, plan: sent(plan) });
  return plan;
}

describe('other dates for a car that is being worked on', () => {
  it('go on from what runs: it is not planned a second time, and what is left follows it', async () => {
    const [, cut] = placed(jobId);
    if (!cut) throw new Error('no cut');
    shop.at((cut.startMin + 60) * 60_000);
    await otherDates();
    const now = placed(jobId);
    expect(now.map((p) => p.kind)).toEqual(['wash', 'cut', 'protect']);
    // It was worked on through a break, so it may end a little sooner than planned.
    expect(now[1]?.startMin).toBe(cut.startMin);
    expect(now[1]?.endMin).toBeLessThanOrEqual(cut.endMin);
    expect(now[2]?.startMin).toBeGreaterThanOrEqual(now[1]?.endMin ?? 0);
    expect(await shop.read('bays.faults', {})).toEqual([]);
  });

  it('leave the drop-off that was agreed, and the record of where the car was worked on', async () => {
    const before = agreed();
    const [, cut] = placed(jobId);
    shop.at(((cut?.startMin ?? 0) + 60) * 60_000);
    const stood = () =>
      shop.db.raw
        .prepare('SELECT bay_id, arrive_min FROM stay WHERE job_id = ? ORDER BY arrive_min')
        .all(jobId);
    const stays = stood();
    await otherDates();
    expect(agreed().dropOffMin).toBe(before.dropOffMin);
    expect(stood().slice(0, 2)).toEqual(stays.slice(0, 2));
    const { bays } = await shop.read('figures.utilization', { fromDay: DAY, toDay: DAY });
    expect(bays.map((b) => b.total.attendedMin)).toEqual([60, 60, 0]);
  });
});

it('the rest of a car that overruns can be moved though its technician is planned at another one by then', async () => {
  const [, cut, protect] = placed(jobId);
  const other = shop.job('Dev Ostler', [{ ...WASH, min: 30 }]);
  shop.write('bays.bookEarliest', { jobId: other, runs: 20, marginMin: 0 });
  const [wash] = placed(other);
  if (!cut || !protect || !wash) throw new Error('no work');
  // The cut should have ended by now; Ann is planned at the other car next.
  shop.at(wash.startMin * 60_000);
  expect(wash.startMin).toBeGreaterThanOrEqual(cut.endMin);
  const board = await shop.read('bays.board', { fromDay: DAY, toDay: '2026-11-28' as LocalDay });
  const tomorrow = Date.parse('2026-11-26T13:00:00Z') / 60_000;
  const reply = await shop.call('bays.move', {
    ...{ jobId, stageIds: [protect.stageId], bayId: shop.bays[2], startMin: tomorrow },
    ...{ planRevision: board.planRevision, consent: true },
  });
  expect(shop.log).toEqual([]);
  expect(reply.ok).toBe(true);
  expect(placed(jobId)[1]).toEqual(cut);
});

it('work that has begun can be moved to another bay all the same', async () => {
  const [, cut, protect] = placed(jobId);
  if (!cut || !protect) throw new Error('no work');
  const { bayId } = shop.write('bays.addBay', { name: 'Bay 4', kind: 'correction' });
  shop.at((cut.startMin + 20) * 60_000);
  const tomorrow = (Date.parse('2026-11-26T13:00:00Z') / 60_000) as EpochMin;
  const { planRevision } = shop.write('bays.move', {
    ...{
      jobId,
      stageIds: [protect.stageId],
      bayId: shop.bays[2] as never,
      startMin: tomorrow,
      consent: true,
    },
    planRevision: (await shop.read('bays.board', { fromDay: DAY, toDay: DAY })).planRevision,
  });
  const startMin = (cut.startMin + 60) as EpochMin;
  const reply = await shop.call('bays.move', {
    jobId,
    stageIds: [cut.stageId],
    bayId,
    startMin,
    planRevision,
  });
  expect(reply).toMatchObject({ ok: true });
  const at = shop.db.raw.prepare('SELECT bay_id AS bayId FROM placement WHERE stage_id = ?');
  expect(at.all(cut.stageId)).toEqual([{ bayId }]);
});

it('a car that goes home after the look leaves the board, and the hours of the look stay with its bay', async () => {
  const look = shop.job('Ines Brisk', [{ ...WASH, kind: 'inspection', skill: 'inspection' }]);
  shop.write('bays.bookEarliest', { jobId: look, runs: 20, marginMin: 0 });
  const [seen] = placed(look);
  if (!seen) throw new Error('no look');
  shop.at((seen.startMin - 10) * 60_000);
  shop.write('bookings.arrive', { jobId: look, ...CAR_RECORD });
  begin(seen);
  shop.at((seen.startMin + 20) * 60_000);
  shop.write('bookings.finishStage', { stageId: seen.stageId });
  const minutes = async () =>
    (await shop.read('figures.utilization', { fromDay: DAY, toDay: '2026-11-28' as LocalDay })).bays[0]?.total
      .attendedMin;
  const before = await minutes();
  shop.write('bookings.sendHome', { jobId: look, note: '' });
  expect(await minutes()).toBe(before);
  const board = await shop.read('bays.board', { fromDay: DAY, toDay: '2026-11-28' as LocalDay });
  expect(board.blocks.filter((b) => b.jobId === look)).toEqual([]);
  // Nobody is held by it, and it can come again.
  const { offers } = await shop.read('bays.offers', {
    jobId: shop.job('Dev Ostler', [{ ...WASH, min: 30 }]),
  });
  expect(offers.length).toBeGreaterThan(0);
});

it('shows hours on the board without work that was dropped', async () => {
  const days = { fromDay: DAY, toDay: '2026-11-28' as LocalDay };
  const shown = async () =>
    new Set(
      (await shop.read('bays.board', days)).blocks.filter((b) => b.jobId === jobId).map((b) => b.workMin),
    );
  const [before = 0] = await shown();
  // The same figure as on the job's own page.
  expect(before).toBe((await shop.read('bookings.job', { jobId })).hours.p50Min);
  const protect = placed(jobId).at(-1);
  if (!protect) throw new Error('no work');
  shop.write('bookings.dropStage', { stageId: protect.stageId, reason: 'the customer does it himself' });
  expect(await shown()).toEqual(new Set([before - (protect.endMin - protect.startMin)]));
});

it('is late nowhere for work that was dropped', async () => {
  const [, cut, protect] = placed(jobId);
  if (!cut || !protect) throw new Error('no work');
  shop.db.raw.prepare('UPDATE job SET pick_up_min = ? WHERE id = ?').run(protect.startMin, jobId);
  const late = async () => [
    (await shop.read('bookings.job', { jobId })).promise.late,
    (await shop.read('bookings.desk', {})).inBays[0]?.late,
    (await shop.read('bookings.jobs', { search: '' })).rows[0]?.late,
  ];
  expect(await late()).toEqual([true, true, true]);
  shop.write('bookings.dropStage', { stageId: protect.stageId, reason: 'the customer does it himself' });
  expect(await late()).toEqual([false, false, false]);
});
