import { describe, expect, it } from 'vitest';
import { halfYear } from '../../../helpers/halfYear.ts';

/**
 * From the lowest to the highest share that a shop can aim at. Most use is booked ahead and lots last weeks: an order
 * that goes out only when nothing is left serves 95 %, one with nothing kept back 99.7 %.
 */
describe('a year of stock, its second half held back', () => {
  it('serves what is aimed at within two percent, and more of it for more money', () => {
    const aims = [0.98, 0.995, 0.999];
    const halves = aims.map((aim) => halfYear(1, aim));
    halves.forEach(({ served }, k) => {
      expect(Math.abs(served - (aims[k] ?? 0))).toBeLessThan(0.02);
    });
    for (let k = 1; k < halves.length; k += 1) {
      expect(halves[k]?.served).toBeGreaterThan(halves[k - 1]?.served ?? 1);
      expect(halves[k]?.costMinor).toBeGreaterThan(halves[k - 1]?.costMinor ?? 0);
    }
    // the ends are not just some share near all: what is short at 98 % is many times what is short at 99.9 %
    expect(1 - (halves[0]?.served ?? 1)).toBeGreaterThan(0.0085);
    expect(1 - (halves[2]?.served ?? 0)).toBeLessThan(0.0015);
  });
  it('lets no shelf stay empty however low the aim: an order goes out once nothing is left', () => {
    expect(halfYear(1, 0).served).toBeGreaterThan(0.93);
  });
});
