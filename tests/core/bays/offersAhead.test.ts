import { expect, test } from 'vitest';
import { memoryOf } from '#core/bays/commands/ahead.ts';
import { spareWork } from '#core/contract/spare.ts';
import type { JobId } from '#core/shared/ids.ts';
import { openTestShop } from '../../helpers/shop.ts';
import { type BayShop, openBayShop, USUAL } from './shop.ts';

async function book(shop: BayShop, jobId: JobId): Promise<void> {
  const view = await shop.read('bays.offers', { jobId });
  const { stays = [], pieces = [] } = view.offers[0]?.plan ?? {};
  const plan = {
    jobId,
    stays: [...stays],
    pieces: pieces.map((p) => ({ ...p, personIds: [...p.personIds] })),
  };
  shop.write('bays.bookOffer', { planRevision: view.planRevision, plan });
}

/** How many steps the spare work of a shop has. */
function spareSteps(shop: BayShop): number {
  let steps = 0;
  for (const _ of spareWork(shop.db, shop.now())) steps += 1;
  return steps;
}

test('the cars of the live board are played ahead once, and anew where hours differ or on another day', async () => {
  const shop = openBayShop();
  try {
    for (const who of ['Marit Vane', 'Odo Brandt', 'Lise Karn']) await book(shop, shop.job(who, USUAL));
    const asked = { jobId: shop.job('Nils Aro', USUAL) };
    const memory = memoryOf(shop.db);
    memory.others = null;
    const alone = await shop.read('bays.offers', asked);
    memory.others = null;
    const days = spareSteps(shop);
    expect(days).toBeGreaterThan(1);
    expect(memory).toMatchObject({ others: { stands: { length: days } } });
    expect(await shop.read('bays.offers', asked)).toEqual(alone);
    expect(spareSteps(shop)).toBe(0);
    const startMin = Math.floor(shop.now() / 60_000) + 3000;
    shop.write('bays.addAbsence', { personId: shop.ann, startMin, endMin: startMin + 1440, reason: 'ill' });
    expect(spareSteps(shop)).toBeGreaterThan(1);
    expect(spareSteps(shop)).toBe(0);
    shop.at(shop.now() + 24 * 3_600_000);
    expect(spareSteps(shop)).toBeGreaterThan(0);
  } finally {
    shop.breaksPlans();
    shop.close();
  }
});

test.each([
  ['before it is set up', true],
  ['before it has hours', false],
])('a shop has nothing that could be done ahead %s', (_, empty) => {
  const shop = openTestShop({ empty });
  try {
    expect([...spareWork(shop.db, shop.now())]).toEqual([]);
  } finally {
    shop.close();
  }
});
