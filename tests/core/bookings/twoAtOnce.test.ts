import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { StageId } from '#core/shared/ids.ts';
import { CAR_RECORD, jobWith } from '#tests/helpers/bookedJob.ts';
import { openTestShop, TEST_NOW, type TestShop } from '#tests/helpers/shop.ts';

const MIN = 60_000;
const H = 3_600_000;
let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
});
afterEach(() => shop.close());

describe('one person at two cars', () => {
  it('is told once, however many of their stages ran beside each other', async () => {
    const first = jobWith(shop, ['wash', 'clay']);
    const second = jobWith(shop, ['wash', 'clay']);
    for (const { jobId } of [first, second]) shop.write('bookings.arrive', { jobId, ...CAR_RECORD });
    const personId = shop.people.technician;
    for (const step of [0, 1]) {
      shop.at(TEST_NOW + step * H);
      for (const { stageIds } of [first, second])
        shop.write('bookings.startStage', { stageId: stageIds[step] as StageId, personId });
      shop.at(TEST_NOW + step * H + 20 * MIN);
      for (const { stageIds } of [first, second])
        shop.write('bookings.finishStage', { stageId: stageIds[step] as StageId, draws: [] });
    }
    const { conflicts } = await shop.read('bookings.job', { jobId: first.jobId });
    expect(conflicts.filter((c) => c.kind === 'twoAtOnce')).toMatchObject([{ otherJobNumber: 2 }]);
  });
});
