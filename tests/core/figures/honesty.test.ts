import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { honestyOf, pinballLoss } from '#core/figures/rules/honesty.ts';
import { normal, seeded } from '#core/shared/random.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';
import { lookBackDay } from './lookBackDay.ts';

/** Quantile 0.8 and the distribution function of the standard normal there less 0.3. @source NIST/SEMATECH e-Handbook, 1.3.6.7.1 */
const Z80 = 0.8416;
const PHI_054 = 0.7059; // Φ(0.5416), between Φ(0.54) = 0.70540 and Φ(0.55) = 0.70884
const SIGMA = 0.3;
const MIDDLE = 120;

/** Stages whose truth is known: lognormal with a middle of two hours, said with the true P80 times `factor`. */
function history(factor: number): readonly { p50Min: number; p80Min: number; actualMin: number }[] {
  const random = seeded(8);
  const p80Min = MIDDLE * Math.exp(SIGMA * Z80) * factor;
  return Array.from({ length: 20_000 }, () => ({
    p50Min: MIDDLE,
    p80Min,
    actualMin: MIDDLE * Math.exp(SIGMA * normal(random)),
  }));
}

describe('the honesty of a range on history with a known truth', () => {
  it('keeps eight in ten where the range is the true one, within the chance of so many stages', () => {
    const { stages, within } = honestyOf(history(1));
    // Three standard errors of a share of 0.8: 3 · √(0.8 · 0.2 / 20,000) = 0.0085
    expect(Math.abs(within / stages - 0.8)).toBeLessThan(0.0085);
  });

  it('costs least by pinball loss where the range is the true one, and what theory says', () => {
    const loss = (factor: number): number => honestyOf(history(factor)).lossMin;
    for (const wrong of [0.8, 0.9, 1.1, 1.25]) expect(loss(wrong)).toBeGreaterThan(loss(1));
    // At the true quantile of a lognormal the mean loss is E[Y]·(τ − Φ(z − σ)), from E[Y; Y ≤ q] = E[Y]·Φ(z − σ).
    const theory = MIDDLE * Math.exp(SIGMA ** 2 / 2) * (0.8 - PHI_054);
    expect(Math.abs(loss(1) / theory - 1)).toBeLessThan(0.02);
  });

  it('weighs a minute over four times a minute under', () => {
    expect([pinballLoss(0.8, 100, 110), pinballLoss(0.8, 100, 90), pinballLoss(0.8, 100, 100)]).toEqual([
      8, 1.9999999999999996, 0,
    ]);
  });
});

describe('a stage that was far off', () => {
  let shop: TestShop;
  beforeEach(() => {
    shop = openTestShop();
    lookBackDay(shop);
  });
  afterEach(() => shop.close());

  it('is told with its notes, what was set aside, and how its time was recorded', async () => {
    const who = shop.people.technician;
    const at = Date.parse('2026-11-25T12:00Z');
    shop.db.raw.exec(`
      INSERT INTO stage_note VALUES ('n', 's', ${at}, '${who}', 'Paint came off the pad in lumps');
      INSERT INTO job_override VALUES ('o', '${'j'.repeat(20)}', 's', 'clayBeforeMachine', '[]', '${shop.people.owner}', 'No time to clay', ${at});
      UPDATE stage_work SET corrected = 1;
      INSERT INTO stage_work (stage_id,person_id,start_ms,end_ms) VALUES ('s','${shop.people.desk}',${at},${at + 600_000});`);
    const day = { fromDay: '2026-11-25', toDay: '2026-11-25' };
    const view = await shop.read('figures.honesty', day);
    expect(view.outliers).toMatchObject([{ jobNumber: 7, p50Min: 100, p80Min: 150, actualMin: 190 }]);
    expect(view.outliers[0]?.story).toEqual([
      { kind: 'note', text: 'Paint came off the pad in lumps', by: 'The technician' },
      { kind: 'override', text: 'No time to clay', by: 'The owner' },
      { kind: 'corrected', times: 1 },
      { kind: 'stretches', times: 2, people: 2 },
    ]);
    // The file says as much as the screen.
    const file = await shop.read('figures.honestyFile', { ...day, table: 'outliers' });
    expect(new TextDecoder().decode(file.bytes)).toContain(
      '100,150,190,“Paint came off the pad in lumps” The technician · rule set aside: “No time to clay” The owner · ' +
        'time typed in afterwards · 2 stretches of work by 2 people',
    );
    expect(view.byCondition).toMatchObject([{ key: 'none', stages: 1 }]);
    expect(view.overTime).toMatchObject([{ day: day.fromDay, stages: 1, driftPpm: 1_900_000 }]);
  });
});
