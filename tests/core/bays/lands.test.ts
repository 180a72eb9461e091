import { afterEach, describe, expect, test } from 'vitest';
import { next } from '#core/bays/rules/calendar.ts';
import { agreedBy, landsAt } from '#core/bays/rules/lands.ts';
import type { JobPlan } from '#core/bays/rules/model.ts';
import { checkMove } from '#core/bays/rules/move.ts';
import { nearestPlaces } from '#core/bays/rules/nearest.ts';
import type { BayId, JobId, PersonId, StageId } from '#core/shared/ids.ts';
import { PLAIN_MANNER } from '#core/shared/text/manner.ts';
import { ruleSentence } from '#core/shared/text/planRule.ts';
import { say } from '#core/shared/text/say.ts';
import type { EpochMin } from '#core/shared/units.ts';
import type { PlanFault } from '#core/shared/views/plan.ts';
import { filled } from '../../bench/bays.ts';
import { TEST_NOW } from '../../helpers/shop.ts';
import { board, job, person, place, plansOf, stage, standing } from './boards.ts';
import { type BayShop, openBayShop, USUAL } from './shop.ts';

const opened: BayShop[] = [];
afterEach(() => {
  for (const shop of opened.splice(0)) shop.close();
});

async function book(shop: BayShop, jobId: JobId) {
  const { planRevision, offers } = await shop.read('bays.offers', { jobId });
  const plan = offers[0]?.plan;
  if (!plan) throw new Error('no offer');
  const pieces = plan.pieces.map((p) => ({ ...p, personIds: [...p.personIds] }));
  shop.write('bays.bookOffer', { planRevision, plan: { ...plan, stays: [...plan.stays], pieces } });
  return plan;
}

async function twoCars() {
  const shop = openBayShop();
  opened.push(shop);
  const ids = [shop.job('Marit Vane', USUAL), shop.job('Dev Ostler', USUAL)];
  const offers = [];
  for (const jobId of ids) offers.push(await book(shop, jobId));
  const revision = () => Number(shop.db.raw.prepare('SELECT revision FROM plan_state').pluck().get());
  return { shop, ids: ids as [JobId, JobId], offers, revision };
}
const placed = (shop: BayShop, jobId: JobId, stageIds: readonly string[]) => {
  const rows = shop.db.raw
    .prepare('SELECT stage_id AS id, start_min AS s, dwell_end_min AS e FROM placement WHERE job_id = ?')
    .all(jobId) as { id: string; s: number; e: number }[];
  const own = rows.filter((r) => stageIds.includes(r.id));
  return { startMin: Math.min(...own.map((r) => r.s)), endMin: Math.max(...own.map((r) => r.e)) };
};

const saidOf = (faults: readonly PlanFault[]) => {
  const manner = { ...PLAIN_MANNER, zone: 'Europe/Vienna' };
  return faults.map((f) => ruleSentence((k, v) => say('en', k, v), manner, f, TEST_NOW));
};
const toldBy = (faults: readonly PlanFault[]) =>
  faults.map((f) => ({
    jobId: f.jobId,
    rule: f.rule as 'promiseMissed',
    newMin: Number(f.words['newMin']) as EpochMin,
  }));
const pickUpOf = (shop: BayShop, jobId: JobId) =>
  shop.db.raw.prepare('SELECT pick_up_min FROM job WHERE id = ?').pluck().get(jobId);

