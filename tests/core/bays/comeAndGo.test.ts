import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { PersonId } from '#core/shared/ids.ts';
import type { LocalDay } from '#core/shared/units.ts';
import { liveBoard } from '#core/views/liveBoard.ts';
import { TEST_NOW } from '../../helpers/shop.ts';
import { type BayShop, openBayShop } from './shop.ts';

let shop: BayShop;
/** Wednesday 25 November 2026, 10:00 in Vienna. */
beforeEach(() => {
  shop = openBayShop();
});
afterEach(() => shop.close());

const DAY = (text: string): LocalDay => text as LocalDay;
const minuteAt = (iso: string): number => Date.parse(iso) / 60_000;
/** Work that only Ann can do. */
const PROTECT = [{ kind: 'protect', min: 60, bay: 'protection', skill: 'protection' }] as const;
const INTERIOR = [{ kind: 'interior', min: 60, bay: 'correction', skill: 'interior' }] as const;
const FRIDAY = minuteAt('2026-11-27T07:00:00Z');

function annLeaves(lastDay: string): void {
  const { revision } = shop.db.raw.prepare('SELECT revision FROM person WHERE id = ?').get(shop.ann) as {
    revision: number;
  };
  shop.write('access.endPerson', { personId: shop.ann, revision, lastDay: DAY(lastDay) });
}

describe('somebody who leaves', () => {
  it('is given no work after the last day', async () => {
    annLeaves('2026-11-26');
    const jobId = shop.job('Marit Vane', PROTECT);
    const soon = await shop.read('bays.offers', { jobId });
    const ends = soon.offers.flatMap((o) => o.plan.pieces.map((p) => p.endMin));
    expect(Math.max(...ends)).toBeLessThanOrEqual(minuteAt('2026-11-26T16:00:00Z'));
    const late = await shop.call('bays.offers', { jobId, notBeforeMin: FRIDAY });
    expect(late).toMatchObject({ ok: false, error: { code: 'NO_PLACE_FOR_JOB' } });
  });

  it('is named at what is still placed with them, before the last day and after it', async () => {
    const jobId = shop.job('Marit Vane', PROTECT);
    shop.write('bays.bookEarliest', { jobId, notBeforeMin: FRIDAY as never });
    annLeaves('2026-11-26');
    const away = async () =>
      (await shop.read('bays.faults', {})).find((f) => f.rule === 'personAway')?.words['person'];
    expect(await away()).toBe('The technician');
    shop.at(Date.parse('2026-11-27T06:00:00Z'));
    expect(await away()).toBe('The technician');
  });

  it('makes a promise sink to nothing where nobody else can do the work, by minutes that can be read', async () => {
    const jobId = shop.job('Marit Vane', PROTECT);
    shop.write('bays.bookEarliest', { jobId, notBeforeMin: FRIDAY as never });
    annLeaves('2026-11-26');
    const [promise] = await shop.read('bays.promises', { jobId });
    const { board } = liveBoard(shop.db, { nowMs: TEST_NOW });
    expect(promise).toMatchObject({
      nowPpm: 0,
      atRisk: true,
      p50Min: board.horizonMin,
      p95Min: board.horizonMin,
    });
    const [risk] = await shop.read('bookings.risks', {});
    expect(risk?.reason).toMatchObject({
      kind: 'planEndsLate',
      overMin: board.horizonMin - (promise?.atMin ?? 0),
    });
  });
});

it('somebody who comes later is given work from the first day on', async () => {
  const { id } = shop.write('access.addPerson', {
    name: 'Ines Brisk',
    role: 'technician',
    startedDay: DAY('2026-12-07'),
  });
  const shifts = [1, 2, 3, 4, 5].map((weekday) => ({ weekday, startMin: 480, endMin: 1020 }));
  shop.write('bays.setTechnician', { personId: shop.ann, skills: ['wash'], shifts });
  shop.write('bays.setTechnician', { personId: id as PersonId, skills: ['interior'], shifts });
  const view = await shop.read('bays.offers', { jobId: shop.job('Marit Vane', INTERIOR) });
  const starts = view.offers.flatMap((o) => o.plan.pieces.map((p) => p.startMin));
  expect(Math.min(...starts)).toBeGreaterThanOrEqual(minuteAt('2026-12-07T07:00:00Z'));
  // Today Ann is here for nine hours, and Ben for his usual eight and a half.
  expect((await shop.read('bookings.desk', {})).hours.shiftMin).toBe(540 + 510);
});

