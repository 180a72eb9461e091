import { afterEach, describe, expect, test } from 'vitest';
import type { JobId, PersonId } from '#core/shared/ids.ts';
import type { EpochMin } from '#core/shared/units.ts';
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
async function booked(shop: BayShop, stages: readonly TestStage[] = USUAL) {
  const jobId = shop.job('Marit Vane', stages);
  const view = await shop.read('bays.offers', { jobId });
  const offer = view.offers[0];
  if (!offer) throw new Error('no offer');
  const pieces = offer.plan.pieces.map((p) => ({ ...p, personIds: [...p.personIds] }));
  const plan = { jobId, stays: [...offer.plan.stays], pieces };
  const { planRevision } = shop.write('bays.bookOffer', { planRevision: view.planRevision, plan });
  return { jobId, offer, planRevision };
}
const worked = (shop: BayShop, jobId: JobId) =>
  shop.db.raw
    .prepare(
      'SELECT person_id AS who, start_min AS s, end_min AS e FROM placement WHERE job_id = ? ORDER BY start_min',
    )
    .all(jobId) as { who: PersonId; s: number; e: number }[];

describe('splitting a stage', () => {
  test('gives the rest to somebody else from that minute; what is planned in all stays the same', async () => {
    const shop = open();
    const { jobId, offer, planRevision } = await booked(shop, USUAL.slice(0, 2));
    const cut = offer.plan.pieces[1];
    if (!cut) throw new Error('no cut');
    const other = cut.personIds[0] === shop.ann ? shop.ben : shop.ann;
    // Past the break at noon: nobody can take over in it.
    const atMin = (cut.startMin + 120) as EpochMin;
    shop.write('bays.split', { planRevision, jobId, stageId: cut.stageId, atMin, personId: other });
    expect(worked(shop, jobId).slice(1)).toEqual([
      { who: cut.personIds[0], s: cut.startMin, e: atMin },
      { who: other, s: atMin, e: cut.endMin },
    ]);
    expect(await shop.read('bays.faults', {})).toEqual([]);
  });

  test('asks nobody, also of a car that is late already: its times stay as they are', async () => {
    const shop = open();
    const { jobId, offer, planRevision } = await booked(shop, USUAL.slice(0, 2));
    const cut = offer.plan.pieces[1];
    if (!cut) throw new Error('no cut');
    const late = (cut.endMin - 60) as EpochMin;
    shop.db.raw.prepare('UPDATE job SET pick_up_min = ? WHERE id = ?').run(late, jobId);
    const other = cut.personIds[0] === shop.ann ? shop.ben : shop.ann;
    const wish = { jobId, stageId: cut.stageId, atMin: (cut.startMin + 120) as EpochMin, personId: other };
    const check = await shop.read('bays.checkChange', { kind: 'split', ...wish });
    expect(check).toMatchObject({ ok: true, needsConsent: [] });
    // Nobody can take over in the break at noon: that is refused, and minutes beside it are named.
    const refused = [];
    for (let atMin = cut.startMin + 15; atMin < cut.endMin; atMin += 15) {
      const at = { ...wish, kind: 'split', atMin: atMin as EpochMin } as const;
      const tried = await shop.read('bays.checkChange', at);
      if (!tried.ok) refused.push(tried.nearest.length);
    }
    expect(refused).not.toEqual([]);
    expect(refused).not.toContain(0);
    shop.write('bays.split', { planRevision, ...wish });
    expect(worked(shop, jobId).slice(1)).toHaveLength(2);
    const { p } = shop.db.raw.prepare('SELECT pick_up_min AS p FROM job WHERE id = ?').get(jobId) as {
      p: number;
    };
    expect(p).toBe(late);
  });

  test('is refused outside its work, and for a stage that may not be interrupted', async () => {
    const shop = open();
    const { jobId, offer, planRevision } = await booked(shop);
    const cut = offer.plan.pieces[1];
    if (!cut) throw new Error('no cut');
    const wish = { planRevision, jobId, stageId: cut.stageId };
    expect(() => shop.write('bays.split', { ...wish, atMin: (cut.endMin + 5) as EpochMin })).toThrow(
      'STAGE_CANNOT_SPLIT',
    );
    shop.db.raw.prepare('UPDATE job_stage SET splittable = 0 WHERE id = ?').run(cut.stageId);
    expect(() => shop.write('bays.split', { ...wish, atMin: (cut.startMin + 60) as EpochMin })).toThrow(
      'STAGE_CANNOT_SPLIT',
    );
  });

  test('is refused when the other person cannot do it, in words', async () => {
    const shop = open();
    const { jobId, offer, planRevision } = await booked(shop);
    const protect = offer.plan.pieces[2];
    if (!protect) throw new Error('no protection');
    const atMin = (protect.startMin + 20) as EpochMin;
    const wish = { planRevision, jobId, stageId: protect.stageId, atMin, personId: shop.ben };
    const reply = await shop.call('bays.split', wish);
    expect(reply).toMatchObject({
      ok: false,
      error: { code: 'PLAN_BREAKS_RULE', data: { rule: 'personSkill' } },
    });
  });
});

