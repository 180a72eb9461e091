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

function work(stageId: StageId, fromMs: number, minutes: number): void {
  shop.at(fromMs);
  shop.write('bookings.startStage', { stageId, personId: shop.people.technician });
  shop.at(fromMs + minutes * MIN);
  shop.write('bookings.finishStage', { stageId, draws: [] });
}

describe('a coating that cures', () => {
  it('asks before a coating that cures is touched or called cured, then tells what it lacked', async () => {
    const { jobId, stageIds } = jobWith(shop, ['protect', 'cure', 'finalCheck']);
    const [protect, cure, check] = stageIds as [StageId, StageId, StageId];
    shop.write('bookings.arrive', { jobId, ...CAR_RECORD });
    work(protect, TEST_NOW, 60);
    shop.at(TEST_NOW + 11 * H);
    const ends = { code: 'CURE_RUNS', data: { cureEndsAtMs: TEST_NOW + 13 * H } };
    expect(await shop.call('bookings.startStage', { stageId: check })).toMatchObject({ error: ends });
    expect(await shop.call('bookings.finishStage', { stageId: cure })).toMatchObject({ error: ends });
    const other = { reason: 'the customer waits', rules: ['washBeforeTouch' as const] };
    expect(await shop.call('bookings.startStage', { stageId: check, setAside: other })).toMatchObject({
      error: ends,
    });
    const setAside = { ...other, rules: ['cureUntouched' as const] };
    const begun = shop.write('bookings.startStage', { stageId: check, setAside });
    expect(begun.conflicts).toEqual([{ kind: 'cureCutShort', missingMin: 120 }]);
    const { overrides } = await shop.read('bookings.job', { jobId });
    expect(overrides).toMatchObject([{ rule: 'cureUntouched', by: 'The owner', panels: [] }]);
  });

  it('lets a cure that has run its time be finished, and what follows begin, without a word', () => {
    const { jobId, stageIds } = jobWith(shop, ['protect', 'cure', 'finalCheck']);
    shop.write('bookings.arrive', { jobId, ...CAR_RECORD });
    work(stageIds[0] as StageId, TEST_NOW, 60);
    shop.at(TEST_NOW + 13 * H);
    expect(shop.write('bookings.finishStage', { stageId: stageIds[1] as StageId })).toMatchObject({
      ready: false,
    });
    expect(shop.write('bookings.startStage', { stageId: stageIds[2] as StageId })).toEqual({ conflicts: [] });
  });
});

describe('one car, one person', () => {
  it('takes somebody off the stage they were on when they begin another of the same car, and counts a minute once', async () => {
    const { jobId, stageIds } = jobWith(shop, ['mask', 'interior']);
    shop.write('bookings.arrive', { jobId, ...CAR_RECORD });
    const [mask, inside] = stageIds as [StageId, StageId];
    const { technician, owner } = shop.people;
    for (const personId of [technician, owner])
      shop.write('bookings.startStage', { stageId: mask, personId });
    shop.at(TEST_NOW + H);
    const told = shop.write('bookings.startStage', { stageId: inside, personId: technician });
    expect(told.conflicts).toMatchObject([{ kind: 'leftStage', stage: 'mask', person: { id: technician } }]);
    const between = await shop.read('bookings.job', { jobId });
    expect(between.stages.map((s) => s.state)).toEqual(['inWork', 'inWork']);
    shop.write('bookings.startStage', { stageId: inside, personId: owner });
    shop.at(TEST_NOW + 2 * H);
    shop.write('bookings.pauseStage', { stageId: inside });
    const after = await shop.read('bookings.job', { jobId });
    expect(after.stages.map((s) => s.state)).toEqual(['paused', 'paused']);
    expect(after.stages.map((s) => s.attendedMs)).toEqual([2 * H, 2 * H]);
    expect(after.conflicts.filter((c) => c.kind === 'twoAtOnce')).toEqual([]);
  });
});
