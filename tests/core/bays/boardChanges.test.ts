import { afterEach, describe, expect, test } from 'vitest';
import type { JobId } from '#core/shared/ids.ts';
import type { EpochMin } from '#core/shared/units.ts';
import type { OfferView } from '#core/shared/views/offers.ts';
import type { JobPlanView } from '#core/shared/views/plan.ts';
import { type BayShop, openBayShop, type TestStage, USUAL } from './shop.ts';

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

async function booked(shop: BayShop, who = 'Marit Vane', stages: readonly TestStage[] = USUAL.slice(0, 2)) {
  const jobId = shop.job(who, stages);
  const view = await shop.read('bays.offers', { jobId });
  const offer = view.offers[0];
  if (!offer) throw new Error('no offer');
  const { planRevision } = shop.write('bays.bookOffer', {
    planRevision: view.planRevision,
    plan: sent(offer),
  });
  return { jobId, offer, planRevision };
}
const plain = (plan: JobPlanView) => ({
  ...plan,
  stays: [...plan.stays],
  pieces: plan.pieces.map((p) => ({ ...p, personIds: [...p.personIds] })),
});
const sent = (offer: OfferView) => plain(offer.plan);
const pieces = (shop: BayShop, jobId: JobId) =>
  shop.db.raw
    .prepare(
      'SELECT stage_id AS id, bay_id AS bay, start_min AS s, end_min AS e FROM placement WHERE job_id = ? ORDER BY s',
    )
    .all(jobId) as { id: string; bay: string; s: number; e: number }[];
const dropOff = (shop: BayShop, jobId: JobId) =>
  (shop.db.raw.prepare('SELECT drop_off_min AS at FROM job WHERE id = ?').get(jobId) as { at: number }).at;

describe('a whole job moved', () => {
  test('takes every stage along by the same time, asks about the drop-off, and comes back whole', async () => {
    const shop = open();
    const { jobId, offer, planRevision } = await booked(shop);
    const [wash, cut] = offer.plan.pieces;
    if (!wash || !cut) throw new Error('no work');
    const [before, came] = [pieces(shop, jobId), dropOff(shop, jobId)];
    const startMin = (cut.startMin + DAY) as EpochMin;
    const wish = { jobId, stageIds: [cut.stageId], bayId: cut.bayId, startMin, whole: true };
    const check = await shop.read('bays.checkMove', wish);
    expect(check).toMatchObject({ ok: true });
    expect(check.ok && check.needsConsent.map((f) => f.rule)).toContain('dropOffMoved');
    expect(() => shop.write('bays.move', { ...wish, planRevision })).toThrow('NEEDS_CONSENT');
    const moved = shop.write('bays.move', { ...wish, planRevision, consent: true });
    expect(pieces(shop, jobId).map((p) => p.s)).toEqual(before.map((p) => p.s + DAY));
    expect(dropOff(shop, jobId)).toBe(came + DAY);
    expect(await shop.read('bays.faults', {})).toEqual([]);
    shop.write('bays.restorePlans', { planRevision: moved.planRevision, plans: moved.undo.map(plain) });
    expect([pieces(shop, jobId), dropOff(shop, jobId)]).toEqual([before, came]);
  });

  test('the block alone leaves the rest where it was', async () => {
    const shop = open();
    const { jobId, offer, planRevision } = await booked(shop);
    const cut = offer.plan.pieces[1];
    if (!cut) throw new Error('no cut');
    const startMin = (cut.startMin + DAY) as EpochMin;
    const wish = { jobId, stageIds: [cut.stageId], bayId: cut.bayId, startMin };
    shop.write('bays.move', { ...wish, planRevision, consent: true });
    expect(pieces(shop, jobId)[0]?.s).toBe(offer.plan.pieces[0]?.startMin);
  });
});

describe('the end of a stage drawn', () => {
  test('later holds the people longer; earlier than the work needs is refused with the nearest end that would do', async () => {
    const shop = open();
    const { jobId, offer, planRevision } = await booked(shop);
    const cut = offer.plan.pieces[1];
    if (!cut) throw new Error('no cut');
    const stage = { jobId, stageId: cut.stageId };
    const short = { ...stage, kind: 'resize' as const, endMin: (cut.endMin - 30) as EpochMin };
    const check = await shop.read('bays.checkChange', short);
    expect(check).toMatchObject({ ok: false, fault: { rule: 'labourShort' } });
    expect(check.ok || check.nearest.map((n) => n.startMin)).toEqual([cut.endMin]);
    expect(() => shop.write('bays.resize', { ...stage, endMin: short.endMin, planRevision })).toThrow(
      'PLAN_BREAKS_RULE',
    );
    const endMin = (cut.endMin + 15) as EpochMin;
    const late = await shop.read('bays.checkChange', { ...stage, kind: 'resize', endMin });
    expect(late.ok).toBe(true);
    const moved = shop.write('bays.resize', { ...stage, endMin, planRevision, consent: true });
    expect(pieces(shop, jobId)[1]?.e).toBe(endMin);
    shop.write('bays.restorePlans', { planRevision: moved.planRevision, plans: moved.undo.map(plain) });
    expect(pieces(shop, jobId)[1]?.e).toBe(cut.endMin);
  });
});

describe('a swap tried before it is made', () => {
  test('says beforehand what the swap itself says, and leaves the plan alone', async () => {
    const shop = open();
    const one = await booked(shop);
    const two = await booked(shop, 'Dev Ostler');
    const blockOf = (of: typeof one) => ({
      jobId: of.jobId,
      stageIds: [of.offer.plan.pieces[1]?.stageId as never],
    });
    const before = [pieces(shop, one.jobId), pieces(shop, two.jobId)];
    const ask = { a: blockOf(one), b: blockOf(two) };
    const check = await shop.read('bays.checkChange', { kind: 'swap', ...ask });
    expect([pieces(shop, one.jobId), pieces(shop, two.jobId)]).toEqual(before);
    const reply = await shop.call('bays.swap', { ...ask, planRevision: two.planRevision, consent: true });
    expect(reply.ok).toBe(check.ok);
    if (!check.ok) expect(reply).toMatchObject({ error: { data: { rule: check.fault.rule } } });
  });
});

describe('a split tried before it is made', () => {
  test('names the rule that the other person would break', async () => {
    const shop = open();
    const { jobId, offer } = await booked(shop, 'Marit Vane', USUAL);
    const protect = offer.plan.pieces[2];
    if (!protect) throw new Error('no protection');
    const atMin = (protect.startMin + 20) as EpochMin;
    const ask = { kind: 'split' as const, jobId, stageId: protect.stageId, atMin };
    expect((await shop.read('bays.checkChange', ask)).ok).toBe(true);
    expect(await shop.read('bays.checkChange', { ...ask, personId: shop.ben })).toMatchObject({
      ok: false,
      fault: { rule: 'personSkill' },
    });
  });
});
