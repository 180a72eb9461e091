import { afterEach, describe, expect, test } from 'vitest';
import type { JobId } from '#core/shared/ids.ts';
import type { JobPlanView } from '#core/shared/views/plan.ts';
import { TEST_NOW } from '../../helpers/shop.ts';
import { type BayShop, openBayShop, USUAL } from './shop.ts';

const opened: BayShop[] = [];
const open = (options = {}): BayShop => {
  const shop = openBayShop(options);
  opened.push(shop);
  return shop;
};
afterEach(() => {
  for (const shop of opened.splice(0)) shop.close();
});

async function book(shop: BayShop, jobId: JobId, at = 0) {
  const view = await shop.read('bays.offers', { jobId });
  const offer = view.offers[at];
  if (!offer) throw new Error('no offer');
  const { stays, pieces } = offer.plan;
  const plan = {
    jobId,
    stays: [...stays],
    pieces: pieces.map((p) => ({ ...p, personIds: [...p.personIds] })),
  };
  return { offer, change: shop.write('bays.bookOffer', { planRevision: view.planRevision, plan }) };
}
function sent(plans: readonly JobPlanView[]) {
  return plans.map((p) => ({
    jobId: p.jobId,
    stays: [...p.stays],
    pieces: p.pieces.map((x) => ({ ...x, personIds: [...x.personIds] })),
  }));
}

describe('offers through the door', () => {
  test('three distinct offers, each promised at the shop’s level or later, in desk hours', async () => {
    const shop = open();
    const view = await shop.read('bays.offers', { jobId: shop.job('Marit Vane', USUAL) });
    expect(view.offers.length).toBeGreaterThanOrEqual(3);
    for (const o of view.offers) {
      expect(o.probabilityPpm).toBeGreaterThanOrEqual(800_000);
      expect(o.pickUpMin).toBeGreaterThan(o.dropOffMin);
      expect(o.p50Min).toBeLessThanOrEqual(o.p80Min);
    }
    expect(new Set(view.offers.map((o) => `${o.dropOffMin}/${o.pickUpMin}`)).size).toBe(view.offers.length);
  });

  test('a booked offer holds its places: the job is booked and the validator finds nothing', async () => {
    const shop = open();
    const jobId = shop.job('Marit Vane', USUAL);
    const { offer } = await book(shop, jobId);
    const row = shop.db.raw
      .prepare('SELECT state, drop_off_min d, pick_up_min p FROM job WHERE id = ?')
      .get(jobId);
    expect(row).toEqual({ state: 'booked', d: offer.dropOffMin, p: offer.pickUpMin });
    expect(await shop.read('bays.faults', {})).toEqual([]);
  });

  test('many cars one after the other make a plan without a fault, and the lanes add up to the minute', async () => {
    const shop = open();
    for (let i = 0; i < 12; i += 1) await book(shop, shop.job(`Customer ${i}`, USUAL), i % 3);
    expect(await shop.read('bays.faults', {})).toEqual([]);
    const board = await shop.read('bays.board', { fromDay: '2026-11-23', toDay: '2026-11-29' });
    for (const lane of board.lanes) {
      const { openMin, attendedMin, cureMin, standingMin, idleMin } = lane.use;
      expect(attendedMin + cureMin + standingMin + idleMin).toBe(openMin);
      expect(openMin).toBe(4 * 630); // Wed, when the bays began, to Sat, 7:30 to 18:00
    }
  });

  test('a car that is not here is asked for a slot from now at the soonest', async () => {
    const shop = open();
    const { offers } = await shop.read('bays.offers', { jobId: shop.job('Marit Vane', USUAL) });
    // Slots are half an hour apart, and now is one of them.
    expect(Math.min(...offers.map((o) => o.dropOffMin))).toBe(TEST_NOW / 60_000 + 30);
  });

  test('an offer computed before the board changed is refused', async () => {
    const shop = open();
    const [a, b] = [shop.job('Marit Vane', USUAL), shop.job('Dev Ostler', USUAL)];
    const view = await shop.read('bays.offers', { jobId: a });
    await book(shop, b);
    const plan = sent([view.offers[0]?.plan as JobPlanView])[0];
    expect(() =>
      shop.write('bays.bookOffer', { planRevision: view.planRevision, plan: plan as never }),
    ).toThrow('PLAN_CHANGED');
  });

  test('a job that needs a skill nobody has is refused with that reason', async () => {
    const shop = open();
    const jobId = shop.job('Marit Vane', [{ kind: 'interior', min: 60, bay: 'wash', skill: 'interior' }]);
    shop.write('bays.setTechnician', { personId: shop.ann, skills: ['wash'], shifts: [] });
    const reply = await shop.call('bays.offers', { jobId });
    expect(reply).toMatchObject({
      ok: false,
      error: { code: 'NO_PLACE_FOR_JOB', data: { stage: 'interior' } },
    });
  });
});

