import { describe, expect, it } from 'vitest';
import {
  isIntermittent,
  isSteady,
  leadQuantile,
  onOpenDays,
  shareNotBooked,
  usualUse,
} from '#core/stock/rules/demand.ts';
import { bandOf, project } from '#core/stock/rules/projection.ts';

describe('looking forward', () => {
  it('runs out on the day a booked job takes the last of it', () => {
    // 620 ml; jobs take 300, 300 and 540: the third one on day 5 finds nothing
    const booked = [0, 300, 300, 0, 0, 540, 0];
    const flat = new Array<number>(7).fill(0);
    const p = project({ onHand: 620, booked, usual: flat, usualVar: flat, arrivals: flat });
    expect(Array.from(p.mid)).toEqual([620, 320, 20, 20, 20, -520, -520]);
    expect(p.runOut).toBe(5);
    expect(bandOf(p).mid[5]).toBe(0);
  });
  it('never runs out of what nobody uses, nor when an order comes first', () => {
    const flat = [0, 0, 0];
    expect(
      project({ onHand: 0, booked: flat, usual: flat, usualVar: flat, arrivals: flat }).runOut,
    ).toBeNull();
    const p = project({ onHand: 5, booked: [0, 0, 9], usual: flat, usualVar: flat, arrivals: [0, 10, 0] });
    expect(p.runOut).toBeNull();
  });
  it('spreads the band by the variance of the usual use', () => {
    // variance 100 a day: after 4 days sd 20, P20 16.8 below the middle
    const usual = [0, 0, 0, 0];
    const p = project({ onHand: 100, booked: usual, usual, usualVar: [100, 100, 100, 100], arrivals: usual });
    expect(p.sd[3]).toBeCloseTo(20, 12);
    expect(bandOf(p).low[3]).toBe(83);
    expect(bandOf(p).high[3]).toBe(117);
  });
  it('adds only the part of the usual work that is not booked yet', () => {
    // 90 bookings, half a day before, half ten days before; 10 imagined ones behind
    const leads = [...new Array<number>(45).fill(1), ...new Array<number>(45).fill(10)];
    const share = shareNotBooked(leads, 20);
    expect(share[0]).toBe(0);
    expect(share[1]).toBeCloseTo((10 * (1 - Math.exp(-1 / 12))) / 100, 12);
    expect(share[2]).toBeCloseTo((45 + 10 * (1 - Math.exp(-2 / 12))) / 100, 12);
    expect(share[11]).toBeCloseTo((90 + 10 * (1 - Math.exp(-11 / 12))) / 100, 12);
  });
  it('takes the usual use by weekday', () => {
    // two weeks from a Monday: 10 each Monday, nothing else
    const use = [10, 0, 0, 0, 0, 0, 0, 20, 0, 0, 0, 0, 0, 0];
    const usual = usualUse(use, 0, new Uint8Array(14).fill(1));
    expect(usual.mean[0]).toBe(15);
    expect(usual.variance[0]).toBe(50);
    expect(usual.mean[3]).toBe(0);
    expect(usual.perDay).toBeCloseTo(30 / 14, 12);
    expect(isIntermittent(usual)).toBe(true);
  });
  it('does not call an item rare because the shop is shut at the weekend', () => {
    // four weeks from a Monday, used on every one of 20 working days: 28/20 would be 1.4 and above the cut-off 1.32
    const open = Uint8Array.from({ length: 28 }, (_, i) => (i % 7 < 5 ? 1 : 0));
    const use = Array.from(open, (works) => works * 10);
    const usual = usualUse(use, 0, open);
    expect(usual).toMatchObject({ openDays: 20, usedDays: 20, days: 28 });
    expect(isIntermittent(usual)).toBe(false);
    expect(usual.perDay).toBeCloseTo(200 / 28, 12);
    expect(isIntermittent(usualUse(use, 0, new Uint8Array(28).fill(1)))).toBe(true);
  });
  it('takes a weekday’s mean over the days that were open, and a closed day’s work as work', () => {
    // Mondays: 10, shut, 20; on a shut Sunday somebody used 6
    const use = [10, 0, 0, 0, 0, 0, 6, 0, 0, 0, 0, 0, 0, 0, 20];
    const open = [1, 1, 1, 1, 1, 0, 0, 0, 1, 1, 1, 1, 0, 0, 1];
    const usual = usualUse(use, 0, open);
    expect(usual.mean[0]).toBe(15);
    expect(usual.mean[6]).toBe(6);
    expect(usual.openDays).toBe(11);
    expect(Array.from(onOpenDays(use, open))).toEqual([10, 0, 0, 0, 0, 6, 0, 0, 0, 0, 20]);
  });
  it('takes use as a rate only after eight weeks and six days of use (common practice, no source)', () => {
    expect(isSteady({ days: 56, usedDays: 6 })).toBe(true);
    expect(isSteady({ days: 55, usedDays: 40 })).toBe(false);
    expect(isSteady({ days: 180, usedDays: 5 })).toBe(false);
  });
  it('finds the amount that so many lead times do not exceed', () => {
    expect(leadQuantile([2, 2, 2], 5, 0.95)).toBe(10);
    expect(leadQuantile([], 5, 0.95)).toBe(0);
    const q = leadQuantile([0, 0, 0, 0, 0, 0, 0, 0, 0, 10], 10, 0.9);
    // binomial(10, 0.1): P(≤ 1) = 0.736, P(≤ 2) = 0.930
    expect(q).toBe(20);
  });
});