describe('where a block would land', () => {
  test('is said with where it ends, and is what is done when the move is made', async () => {
    const { shop, ids, offers, revision } = await twoCars();
    const [, jobId] = ids;
    const last = offers[1]?.pieces.at(-1);
    if (!last) throw new Error('no work');
    let [apart, asked] = [0, 0];
    for (const later of [30, 150, 600, 1445]) {
      const startMin = (last.startMin + later) as EpochMin;
      const wish = { jobId, stageIds: [last.stageId], bayId: last.bayId, startMin };
      const check = await shop.read('bays.checkMove', wish);
      if (!check.ok) continue;
      const told = toldBy(check.needsConsent);
      const move = { ...wish, planRevision: revision(), consent: true };
      // Told another minute, nobody agreed to this one.
      const other = told.map((one) => ({ ...one, newMin: (one.newMin + 15) as EpochMin }));
      if (other.length > 0) {
        const reply = await shop.call('bays.move', { ...move, told: other });
        expect(reply).toMatchObject({ ok: false, error: { code: 'PLAN_CHANGED' } });
        asked += 1;
      }
      const change = shop.write('bays.move', { ...move, told });
      expect(placed(shop, jobId, wish.stageIds)).toEqual(check.lands);
      const promised = told.find((one) => one.rule === 'promiseMissed')?.newMin;
      if (promised) expect(pickUpOf(shop, jobId)).toBe(promised);
      if (check.lands.startMin !== startMin) apart += 1;
      const plans = change.undo.map((p) => ({
        ...p,
        stays: [...p.stays],
        pieces: p.pieces.map((x) => ({ ...x, personIds: [...x.personIds] })),
      }));
      shop.write('bays.restorePlans', { planRevision: change.planRevision, plans });
    }
    // After hours the block cannot begin where it was dropped: the answer says where it would.
    expect(apart).toBeGreaterThan(0);
    expect(asked).toBeGreaterThan(0);
  });

  test('near places begin where they say and end when they say', async () => {
    const { shop, ids, offers } = await twoCars();
    const [, jobId] = ids;
    const last = offers[1]?.pieces.at(-1);
    if (!last) throw new Error('no work');
    const wish = { jobId, stageIds: [last.stageId], bayId: shop.bays[0] as never, startMin: last.startMin };
    const check = await shop.read('bays.checkMove', wish);
    const nearest = check.ok ? [] : check.nearest;
    expect(nearest.length).toBeGreaterThan(0);
    for (const { bayId, startMin, lands, asks } of nearest) {
      const taken = await shop.read('bays.checkMove', { ...wish, bayId, startMin });
      expect(taken).toMatchObject({ ok: true, lands });
      expect(taken.ok && taken.needsConsent.length > 0).toBe(asks);
      expect(lands.startMin - startMin).toBeLessThan(60);
    }
  });

  test('where the block alone can go nowhere, the whole job is named only with places where it really goes', async () => {
    const { shop, ids, offers, revision } = await twoCars();
    const [jobId] = ids;
    const cut = offers[0]?.pieces[1];
    if (!cut) throw new Error('no cut');
    const wish = { jobId, stageIds: [cut.stageId], bayId: shop.bays[0] as never, startMin: cut.startMin };
    const check = await shop.read('bays.checkMove', wish);
    if (check.ok) throw new Error('may stand there');
    expect(check.nearest).toEqual([]);
    expect(check.whole.length).toBeGreaterThan(0);
    const all = (offers[0]?.pieces ?? []).map((p) => p.stageId);
    for (const { bayId, startMin, lands, asks } of check.whole) {
      const taken = await shop.read('bays.checkMove', { ...wish, bayId, startMin, whole: true });
      expect(taken).toMatchObject({ ok: true, lands });
      expect(taken.ok && taken.needsConsent.length > 0).toBe(asks);
    }
    const [first] = check.whole;
    if (!first) return;
    const { bayId, startMin } = first;
    const planRevision = revision();
    shop.write('bays.move', { ...wish, bayId, startMin, whole: true, planRevision, consent: true });
    expect(placed(shop, jobId, all).endMin).toBe(first.lands.endMin);
    expect(placed(shop, jobId, [cut.stageId]).startMin).toBe(first.lands.startMin);
  });
});

describe('the nearest place', () => {
  test('is the nearest that breaks no rule: nothing nearer in its bay was passed over', () => {
    const b = filled(4, 4, 20, 10);
    let compared = 0;
    for (const given of b.jobs.values()) {
      // Promised nothing, it may be moved later without asking anybody.
      const j = { ...given, promiseMin: null };
      const plan = b.plans.get(j.id);
      const piece = plan?.pieces.at(-1);
      if (!plan || !piece) continue;
      const startMin = piece.startMin + (compared % 2 === 0 ? -720 : 600);
      const wish = { stageIds: [piece.stageId], bayId: piece.bayId, startMin, personId: null };
      for (const near of nearestPlaces(b, j, plan, wish).filter((n) => !n.asks)) {
        const off = Math.abs(near.startMin - wish.startMin);
        for (let by = 0; by < Math.min(off, 480); by += 15)
          for (const startMin of [wish.startMin - by, wish.startMin + by]) {
            if (next(b.open, startMin) !== startMin) continue;
            const tried = checkMove(b, j, plan, { ...wish, bayId: near.bayId, startMin });
            const lands = tried.ok && tried.consent.length === 0 && landsAt(tried.plan, wish.stageIds);
            const same = tried.ok && JSON.stringify(tried.plan.pieces) === JSON.stringify(plan.pieces);
            expect(lands && !same && lands.startMin < startMin + 15).toBe(false);
            compared += 1;
          }
      }
    }
    expect(compared).toBeGreaterThan(100);
  });

  test('is none days back where the block lies: near a far drop one that somebody has to agree to is named first', () => {
    const j = job('j', [stage('s', 60)], { promiseMin: 1500 });
    const piece = { stageId: 's' as StageId, bayId: 'c' as BayId, personIds: ['ann' as PersonId] };
    const plan: JobPlan = {
      jobId: j.id,
      stays: [{ bayId: piece.bayId, arriveMin: 1000, leaveMin: 1060 }],
      pieces: [{ ...piece, startMin: 1000, endMin: 1060, dwellEndMin: 1060 }],
    };
    const b = board({
      places: [place('c', 'correction')],
      technicians: [person('ann')],
      horizonMin: 20_000,
      jobs: new Map([[j.id, j]]),
      plans: plansOf([plan, standing('k', 'c', 5000, 5600)]),
    });
    const near = (startMin: number) =>
      nearestPlaces(b, j, plan, { ...piece, stageIds: [piece.stageId], startMin, personId: null });
    expect(near(5100)).toMatchObject([{ startMin: 4935, asks: true }]);
    // Nothing has to be agreed to near a drop that is near: 480 minutes off at most.
    expect(near(900)).toMatchObject([{ startMin: 900, asks: false }]);
    // Where nothing else would do, back is better than nowhere.
    const full = { ...b, plans: plansOf([plan, standing('k', 'c', 1600, 19_000)]) };
    const back = nearestPlaces(full, j, plan, {
      ...piece,
      stageIds: [piece.stageId],
      startMin: 5100,
      personId: null,
    });
    expect(back).toMatchObject([{ asks: false }]);
  });
});

