import { describe, expect, it } from 'vitest';
import { PLAIN_MANNER } from '#core/shared/text/manner.ts';
import { say } from '#core/shared/text/say.ts';
import type { EstimateView } from '#core/shared/views/estimate.ts';
import { priceWhy } from '../../renderer/features/estimate/evidence.ts';

type Price = Pick<EstimateView['price'], 'materialsMinor' | 'rule'>;
const USED = [{ material: 'finishingPolish', amount: 40_000 }];

const words: Parameters<typeof priceWhy>[1] = (key, values) => say('en', key, values);

/** What is said of a price whose stages use these materials. */
function said(price: Price, materials: readonly unknown[] = USED): string {
  const estimate = { price: { labourMinor: 36_000, chargedMin: 270, ...price }, stages: [{ materials }] };
  return String(priceWhy(estimate as never, words, PLAIN_MANNER).rule);
}

describe('what a price is made of', () => {
  it('shows the charged hours so that they can be multiplied by hand', () => {
    const price = { labourMinor: 59_330, chargedMin: 419, materialsMinor: 0, rule: 'mean' };
    const [first] = priceWhy({ price, stages: [] } as never, words, PLAIN_MANNER).inputs;
    // 419 minutes are 6.983 hours; 6.98 × 85.00 is 593.30, while 7.0 × 85.00 would be 595.00.
    expect(first?.label).toBe('6.98 h');
  });
  it('says which hours are charged by the shop’s rule', () => {
    expect(said({ materialsMinor: 900 as never, rule: 'mean' })).toContain('The mean of the likely hours');
    expect(said({ materialsMinor: 900 as never, rule: 'median' })).toContain(
      'The middle of the likely hours',
    );
  });
  it('says that materials have no price where some are used and nothing is asked for them', () => {
    const unpriced = 'have no price in Stock yet';
    expect(said({ materialsMinor: 0 as never, rule: 'mean' })).toContain(unpriced);
    expect(said({ materialsMinor: 900 as never, rule: 'mean' })).not.toContain(unpriced);
    expect(said({ materialsMinor: 0 as never, rule: 'mean' }, [])).not.toContain(unpriced);
  });
});
