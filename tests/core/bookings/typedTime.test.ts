import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { JobId, StageId } from '#core/shared/ids.ts';
import type { EpochMs, LocalDay } from '#core/shared/units.ts';
import { CAR_RECORD, jobWith } from '#tests/helpers/bookedJob.ts';
import { openTestShop, TEST_NOW, type TestShop } from '#tests/helpers/shop.ts';

const MIN = 60_000;
const DAY_MS = 86_400_000;
let shop: TestShop;
let jobId: JobId;
let wash: StageId;
let clay: StageId;
beforeEach(() => {
  shop = openTestShop();
  const job = jobWith(shop, ['wash', 'clay']);
  jobId = job.jobId;
  [wash, clay] = job.stageIds as [StageId, StageId];
  shop.write('bookings.arrive', { jobId, ...CAR_RECORD });
  shop.at(TEST_NOW + 60 * MIN);
});
afterEach(() => shop.close());

const stretch = (fromMin: number, toMin: number) => ({
  personId: shop.people.technician,
  startMs: (TEST_NOW + fromMin * MIN) as EpochMs,
  endMs: (TEST_NOW + toMin * MIN) as EpochMs,
});
const jobNow = () => shop.read('bookings.job', { jobId });
const took = (workId: number) => shop.write('bookings.correctTime', { workId, change: { to: 'removed' } });

describe('time that never happened', () => {
  it('leaves a stage and a car that nobody else worked on as they were', async () => {
    const { workId } = shop.write('bookings.typeTime', { stageId: wash, ...stretch(0, 20) });
    took(workId);
    const job = await jobNow();
    expect([job.state, job.stages[0]?.state, job.stages[0]?.startedMs]).toEqual(['here', 'planned', null]);
    // Untouched after all: it may be cancelled, and a new plan may put another in its place.
    shop.write('bookings.cancelJob', { jobId, reason: 'changed his mind' });
  });

  it('leaves a stage begun where others worked on it, since the first of them', async () => {
    const early = shop.write('bookings.typeTime', { stageId: wash, ...stretch(0, 20) });
    shop.write('bookings.typeTime', { stageId: wash, ...stretch(30, 40) });
    took(early.workId);
    const [first] = (await jobNow()).stages;
    expect([first?.state, first?.startedMs]).toEqual(['paused', TEST_NOW + 30 * MIN]);
  });

  it('leaves a car in work where another stage was begun, and a stage that has panels ticked off', async () => {
    const first = shop.write('bookings.typeTime', { stageId: wash, ...stretch(0, 20) });
    const second = shop.write('bookings.typeTime', { stageId: clay, ...stretch(20, 40) });
    shop.write('bookings.panelDone', { stageId: clay, panel: 'bo', done: true });
    took(first.workId);
    took(second.workId);
    const job = await jobNow();
    expect([job.state, ...job.stages.map((s) => s.state)]).toEqual(['inWork', 'planned', 'paused']);
  });
});

it('a stage begins when its corrected time begins', async () => {
  const { workId } = shop.write('bookings.typeTime', { stageId: wash, ...stretch(0, 20) });
  shop.write('bookings.correctTime', { workId, change: { to: 'times', ...stretch(10, 20) } });
  expect((await jobNow()).stages[0]?.startedMs).toBe(TEST_NOW + 10 * MIN);
});

it('the time of somebody who has left can be typed in and corrected up to their last day, not after', async () => {
  const { workId } = shop.write('bookings.typeTime', { stageId: wash, ...stretch(0, 20) });
  const lastDay = '2026-11-25' as LocalDay;
  shop.write('access.endPerson', { personId: shop.people.technician, revision: 1, lastDay });
  shop.at(TEST_NOW + 3 * DAY_MS);
  shop.write('bookings.correctTime', { workId, change: { to: 'times', ...stretch(0, 25) } });
  shop.write('bookings.typeTime', { stageId: clay, ...stretch(30, 40) });
  expect((await jobNow()).stages.map((s) => s.attendedMs / MIN)).toEqual([25, 10]);
  const after = await shop.call('bookings.typeTime', { stageId: clay, ...stretch(1440, 1500) });
  expect(after).toMatchObject({ ok: false, error: { code: 'PERSON_NOT_HERE' } });
});