it('a bay that ends after all that is planned is there until then', async () => {
  const revision = 1;
  shop.write('bays.endBay', { bayId: shop.bays[2] as never, revision, lastDay: DAY('2027-06-30') });
  const view = await shop.read('bays.offers', { jobId: shop.job('Marit Vane', PROTECT) });
  expect(view.offers.length).toBeGreaterThan(0);
});

it('a bay that ends is closed from then on, and its hours after that are nobody’s idle time', async () => {
  shop.write('bays.endBay', { bayId: shop.bays[2] as never, revision: 1, lastDay: DAY('2026-11-26') });
  const board = await shop.read('bays.board', { fromDay: DAY('2026-11-25'), toDay: DAY('2026-11-28') });
  const lane = board.lanes.find((l) => l.name === 'Bay 3');
  // Two days from 7:30 to 18:00.
  expect(lane?.use).toMatchObject({ openMin: 2 * 630, idleMin: 2 * 630 });
  expect(lane?.closed).toEqual([{ startMin: minuteAt('2026-11-26T23:00:00Z'), endMin: board.toMin }]);
});

it('a car fetched before its time lets go of its place, however far ahead something is booked', () => {
  const gone = shop.job('Marit Vane', PROTECT);
  shop.write('bays.bookEarliest', { jobId: gone, notBeforeMin: FRIDAY as never });
  const far = shop.job('Ines Brisk', PROTECT);
  shop.write('bays.bookEarliest', { jobId: far, notBeforeMin: (FRIDAY + 70 * 1440) as never });
  const stays = () =>
    shop.db.raw.prepare('SELECT max(leave_min) FROM stay WHERE job_id = ?').pluck().get(gone) as number;
  const collectedMs = TEST_NOW + 60_000;
  shop.db.raw
    .prepare("UPDATE job SET state = 'collected', collected_ms = ? WHERE id = ?")
    .run(collectedMs, gone);
  const before = stays();
  shop.write('bays.bookEarliest', { jobId: shop.job('Anton Holm', INTERIOR), notBeforeMin: 0 as never });
  expect(stays()).toBeLessThan(before);
});

it('a car fetched before its time is off its place on the board at once, before anything else is planned', async () => {
  const gone = shop.job('Marit Vane', PROTECT);
  shop.write('bays.bookEarliest', { jobId: gone, notBeforeMin: 0 as never });
  const { board } = liveBoard(shop.db, { nowMs: TEST_NOW });
  const stay = board.plans.get(gone)?.stays.at(-1);
  const cameMin = board.plans.get(gone)?.stays[0]?.arriveMin ?? 0;
  const collectedMs = (cameMin + 10) * 60_000;
  shop.db.raw
    .prepare("UPDATE job SET state = 'collected', collected_ms = ? WHERE id = ?")
    .run(collectedMs, gone);
  const later = liveBoard(shop.db, { nowMs: collectedMs + 60_000 });
  expect(later.board.plans.get(gone)?.stays.at(-1)?.leaveMin).toBe(cameMin + 10);
  expect(later.kept.get(gone)?.stays.at(-1)).toEqual(stay);
  expect(liveBoard(shop.db, { nowMs: collectedMs + 60_000, withoutGone: true }).board.plans.has(gone)).toBe(
    false,
  );
});

it('what was planned for a car fetched before its last stage is not put back when its place is booked', async () => {
  const gone = shop.job('Marit Vane', PROTECT);
  shop.write('bays.bookEarliest', { jobId: gone, notBeforeMin: FRIDAY as never });
  // Its work is done on Wednesday already; by the plan somebody is held for it on Friday.
  const now = TEST_NOW + 60_000;
  shop.db.raw.exec(
    `UPDATE job_stage SET state = 'done', started_ms = ${now}, done_ms = ${now} WHERE job_id = '${gone}'`,
  );
  shop.db.raw.exec(`UPDATE job SET state = 'collected', collected_ms = ${now} WHERE id = '${gone}'`);
  shop.at(now + 60_000);
  const jobId = shop.job('Ines Brisk', PROTECT);
  const { offers, planRevision } = await shop.read('bays.offers', { jobId, notBeforeMin: FRIDAY as never });
  const plan = offers[0]?.plan ?? { jobId, stays: [], pieces: [] };
  const reply = await shop.call('bays.bookOffer', { planRevision, plan });
  expect(reply).toMatchObject({ ok: true });
  const held = shop.db.raw.prepare('SELECT max(leave_min) FROM stay WHERE job_id = ?').pluck();
  expect(held.get(gone)).toBeLessThan(FRIDAY + 1440);
  expect(held.get(jobId)).toBeGreaterThan(FRIDAY);
});
