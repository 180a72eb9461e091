import { afterEach, beforeEach, expect, test } from 'vitest';
import { type BayShop, openBayShop, USUAL } from './shop.ts';

let shop: BayShop;
beforeEach(() => {
  shop = openBayShop();
});
afterEach(() => shop.close());

/** A promise of the desk's own for a minute, as it is asked of the first offer. */
async function promised(fromEndMin: (endMin: number) => number) {
  const jobId = shop.job('Marit Vane', USUAL.slice(0, 2));
  const { planRevision, offers } = await shop.read('bays.offers', { jobId });
  const [offer] = offers;
  if (!offer) throw new Error('no offer');
  const { stays } = offer.plan;
  const pieces = offer.plan.pieces.map((p) => ({ ...p, personIds: [...p.personIds] }));
  const plan = { jobId, stays: [...stays], pieces };
  const pickUpMin = fromEndMin(offer.pickUpMin);
  return shop.call('bays.bookOffer', { planRevision, plan, pickUpMin });
}
/** Midnight before a minute, in a zone an hour ahead of the clock. */
const midnight = (min: number): number => Math.floor((min + 60) / 1440) * 1440 - 60;

test('a promise for hours in which the desk is closed is refused with that rule', async () => {
  expect(await promised((end) => midnight(end) + 1440 + 180)).toMatchObject({
    ok: false,
    error: { code: 'PLAN_BREAKS_RULE', data: { rule: 'pickUpClosed' } },
  });
});

test('a bolder one in desk hours is kept', async () => {
  expect(await promised((end) => end - 60)).toMatchObject({ ok: true });
});
