import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { JobId, StageId } from '#core/shared/ids.ts';
import type { ReplanView } from '#core/shared/views/plan.ts';
import { unclayed } from '#tests/helpers/bookedJob.ts';
import { CAR_RECORD } from '../../helpers/bookedJob.ts';
import { type BayShop, openBayShop, type TestStage } from './shop.ts';

const CUT: TestStage = { kind: 'cut', min: 240, bay: 'correction', skill: 'correction' };
const MIN = 60_000;

let shop: BayShop;
let [first, next] = ['' as JobId, '' as JobId];
let nowMs = 0;
const later = (minutes: number): void => shop.at(nowMs + minutes * MIN);
/** A car that runs an hour over in the only bay for cutting, and one that its technician was to work on by then. */
function runsOver(then: TestStage, marginMin: number): void {
  shop = openBayShop();
  shop.write('bays.setTechnician', { personId: shop.ben, skills: [], shifts: [] });
  first = shop.job('Marit Vane', [CUT]);
  next = shop.job('Dev Ostler', [then]);
  shop.write('bays.bookEarliest', { jobId: first, runs: 20, marginMin });
  shop.write('bays.bookEarliest', { jobId: next, runs: 20, marginMin: 0 });
  const cut = work(first);
  shop.at(dropOff(first) * MIN);
  shop.write('bookings.arrive', { jobId: first, ...CAR_RECORD });
  shop.at(cut.s * MIN);
  begin(cut.id);
  nowMs = (cut.e + 60) * MIN;
  later(0);
}
beforeEach(() => runsOver(CUT, 0));
afterEach(() => shop.close());

const begin = (stageId: StageId): void => {
  const setAside = unclayed('clayed at home');
  shop.write('bookings.startStage', { stageId, personId: shop.ann, setAside });
};
function work(jobId: JobId | undefined) {
  return shop.db.raw
    .prepare('SELECT stage_id AS id, start_min AS s, end_min AS e FROM placement WHERE job_id = ?')
    .get(jobId) as { id: StageId; s: number; e: number };
}
function dropOff(jobId: JobId | undefined): number {
  return (shop.db.raw.prepare('SELECT drop_off_min AS at FROM job WHERE id = ?').get(jobId) as { at: number })
    .at;
}
const promise = () =>
  shop.db.raw
    .prepare('SELECT pick_up_min AS at, promise_ppm AS ppm, bold FROM job WHERE id = ?')
    .get(next) as { at: number; ppm: number; bold: number };
const look = (): Promise<ReplanView> => shop.read('bays.replan', { iterations: 60 });
const answer = (view: ReplanView, more: object = {}) => ({
  planRevision: view.planRevision,
  nowMin: view.nowMin,
  plans: view.moved.map(({ after: p }) => ({
    jobId: p.jobId,
    stays: [...p.stays],
    pieces: p.pieces.map((x) => ({ ...x, personIds: [...x.personIds] })),
  })),
  consent: view.moved.filter((m) => m.needsConsent).map((m) => m.jobId),
  bold: view.moved.filter((m) => m.bold).map((m) => m.jobId),
  ...more,
});

describe('a re-plan of a car that another one runs into', () => {
  test('holds for half an hour, though what runs ends a little later with every minute', async () => {
    const view = await look();
    expect(view).toMatchObject({ before: { broken: 2 }, after: { broken: 0 } });
    // The car that runs over stays longer where it is, the other one comes later.
    expect(view.moved.map((m) => [m.jobId, m.needsConsent])).toEqual([
      [first, false],
      [next, true],
    ]);
    later(7);
    expect(await shop.call('bays.applyReplan', answer(view))).toMatchObject({ ok: true });
    expect(work(next).s).toBe(view.moved[1]?.after.pieces[0]?.startMin);
  });

  test('holds as well where the car that runs over does not move at all', async () => {
    shop.close();
    runsOver({ kind: 'wash', min: 60, bay: 'wash', skill: 'wash' }, 480);
    const view = await look();
    expect(view.moved.map((m) => m.jobId)).toEqual([next]);
    later(20);
    const late = answer(view);
    expect(await shop.call('bays.applyReplan', { ...late, nowMin: undefined })).toMatchObject({
      error: { data: { rule: 'personBusy' } },
    });
    expect(await shop.call('bays.applyReplan', late)).toMatchObject({ ok: true });
  });

  test('is worked out anew after that, or when its work has begun meanwhile', async () => {
    const view = await look();
    later(31);
    expect(await shop.call('bays.applyReplan', answer(view))).toMatchObject({
      error: { code: 'PLAN_CHANGED' },
    });
    later(5);
    shop.write('bookings.finishStage', { stageId: work(first).id });
    shop.write('bookings.arrive', { jobId: next, ...CAR_RECORD });
    begin(work(next).id);
    expect(await shop.call('bays.applyReplan', answer(view))).toMatchObject({
      error: { code: 'PLAN_CHANGED' },
    });
  });

  test('shows how sure each promise is that it changes, and lets the car stand until that is as sure as usual', async () => {
    const moved = (await look()).moved.find((m) => m.jobId === next);
    const before = promise();
    expect(moved).toMatchObject({ promiseMin: before.at, needsConsent: true, bold: false });
    expect(moved?.newPromiseMin).toBeGreaterThan(before.at);
    // The same chance as the flag at the board shows.
    const [flag] = await shop.read('bays.promises', { jobId: next });
    expect(moved?.beforePpm).toBe(flag?.nowPpm);
    expect(moved?.afterPpm).toBeGreaterThanOrEqual(800_000);
    shop.write('bays.applyReplan', answer(await look()));
    expect(promise()).toMatchObject({ at: moved?.newPromiseMin, bold: 0 });
    expect(Math.abs(promise().ppm - (moved?.afterPpm ?? 0))).toBeLessThan(20_000);
  });

  test('promises less surely than usual only where the desk chooses that', async () => {
    // Another car comes into the bay as soon as this one can be done, and the yard is full: it has to be collected then.
    const view = await look();
    const end = view.moved.find((m) => m.jobId === next)?.readyAfterMin ?? 0;
    for (const place of [shop.bays[1], shop.bays[3], shop.bays[3]]) stand(place, end + 20);
    const again = await look();
    const bold = again.moved.filter((m) => m.bold);
    expect(bold.map((m) => m.jobId)).toEqual([next]);
    expect(bold[0]?.afterPpm).toBeLessThan(800_000);
    expect(await shop.call('bays.applyReplan', answer(again, { bold: [] }))).toMatchObject({
      error: { code: 'PROMISE_BOLD' },
    });
    expect(await shop.call('bays.applyReplan', answer(again))).toMatchObject({ ok: true });
    expect(promise().bold).toBe(1);
  });
});

let others = 0;
/** A car that only stands in a place from a minute on, for a week. */
function stand(bayId: string | undefined, fromMin: number): void {
  others += 1;
  const jobId = shop.job(`Wren Tarn ${others}`, [CUT]);
  shop.db.raw
    .prepare(`UPDATE job SET state = 'booked', drop_off_min = ?, pick_up_min = ? WHERE id = ?`)
    .run(fromMin, fromMin + 10_080, jobId);
  shop.db.raw
    .prepare(`UPDATE job_stage SET state = 'done', started_ms = 0, done_ms = 60000 WHERE job_id = ?`)
    .run(jobId);
  shop.db.raw
    .prepare('INSERT INTO stay (job_id, bay_id, arrive_min, leave_min) VALUES (?, ?, ?, ?)')
    .run(jobId, bayId, fromMin, fromMin + 10_080);
}
