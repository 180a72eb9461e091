import { afterEach, describe, expect, test } from 'vitest';
import type { JobId } from '#core/shared/ids.ts';
import type { EpochMin } from '#core/shared/units.ts';
import type { PromiseAtRisk, Remedy } from '#core/shared/views/desk.ts';
import { TEST_NOW } from '../../helpers/shop.ts';
import { type BayShop, openBayShop, USUAL } from './shop.ts';

const opened: BayShop[] = [];
const open = (): BayShop => {
  const shop = openBayShop();
  opened.push(shop);
  return shop;
};
afterEach(() => {
  for (const shop of opened.splice(0)) shop.close();
});
const DAY = 1440;

async function booked(shop: BayShop, notBeforeMin?: EpochMin): Promise<JobId> {
  const jobId = shop.job('Marit Vane', USUAL.slice(0, 2));
  const view = await shop.read('bays.offers', { jobId, ...(notBeforeMin ? { notBeforeMin } : {}) });
  const plan = view.offers[0]?.plan;
  if (!plan) throw new Error('no offer');
  const pieces = plan.pieces.map((p) => ({ ...p, personIds: [...p.personIds] }));
  const sent = { jobId, stays: [...plan.stays], pieces };
  shop.write('bays.bookOffer', { planRevision: view.planRevision, plan: sent });
  return jobId;
}
/** The job was promised for this minute, as far as anybody remembers. */
function promise(shop: BayShop, jobId: JobId, atMin: number): void {
  shop.db.raw.prepare('UPDATE job SET pick_up_min = ?, bold = 0 WHERE id = ?').run(atMin, jobId);
}
const riskOf = async (shop: BayShop, jobId: JobId): Promise<PromiseAtRisk | undefined> =>
  (await shop.read('bookings.risks', {})).find((r) => r.jobId === jobId);
const ofKind = <K extends Remedy['kind']>(risk: PromiseAtRisk | undefined, kind: K) =>
  risk?.remedies.find((r): r is Extract<Remedy, { kind: K }> => r.kind === kind);
const chanceNow = async (shop: BayShop, jobId: JobId) =>
  (await shop.read('bays.promises', { jobId }))[0]?.nowPpm ?? 0;

/** The cut put off by a day, and the promise left where it hardly holds: half of the runs are late. */
async function putOff(shop: BayShop): Promise<JobId> {
  const jobId = await booked(shop);
  const view = await shop.read('bookings.job', { jobId });
  const cut = view.stages.find((s) => s.kind === 'cut')?.id;
  const placed = shop.db.raw
    .prepare('SELECT bay_id AS bayId, start_min AS startMin FROM placement WHERE stage_id = ?')
    .get(String(cut)) as { bayId: never; startMin: number };
  const { planRevision } = await shop.read('bays.board', {
    fromDay: '2026-11-25' as never,
    toDay: '2026-11-30' as never,
  });
  const startMin = (placed.startMin + DAY) as EpochMin;
  const wish = { jobId, stageIds: [cut as never], bayId: placed.bayId, startMin };
  shop.write('bays.move', { ...wish, planRevision, consent: true });
  const { end } = shop.db.raw
    .prepare('SELECT max(end_min) AS end FROM placement WHERE job_id = ?')
    .get(jobId) as { end: number };
  promise(shop, jobId, end);
  return jobId;
}