describe('the question for consent', () => {
  test('says how sure the new promise is where it is less sure than the shop promises, and only there', async () => {
    const { shop, ids, offers, revision } = await twoCars();
    // It is done by day, and promised for when it is planned to be; a cure ends in the night before.
    const short = shop.job('Una Kestrel', USUAL.slice(0, 2));
    const plan = await book(shop, short);
    const seen = { bold: 0, sure: 0 };
    for (const [jobId, last] of [
      [ids[1], offers[1]?.pieces.at(-1)],
      [short, plan.pieces.at(-1)],
    ] as const) {
      if (!last) throw new Error('no work');
      const startMin = (last.startMin + 1440) as EpochMin;
      const wish = { jobId, stageIds: [last.stageId], bayId: last.bayId, startMin };
      const check = await shop.read('bays.checkMove', wish);
      const question = check.ok ? check.needsConsent.find((f) => f.rule === 'promiseMissed') : undefined;
      if (!question) throw new Error('nobody is asked');
      const sure = question.words['sure'];
      expect(saidOf([question]).join().includes(`which is only ${sure} % sure`)).toBe(sure !== undefined);
      shop.write('bays.move', { ...wish, planRevision: revision(), consent: true });
      const promise = shop.db.raw.prepare('SELECT promise_ppm AS ppm, bold FROM job WHERE id = ?').get(jobId);
      const { ppm, bold } = promise as { ppm: number; bold: number };
      expect(sure).toBe(bold === 1 ? Math.floor(ppm / 10_000) : undefined);
      seen[bold === 1 ? 'bold' : 'sure'] += 1;
    }
    expect(seen).toEqual({ bold: 1, sure: 1 });
  });

  test('names the times that will be agreed: those are in the file once they agree', async () => {
    const { shop, ids, offers, revision } = await twoCars();
    const [jobId] = ids;
    const wash = offers[0]?.pieces[0];
    if (!wash) throw new Error('no wash');
    const startMin = (wash.startMin + 7 * 1440) as EpochMin;
    const wish = { jobId, stageIds: [wash.stageId], bayId: wash.bayId, startMin, whole: true };
    const check = await shop.read('bays.checkMove', wish);
    if (!check.ok) throw new Error('may not go there');
    const asked = new Map(check.needsConsent.map((f) => [f.rule, f]));
    shop.write('bays.move', { ...wish, planRevision: revision(), consent: true });
    const now = shop.db.raw.prepare('SELECT drop_off_min AS d, pick_up_min AS p FROM job WHERE id = ?');
    const { d, p } = now.get(jobId) as { d: number; p: number };
    expect(asked.get('dropOffMoved')?.words['newMin']).toBe(d);
    expect(asked.get('promiseMissed')?.words['newMin']).toBe(p);
    expect(saidOf(check.needsConsent)).toMatchInlineSnapshot(`
      [
        "Marit Vane was told to come Wed 10:30 and would have to come Wed 2 Dec 10:30 instead; another time needs their consent.",
        "Marit Vane was promised the car for Fri 08:00. It would be ready Thu 3 Dec 21:30 and promised for Fri 4 Dec 08:00 instead; later needs their consent.",
      ]
    `);
  });

  test('leaves a drop-off that was, and a promise that is kept', () => {
    const was = { dropOffMin: 100, pickUpMin: 900 };
    const plan = { arriveMin: 130, leaveMin: 1200, readyMin: 901 };
    expect(agreedBy(was, plan, true)).toEqual({ dropOffMin: 130, pickUpMin: 1200 });
    expect(agreedBy(was, { ...plan, readyMin: 900 }, false)).toEqual(was);
  });
});
