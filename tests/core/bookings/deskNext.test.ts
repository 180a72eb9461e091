import { afterEach, describe, expect, it } from 'vitest';
import type { EpochMin, EpochMs } from '#core/shared/units.ts';
import { TEST_NOW } from '../../helpers/shop.ts';
import { type BayShop, openBayShop, USUAL } from '../bays/shop.ts';

const opened: BayShop[] = [];
afterEach(() => {
  for (const shop of opened.splice(0)) shop.close();
});
const HOUR = 3_600_000;
const at = (text: string) => Date.parse(text) as EpochMs;

/** A shop open from Monday to Saturday with one car that comes on Thursday morning. */
async function shopWithCar(): Promise<BayShop> {
  const shop = openBayShop();
  opened.push(shop);
  const jobId = shop.job('Marit Vane', USUAL.slice(0, 1));
  const notBeforeMin = ((TEST_NOW + 16 * HOUR) / 60_000) as EpochMin;
  const view = await shop.read('bays.offers', { jobId, notBeforeMin });
  const plan = view.offers[0]?.plan;
  if (!plan) throw new Error('no offer');
  const pieces = plan.pieces.map((p) => ({ ...p, personIds: [...p.personIds] }));
  shop.write('bays.bookOffer', {
    planRevision: view.planRevision,
    plan: { jobId, stays: [...plan.stays], pieces },
  });
  return shop;
}

describe('what comes next at the desk', () => {
  it('is not said while the day lasts, and names the cars of the next day once it is over', async () => {
    const shop = await shopWithCar();
    expect((await shop.read('bookings.desk', {})).next).toBeNull();
    shop.at(at('2026-11-25T20:00:00Z'));
    const { next } = await shop.read('bookings.desk', {});
    expect(next).toMatchObject({ day: '2026-11-26', arriving: [{ customer: 'Marit Vane' }] });
    expect(next?.goingHome.map((c) => c.customer)).toEqual(['Marit Vane']);
  });

  it('skips Sundays and days on which the shop is closed', async () => {
    const shop = await shopWithCar();
    shop.write('bays.addClosure', {
      fromDay: '2026-11-30' as never,
      toDay: '2026-11-30' as never,
      bayId: null,
      reason: '',
    });
    shop.at(at('2026-11-28T20:00:00Z'));
    expect((await shop.read('bookings.desk', {})).next).toMatchObject({ day: '2026-12-01', arriving: [] });
    shop.at(at('2026-11-29T10:00:00Z'));
    expect((await shop.read('bookings.desk', {})).next?.day).toBe('2026-12-01');
  });
});
