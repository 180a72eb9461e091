import { afterEach, beforeEach, expect, it } from 'vitest';
import type { BayId, PersonId } from '#core/shared/ids.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';
import { lookBackDay } from './lookBackDay.ts';

let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
  lookBackDay(shop);
  shop.db.raw.exec(`
    UPDATE job SET state = 'inWork', ready_ms = NULL, collected_ms = NULL;
    UPDATE job_stage SET state = 'inWork', done_ms = NULL;
    UPDATE stage_work SET end_ms = NULL;
  `);
});
afterEach(() => shop.close());

const DAYS = { fromDay: '2026-11-23', toDay: '2026-12-06' } as const;
const COMING_DAYS = 11;

it('a car in the bay and work that runs on are told the same at every second of a minute', async () => {
  const cell = (bayId: BayId | null, personId: PersonId | null) =>
    shop.read('figures.cellJobs', { ...DAYS, bayId, personId });
  for (let second = 0; second < 60; second += 1) {
    shop.at(Date.parse('2026-11-25T10:00Z') + second * 1000);
    const { bays, people } = await shop.read('figures.utilization', { ...DAYS, by: 'day' });
    // Open from 07:00Z: nobody there for an hour, the car waits for an hour, then an hour of work up to 10:00Z.
    const bay = {
      availableMin: 180,
      attendedMin: 60,
      cureMin: 0,
      waitingMin: 60,
      blockedMin: 0,
      idleMin: 60,
    };
    // A shift from 08:00Z on: nothing in hand until 09:00Z.
    const person = { ...bay, availableMin: 120, waitingMin: 0 };
    expect({ second, bay: bays[0]?.total, person: people[0]?.total, worked: people[0]?.workedMin }).toEqual({
      ...{ second, bay, person, worked: 60 },
    });
    expect(bays[0]?.cells.slice(-COMING_DAYS).every((c) => c.availableMin === 0)).toBe(true);
    const [of, hers] = [await cell('b'.repeat(20) as BayId, null), await cell(null, shop.people.technician)];
    expect(of.jobs).toMatchObject([{ attendedMin: 60, cureMin: 0, waitingMin: 60, blockedMin: 0 }]);
    expect(hers.jobs).toMatchObject([{ attendedMin: 60, cureMin: 0, waitingMin: 0, blockedMin: 0 }]);
  }
});