describe('ways out for a promise at risk', () => {
  test('are moves that break no rule, and taking one gives the chance that was said', async () => {
    for (const kind of ['technician', 'time'] as const) {
      const shop = open();
      const jobId = await putOff(shop);
      const risk = await riskOf(shop, jobId);
      const way = ofKind(risk, kind);
      if (!way) throw new Error(`no way out by ${kind}: ${JSON.stringify(risk)}`);
      expect(way.ppm).toBeGreaterThan((risk?.nowPpm ?? 0) + 50_000);
      shop.write('bays.move', { ...way.move, stageIds: [...way.move.stageIds] });
      expect(Math.abs((await chanceNow(shop, jobId)) - way.ppm)).toBeLessThan(50_000);
      expect(await shop.read('bays.faults', {})).toEqual([]);
    }
  });

  test('are found too for a car that has yet to come, from when it can be worked on, and before it is a risk', async () => {
    const shop = open();
    const jobId = shop.job('Marit Vane', USUAL.slice(1, 2));
    const view = await shop.read('bays.offers', { jobId });
    const plan = view.offers[0]?.plan;
    const [cut] = plan?.pieces ?? [];
    if (!plan || !cut) throw new Error('no offer');
    const pieces = plan.pieces.map((p) => ({ ...p, personIds: [...p.personIds] }));
    const sent = { jobId, stays: [...plan.stays], pieces };
    const { planRevision } = shop.write('bays.bookOffer', { planRevision: view.planRevision, plan: sent });
    const startMin = (cut.startMin + 90) as EpochMin;
    const wish = { jobId, stageIds: [cut.stageId], bayId: cut.bayId, startMin, planRevision };
    shop.write('bays.move', { ...wish, consent: true });
    const [way] = (await shop.read('bays.waysOut', { jobId })).filter((r) => r.kind === 'time');
    if (way?.kind !== 'time') throw new Error('no way out');
    expect(way.move.startMin).toBe(cut.startMin);
    shop.write('bays.move', { ...way.move, stageIds: [...way.move.stageIds] });
    expect(Math.abs((await chanceNow(shop, jobId)) - way.ppm)).toBeLessThan(50_000);
  });

  test('a single one is shown too: a later handover that is as sure as the shop wants', async () => {
    const shop = open();
    const jobId = await booked(shop);
    const { end } = shop.db.raw
      .prepare('SELECT max(end_min) AS end FROM placement WHERE job_id = ?')
      .get(jobId) as { end: number };
    promise(shop, jobId, end);
    const risk = await riskOf(shop, jobId);
    const way = ofKind(risk, 'later');
    expect(way?.pickUpMin).toBeGreaterThan(end);
    expect(way?.ppm).toBeGreaterThanOrEqual(800_000);
  });
});

describe('pads that will be missing', () => {
  const need = (shop: BayShop, jobId: JobId, pieces: number) =>
    shop.db.raw
      .prepare(
        `INSERT INTO job_material (stage_id, material, amount) SELECT id, 'cuttingPad', ? FROM job_stage
         WHERE job_id = ? AND kind = 'cut'`,
      )
      .run(pieces, jobId);
  const pads = (shop: BayShop) =>
    shop.write('stock.addItem', {
      name: 'Cutting pads, 150 mm',
      material: 'cuttingPad',
      unit: 'piece',
      packSize: 2,
      reusable: true,
      opening: { amount: 4, valueMinor: 4000 },
    });

  test('put the promise at risk, and washing tonight brings back what was promised', async () => {
    const shop = open();
    const jobId = await booked(shop, (Math.floor(TEST_NOW / 60_000) + DAY) as EpochMin);
    need(shop, jobId, 3);
    const { itemId } = pads(shop);
    expect(await riskOf(shop, jobId)).toBeUndefined();
    const before = await chanceNow(shop, jobId);
    shop.write('stock.padsUsed', { itemId, pieces: 3 });
    const risk = await riskOf(shop, jobId);
    expect(risk?.reason).toEqual({ kind: 'padsMissing', item: 'Cutting pads, 150 mm', needs: 3, has: 1 });
    expect(risk?.nowPpm).toBeLessThan(before);
    expect(ofKind(risk, 'wash')).toEqual({ kind: 'wash', item: 'Cutting pads, 150 mm', ppm: before });
    shop.write('stock.padsWash', { itemId, pieces: 3, step: 'in' });
    expect(await riskOf(shop, jobId)).toBeUndefined();
  });
});
