import { describe, expect, it } from 'vitest';
import { halfYear } from '../helpers/halfYear.ts';

const SEEDS = Array.from({ length: 20 }, (_, k) => k + 1);

describe('a year of stock over 50 items and 20 seeds, its second half held back', () => {
  it.each([0.98, 0.99, 0.995, 0.999])('serves %f within two percent, in each seed', (aim) => {
    const served = SEEDS.map((seed) => halfYear(seed, aim).served);
    for (const share of served) expect(Math.abs(share - aim)).toBeLessThan(0.02);
  });
});