describe('the board of other days', () => {
  test('has its lanes and hours also past the days that are planned for, and one week shut if it is', async () => {
    const shop = open();
    shop.write('bays.addClosure', {
      fromDay: '2027-03-08',
      toDay: '2027-03-13',
      reason: 'works',
      bayId: null,
    });
    const weeks = [
      ['2026-11-23', '2026-11-28'],
      ['2027-03-01', '2027-03-06'],
      ['2027-03-08', '2027-03-13'],
    ] as const;
    const boards = await Promise.all(
      weeks.map(([fromDay, toDay]) => shop.read('bays.board', { fromDay, toDay })),
    );
    expect(boards.map((b) => [b.open.length, b.lanes.length])).toEqual([
      [6, 4],
      [6, 4],
      [0, 4],
    ]);
    expect(boards.map((b) => b.people.map((p) => p.shiftMin / 60))).toEqual([
      [51, 51],
      [51, 51],
      [0, 0],
    ]);
  });
});

describe('changing the plan', () => {
  test('a move onto another car is refused with the rule, and the nearest places really work', async () => {
    const shop = open();
    const [a, b] = [shop.job('Marit Vane', USUAL), shop.job('Dev Ostler', USUAL)];
    await book(shop, a);
    await book(shop, b);
    const board = await shop.read('bays.board', { fromDay: '2026-11-25', toDay: '2026-12-05' });
    const cut = (id: JobId) => board.blocks.find((x) => x.jobId === id)?.pieces.find((p) => p.kind === 'cut');
    const cutOf = (id: JobId) =>
      board.blocks.flatMap((x) => (x.jobId === id ? x.pieces : [])).find((p) => p.kind === 'cut') ?? cut(id);
    const [ca, cb] = [cutOf(a), cutOf(b)];
    if (!ca || !cb) throw new Error('no cut');
    const bayId = shop.bays[1] as never;
    const wish = { jobId: b, stageIds: [cb.stageId], bayId, startMin: ca.startMin };
    const checked = await shop.read('bays.checkMove', wish);
    expect(checked.ok).toBe(false);
    if (checked.ok) return;
    expect(() => shop.write('bays.move', { ...wish, planRevision: board.planRevision })).toThrow(
      'PLAN_BREAKS_RULE',
    );
    for (const near of checked.nearest) {
      const again = await shop.read('bays.checkMove', {
        ...wish,
        bayId: near.bayId,
        startMin: near.startMin,
      });
      expect(again.ok).toBe(true);
    }
  });

  test('a block tried in a bay that is not for it is shown elsewhere, never where it stands already', async () => {
    const shop = open();
    const jobId = shop.job('Marit Vane', USUAL);
    const { offer } = await book(shop, jobId);
    const tried = async (at: number) => {
      const piece = offer.plan.pieces.at(at);
      if (!piece) throw new Error('no work');
      const { stageId, startMin } = piece;
      const wish = { jobId, stageIds: [stageId], bayId: shop.bays[0] as never, startMin };
      const check = await shop.read('bays.checkMove', wish);
      expect(check).toMatchObject({ ok: false, fault: { rule: 'bayKind' } });
      return { piece, near: check.ok ? [] : check.nearest };
    };
    const { piece, near } = await tried(-1);
    expect(near.length).toBeGreaterThan(0);
    for (const n of near) expect([n.bayId, n.startMin]).not.toEqual([piece.bayId, piece.startMin]);
    // The cut stands between the work before and after it, which stay: alone it can go nowhere.
    expect((await tried(1)).near).toEqual([]);
  });

  test('a block moved a little later does not stand in its own way', async () => {
    const shop = open({ nowMs: TEST_NOW - 30 * 60_000 });
    const jobId = shop.job('Marit Vane', USUAL);
    const { offer } = await book(shop, jobId);
    const cut = offer.plan.pieces[1];
    if (!cut) throw new Error('no cut');
    const wish = { jobId, stageIds: [cut.stageId], bayId: cut.bayId };
    expect((await shop.read('bays.checkMove', { ...wish, startMin: cut.startMin + 10 })).ok).toBe(true);
    const tooSoon = await shop.read('bays.checkMove', { ...wish, startMin: cut.startMin - 5 });
    expect(tooSoon).toMatchObject({ ok: false, fault: { rule: 'tooSoonAfterArrival' } });
    expect(tooSoon.ok ? 0 : tooSoon.nearest.length).toBeGreaterThan(0);
  });

  test('a move and its undo leave the plan as it was', async () => {
    const shop = open();
    const jobId = shop.job('Marit Vane', USUAL);
    const { offer, change } = await book(shop, jobId);
    const protect = offer.plan.pieces.at(-1);
    if (!protect) throw new Error('no piece');
    const wish = {
      jobId,
      stageIds: [protect.stageId],
      bayId: protect.bayId,
      startMin: protect.startMin + 1440,
    };
    const rows = () =>
      shop.db.raw.prepare('SELECT bay_id, arrive_min, leave_min FROM stay ORDER BY arrive_min').all();
    const before = rows();
    const moved = shop.write('bays.move', { ...wish, planRevision: change.planRevision, consent: true });
    expect(rows()).not.toEqual(before);
    shop.write('bays.restorePlans', { planRevision: moved.planRevision, plans: sent(moved.undo) });
    expect(rows()).toEqual(before);
  });

  test('the database refuses two cars in one bay and one person at two cars, whoever writes', async () => {
    const shop = open();
    await book(shop, shop.job('Marit Vane', USUAL));
    const other = shop.job('Dev Ostler', USUAL);
    expect(() =>
      shop.db.raw
        .prepare(`INSERT INTO stay (job_id, bay_id, arrive_min, leave_min)
                  SELECT ?, bay_id, arrive_min, leave_min FROM stay LIMIT 1`)
        .run(other),
    ).toThrow('two cars in one bay');
    expect(() =>
      shop.db.raw
        .prepare(`INSERT INTO placement (job_id, stage_id, bay_id, person_id, start_min, end_min, dwell_end_min)
                  SELECT ?, stage_id, bay_id, person_id, start_min, end_min, dwell_end_min FROM placement LIMIT 1`)
        .run(other),
    ).toThrow('one person at two cars');
  });

  test('a swap and a three-way cycle of whole plans apply in one go', async () => {
    const shop = open();
    const one = [{ kind: 'wash', min: 60, bay: 'wash', skill: 'wash' }] as const;
    const ids = ['Marit Vane', 'Dev Ostler', 'Ines Brisk'].map((who) => shop.job(who, one));
    for (const id of ids) await book(shop, id);
    const plans = new Map<JobId, JobPlanView>();
    const board = await shop.read('bays.board', { fromDay: '2026-11-25', toDay: '2026-12-05' });
    for (const id of ids) {
      const blocks = board.blocks.filter((b) => b.jobId === id);
      plans.set(id, {
        jobId: id,
        stays: blocks.map(({ bayId, arriveMin, leaveMin }) => ({ bayId, arriveMin, leaveMin })),
        pieces: blocks.flatMap((b) =>
          b.pieces.map(({ stageId, personIds, startMin, endMin, dwellEndMin }) => ({
            ...{ stageId, bayId: b.bayId, personIds, startMin, endMin, dwellEndMin },
          })),
        ),
      });
    }
    const turned = (by: number, count: number) =>
      ids.slice(0, count).map((id, i) => {
        const own = plans.get(id) as JobPlanView;
        const from = plans.get(ids[(i + by) % count] as JobId) as JobPlanView;
        const pieces = from.pieces.map((p) => ({ ...p, stageId: own.pieces[0]?.stageId as never }));
        return { jobId: id, stays: from.stays, pieces };
      });
    let planRevision = board.planRevision;
    for (const count of [2, 3]) {
      const back = sent(ids.map((id) => plans.get(id) as JobPlanView));
      const change = shop.write('bays.restorePlans', { planRevision, plans: sent(turned(1, count)) });
      planRevision = shop.write('bays.restorePlans', {
        planRevision: change.planRevision,
        plans: back,
      }).planRevision;
    }
    expect(await shop.read('bays.faults', {})).toEqual([]);
  });
});
