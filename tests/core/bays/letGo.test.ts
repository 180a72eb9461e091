import { afterEach, expect, test } from 'vitest';
import { letGo } from '#core/bays/rules/letGo.ts';
import type { BayId, JobId, PersonId, StageId } from '#core/shared/ids.ts';
import { unclayed } from '#tests/helpers/bookedJob.ts';
import { CAR_RECORD } from '../../helpers/bookedJob.ts';
import { stage as stageOf } from './boards.ts';
import { type BayShop, openBayShop, type TestStage } from './shop.ts';

const opened: BayShop[] = [];
afterEach(() => {
  for (const shop of opened.splice(0)) shop.close();
});

const CUT: TestStage = { kind: 'cut', min: 300, bay: 'correction', skill: 'correction' };
const WASH: TestStage = { kind: 'wash', min: 60, bay: 'wash', skill: 'wash' };
type Placed = { readonly stage_id: StageId; readonly start_min: number; readonly end_min: number };

/** One technician at work; a car with a cut of five hours stands in its bay, the work begun as planned. */
async function atWork(): Promise<{ shop: BayShop; stage: Placed; book: (who: string) => Promise<unknown> }> {
  const shop = openBayShop();
  opened.push(shop);
  shop.write('bays.setTechnician', { personId: shop.ben, skills: [], shifts: [] });
  const book = async (jobId: ReturnType<BayShop['job']>): Promise<unknown> => {
    const { planRevision, offers } = await shop.read('bays.offers', { jobId });
    const plan = offers[0]?.plan;
    if (!plan) throw new Error('no offer');
    const pieces = plan.pieces.map((p) => ({ ...p, personIds: [...p.personIds] }));
    return shop.write('bays.bookOffer', { planRevision, plan: { jobId, stays: [...plan.stays], pieces } });
  };
  const first = shop.job('Marit Vane', [CUT]);
  await book(first);
  const stage = shop.db.raw.prepare('SELECT stage_id, start_min, end_min FROM placement').get() as Placed;
  shop.at((stage.start_min - 10) * 60_000);
  shop.write('bookings.arrive', { jobId: first, ...CAR_RECORD });
  shop.at(stage.start_min * 60_000);
  shop.write('bookings.startStage', {
    stageId: stage.stage_id,
    personId: shop.ann,
    setAside: unclayed('clayed at home'),
  });
  shop.at((stage.start_min + 30) * 60_000);
  return { shop, stage, book: (who) => book(shop.job(who, [WASH])) };
}

function lastWork(shop: BayShop): Placed {
  return shop.db.raw.prepare('SELECT * FROM placement ORDER BY id DESC').get() as Placed;
}

test('somebody who is done early can be booked for another car in the time that is free now', async () => {
  const { shop, stage, book } = await atWork();
  shop.write('bookings.finishStage', { stageId: stage.stage_id, draws: [] });
  await book('Dev Ostler');
  expect(lastWork(shop).start_min).toBeLessThan(stage.end_min);
  const kept = shop.db.raw
    .prepare('SELECT * FROM placement WHERE stage_id = ?')
    .get(stage.stage_id) as Placed;
  expect([kept.start_min, kept.end_min]).toEqual([stage.start_min, stage.start_min + 30]);
});

test('a stage that is dropped frees its person as well, and the record still says where work was done', async () => {
  const { shop, stage, book } = await atWork();
  shop.write('bookings.dropStage', { stageId: stage.stage_id, reason: 'the customer changed his mind' });
  await book('Dev Ostler');
  expect(lastWork(shop).start_min).toBeLessThan(stage.end_min);
  const { bays } = await shop.read('figures.utilization', { fromDay: '2026-11-25', toDay: '2026-11-25' });
  expect(bays.find((b) => b.name === 'Bay 2')?.total.attendedMin).toBe(30);
});

test('a car collected before its planned time keeps the place where it was worked on', async () => {
  const { shop, stage, book } = await atWork();
  shop.write('bookings.finishStage', { stageId: stage.stage_id, draws: [] });
  const { id } = shop.db.raw.prepare("SELECT id FROM job WHERE state = 'ready'").get() as { id: never };
  shop.write('bookings.handOver', { jobId: id, ...CAR_RECORD });
  await book('Dev Ostler');
  const { bays } = await shop.read('figures.utilization', { fromDay: '2026-11-25', toDay: '2026-11-25' });
  expect(bays.find((b) => b.name === 'Bay 2')?.total.attendedMin).toBe(30);
});

test('a stage in work that will end sooner than planned is held no longer than that', () => {
  const piece = {
    ...{ stageId: 's' as StageId, bayId: 'c' as BayId, personIds: ['a' as PersonId] },
    ...{ startMin: 100, endMin: 400, dwellEndMin: 460 },
  };
  const kept = { jobId: 'j' as JobId, stays: [], pieces: [piece] };
  const stages = [stageOf('s', 300, { state: 'inWork' })];
  const sooner = { ...kept, pieces: [{ ...piece, endMin: 250, dwellEndMin: 310 }] };
  expect(letGo(kept, stages, 200, sooner)?.pieces[0]).toMatchObject({ endMin: 250, dwellEndMin: 310 });
  const later = { ...kept, pieces: [{ ...piece, endMin: 500, dwellEndMin: 560 }] };
  expect(letGo(kept, stages, 200, later)).toBeNull();
});