describe('consent', () => {
  test('moves what was agreed along with the plan, and the undo brings both back', async () => {
    const shop = open();
    const { jobId, offer, planRevision } = await booked(shop);
    const agreed = () =>
      shop.db.raw.prepare('SELECT drop_off_min d, pick_up_min p FROM job WHERE id = ?').get(jobId);
    const before = agreed();
    const protect = offer.plan.pieces[2];
    if (!protect) throw new Error('no protection');
    const startMin = (protect.startMin + 2 * 1440) as EpochMin;
    const wish = { jobId, stageIds: [protect.stageId], bayId: protect.bayId, startMin, planRevision };
    expect(() => shop.write('bays.move', wish)).toThrow('NEEDS_CONSENT');
    const moved = shop.write('bays.move', { ...wish, consent: true });
    expect(agreed()).not.toEqual(before);
    // The new pick-up has its own chance, as any promise has.
    const { promisedPpm, bold } = (await shop.read('bookings.job', { jobId })).promise;
    const [now] = await shop.read('bays.promises', { jobId });
    expect([promisedPpm, bold]).toEqual([now?.nowPpm, (now?.nowPpm ?? 0) < 800_000]);
    const plans = moved.undo.map((p) => ({
      ...p,
      stays: [...p.stays],
      pieces: p.pieces.map((x) => ({ ...x, personIds: [...x.personIds] })),
    }));
    shop.write('bays.restorePlans', { planRevision: moved.planRevision, plans });
    expect(agreed()).toEqual(before);
    expect(await shop.read('bays.faults', {})).toEqual([]);
  });
});

describe('a job that cannot be placed', () => {
  const long = Array.from({ length: 6 }, (_, i) => ({ weekday: i + 1, startMin: 480, endMin: 720 }));
  test.each([
    [
      'there is no bay for protect',
      (s: BayShop) =>
        void s.db.raw
          .prepare(
            "UPDATE bay SET started_day = '2026-11-01', ended_day = '2026-11-20' WHERE kind = 'protection'",
          )
          .run(),
    ],
    [
      'nobody who works here does protect',
      (s: BayShop) =>
        void s.write('bays.setTechnician', { personId: s.ann, skills: ['wash', 'correction'], shifts: long }),
    ],
    [
      'cut needs two people who can do it at the same time',
      (s: BayShop) => {
        s.db.raw.prepare("UPDATE job_stage SET crew = 2 WHERE kind = 'cut'").run();
        s.write('bays.setTechnician', { personId: s.ben, skills: ['wash'], shifts: long });
      },
    ],
    [
      'cut cannot be interrupted and is longer than any stretch of working time',
      (s: BayShop) => {
        s.db.raw.prepare("UPDATE job_stage SET splittable = 0 WHERE kind = 'cut'").run();
      },
    ],
  ])('is refused with the one rule that makes it impossible: %s', async (reason, break_) => {
    const shop = open();
    const jobId = shop.job('Marit Vane', USUAL);
    break_(shop);
    const reply = await shop.call('bays.offers', { jobId });
    expect(reply).toMatchObject({ ok: false, error: { code: 'NO_PLACE_FOR_JOB', data: { reason } } });
  });
});
