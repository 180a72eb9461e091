import { afterEach, expect, test } from 'vitest';
import { occupancyOf } from '#core/bays/rules/occupancy.ts';
import { placeJob } from '#core/bays/rules/offers.ts';
import { simulateReady } from '#core/bays/rules/simulate.ts';
import type { BayId, JobId } from '#core/shared/ids.ts';
import type { JobPlanView } from '#core/shared/views/plan.ts';
import { board, busy, job, open, person, place, plansOf, stage, standing } from './boards.ts';
import { type BayShop, openBayShop, type TestStage } from './shop.ts';

const opened: BayShop[] = [];
afterEach(() => {
  for (const shop of opened.splice(0)) shop.close();
});
function shopOf(): BayShop {
  const shop = openBayShop();
  opened.push(shop);
  return shop;
}

function placed(b: ReturnType<typeof board>, j: ReturnType<typeof job>) {
  return placeJob(b, occupancyOf(b, new Set([j.id]), b.nowMin), j, {
    people: null,
    holdUntilMin: 0,
    stages: j.stages,
  });
}

const bays = [place('c', 'correction'), place('p', 'protection')];
const wipe = stage('s1', 20, { kind: 'panelWipe', mostGapMin: 30 });
const coat = stage('s2', 40, { kind: 'protect', bayKinds: ['protection'] });

test('a wipe waits until the coating can follow it in time', () => {
  // The protection bay is free from 200: the wipe is put off from 0 to 150–170, and the coating follows at 200.
  const b = board({ places: bays, technicians: [person('a')], plans: plansOf([standing('x', 'p', 0, 200)]) });
  const found = placed(b, job('j', [wipe, coat]));
  expect(found?.plan.pieces.map((p) => [p.startMin, p.endMin])).toEqual([
    [150, 170],
    [200, 240],
  ]);
});

test('a slower way may be the only one that is in time', () => {
  // Who is free at 20 needs twice the 40 minutes and is done at 100; the quick one is there from 60, too late.
  const quick = person('quick', open([60, 400]), 2_000_000, ['protection']);
  const slow = person('slow', undefined, 500_000, ['correction', 'protection']);
  const half = { ...wipe, labourMin: 10 };
  const b = board({ places: bays, technicians: [slow, quick] });
  const protect = { ...coat, skill: 'protection' as const };
  expect(placed(b, job('j', [half, protect]))?.readyMin).toBe(80);
  expect(placed(b, job('j', [{ ...half, mostGapMin: 0 }, protect]))?.plan.pieces[0]?.startMin).toBe(40);
});

test('a least gap needs no place: the car may stand in the yard meanwhile', () => {
  const yard = place('yard', 'yard', 1);
  const b = board({
    places: [...bays, yard],
    technicians: [person('a')],
    plans: plansOf([standing('x', 'c', 20, 400), standing('y', 'p', 0, 50)]),
  });
  const found = placed(b, job('j', [{ ...wipe, leastGapMin: 60, mostGapMin: null }, coat]));
  expect(found?.plan.stays.map((s) => [s.bayId, s.arriveMin])).toEqual([
    ['c', 0],
    ['yard', 20],
    ['p', 50],
  ]);
  expect(found?.plan.pieces[1]?.startMin).toBe(80);
});

test('nobody cuts beside a fresh coating by day, and a night of curing hinders nobody', () => {
  const near = bays.map((p) => ({ ...p, dustWith: (p.id === 'c' ? ['p'] : ['c']) as BayId[] }));
  const hours = open([0, 500], [1500, 2000]);
  const coated = (from: number, to: number) => {
    const own = busy('x', 'b', from, from);
    return { ...own, pieces: own.pieces.map((p) => ({ ...p, bayId: 'p' as BayId, dwellEndMin: to })) };
  };
  const of = (from: number, to: number) =>
    board({
      places: near,
      technicians: [person('a', hours)],
      jobs: new Map([['x' as JobId, job('x', [stage('x-s', 1, { kind: 'cure' })])]]),
      plans: plansOf([coated(from, to)]),
    });
  const cut = job('j', [stage('s', 200)]);
  expect(placed(of(100, 400), cut)?.plan.pieces[0]?.startMin).toBe(400);
  expect(placed(of(500, 1500), job('j', [stage('s', 600)]))?.readyMin).toBe(1600);
});

