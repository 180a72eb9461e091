import { afterEach, beforeEach, expect, it } from 'vitest';
import type { StagePlan } from '#core/shared/stagePlan.ts';
import { jobWith, planned } from '#tests/helpers/bookedJob.ts';
import { openTestShop, type TestShop } from '#tests/helpers/shop.ts';

let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
});
afterEach(() => shop.close());

const COMPOUND = { material: 'mediumCompound', amount: 40_000 } as const;
const WIPE = { material: 'panelWipe', amount: 12_000 } as const;
const clay: StagePlan = planned('clay');
const cut: StagePlan = { ...planned('cut'), materials: [COMPOUND, WIPE] };

const kept = (jobId: string): unknown =>
  shop.db.raw
    .prepare(
      `SELECT s.id, s.seq, s.kind, s.state, s.p50_min, s.mu, s.panels, s.bay_kinds, s.revision,
         (SELECT json_group_array(json_array(material, amount)) FROM job_material WHERE stage_id = s.id) AS uses
       FROM job_stage s WHERE s.job_id = ? ORDER BY s.seq`,
    )
    .all(jobId);

/** A job planned as clay and cut, then agreed to as said: whether any stage was written again. */
function agreed(stages: readonly StagePlan[]): boolean {
  const { jobId } = jobWith(shop, []);
  shop.write('bookings.setStages', { jobId, basis: 'inspected', stages: [clay, cut] });
  const before = kept(jobId);
  shop.write('bookings.setStages', { jobId, basis: 'agreed', stages: [...stages] });
  expect(shop.db.raw.prepare('SELECT plan_basis FROM job WHERE id = ?').pluck().get(jobId)).toBe('agreed');
  return JSON.stringify(kept(jobId)) !== JSON.stringify(before);
}

it('an agreement to what is planned already leaves every stage as it is', () => {
  expect(agreed([clay, cut])).toBe(false);
  expect(agreed([clay, { ...cut, materials: [WIPE, COMPOUND] }])).toBe(false);
});

it('any other figure, material, order or stage is written', () => {
  expect(agreed([clay, { ...cut, mu: cut.mu + 1e-12 }])).toBe(true);
  expect(agreed([clay, { ...cut, note: 'by hand' }])).toBe(true);
  expect(agreed([clay, { ...cut, panels: ['bo'] }])).toBe(true);
  expect(agreed([clay, { ...cut, splittable: !cut.splittable }])).toBe(true);
  expect(agreed([clay, { ...cut, materials: [{ ...COMPOUND, amount: 40_001 }, WIPE] }])).toBe(true);
  expect(agreed([clay, { ...cut, materials: [COMPOUND] }])).toBe(true);
  expect(agreed([cut, clay])).toBe(true);
  expect(agreed([clay])).toBe(true);
  expect(agreed([clay, cut, planned('refine')])).toBe(true);
});