test('a simulated day keeps the least gap however late the stage before it is', () => {
  const j = job('j', [stage('s1', 30, { leastGapMin: 45 }), stage('s2', 30)], { promiseMin: 200 });
  const b = board({ places: bays, technicians: [person('a')], jobs: new Map([[j.id, j]]) });
  const plan = placed(b, j)?.plan;
  const now = { ...b, plans: plansOf(plan ? [plan] : []) };
  const late = { ...j, stages: j.stages.map((s, i) => (i === 0 ? { ...s, mu: Math.log(100) } : s)) };
  expect(simulateReady(now, [j.id], 1, 3).get(j.id)).toEqual([105, 105, 105]);
  const then = { ...now, jobs: new Map([[j.id, late]]) };
  expect(simulateReady(then, [j.id], 1, 3).get(j.id)).toEqual([175, 175, 175]);
});

const STAGES: readonly TestStage[] = [
  { kind: 'panelWipe', min: 30, bay: 'correction', skill: 'correction' },
  { kind: 'protect', min: 60, bay: 'protection', skill: 'protection' },
];
const sent = ({ jobId, stays, pieces }: JobPlanView) => ({ jobId, stays, pieces }) as never;

test('what the shop sets holds for offers and moves, and is said in words', async () => {
  const shop = shopOf();
  shop.write('bays.setGap', { stage: 'panelWipe', leastMin: 15, mostMin: 120 });
  const jobId = shop.job('Marit Vane', STAGES);
  const view = await shop.read('bays.offers', { jobId });
  const plan = view.offers[0]?.plan as JobPlanView;
  const [wiped, coated] = plan.pieces;
  expect((coated?.startMin ?? 0) - (wiped?.dwellEndMin ?? 0)).toBeGreaterThanOrEqual(15);
  expect((coated?.startMin ?? 0) - (wiped?.dwellEndMin ?? 0)).toBeLessThanOrEqual(120);
  shop.write('bays.bookOffer', { planRevision: view.planRevision, plan: sent(plan) });
  const tomorrow = (coated?.startMin ?? 0) + 1440;
  const check = await shop.read('bays.checkMove', {
    jobId,
    stageIds: [coated?.stageId as never],
    bayId: shop.bays[2] as BayId,
    startMin: tomorrow as never,
  });
  expect(check).toMatchObject({ ok: false, fault: { rule: 'gapLong' } });
  const { planRevision } = await shop.read('bays.setup', {}).then(() => shop.read('bays.offers', { jobId }));
  const refused = await shop.call('bays.move', {
    ...{ planRevision, jobId, stageIds: [coated?.stageId], bayId: shop.bays[2], startMin: tomorrow },
    consent: false,
  });
  expect(refused).toMatchObject({
    ok: false,
    error: {
      code: 'PLAN_BREAKS_RULE',
      data: { sentence: expect.stringMatching(/protect.*has to begin within 2\.0 h of the panel wipe/) },
    },
  });
});

test('bays in each other’s dust are set once, two by two or all, and taken back', async () => {
  const shop = shopOf();
  const [a, b] = shop.bays as readonly [BayId, BayId];
  shop.write('bays.addDust', { pair: [a, b] });
  shop.write('bays.addDust', { pair: [b, a] });
  shop.write('bays.addDust', {});
  shop.write('bays.addDust', {});
  const { dust } = await shop.read('bays.setup', {});
  expect(dust.map((d) => d.bayA === null)).toEqual([false, true]);
  expect(await shop.call('bays.addDust', { pair: [a, a] })).toMatchObject({ error: { code: 'SAME_BAY' } });
  for (const { id } of dust) shop.write('bays.dropDust', { id });
  expect((await shop.read('bays.setup', {})).dust).toEqual([]);
});

test('a time between stages is changed and taken back, never turned round', async () => {
  const shop = shopOf();
  shop.write('bays.setGap', { stage: 'cut', leastMin: 10 });
  shop.write('bays.setGap', { stage: 'cut', leastMin: 0, mostMin: 60 });
  expect((await shop.read('bays.setup', {})).gaps).toEqual([{ stage: 'cut', leastMin: 0, mostMin: 60 }]);
  expect(await shop.call('bays.setGap', { stage: 'cut', leastMin: 61, mostMin: 60 })).toMatchObject({
    error: { code: 'SPAN_REVERSED' },
  });
  shop.write('bays.dropGap', { stage: 'cut' });
  expect((await shop.read('bays.setup', {})).gaps).toEqual([]);
});
