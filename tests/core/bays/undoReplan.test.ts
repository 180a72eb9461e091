import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { JobId, StageId } from '#core/shared/ids.ts';
import type { JobPlanView, ReplanView } from '#core/shared/views/plan.ts';
import type { PlanChange } from '#core/shared/views/planChange.ts';
import { CAR_RECORD, unclayed } from '../../helpers/bookedJob.ts';
import { type BayShop, openBayShop, type TestStage } from './shop.ts';

const CUT: TestStage = { kind: 'cut', min: 240, bay: 'correction', skill: 'correction' };
const WASH: TestStage = { kind: 'wash', min: 60, bay: 'wash', skill: 'wash' };
const PROTECT: TestStage = { kind: 'protect', min: 60, bay: 'protection', skill: 'protection' };
const MIN = 60_000;

let shop: BayShop;
let [runs, next] = ['' as JobId, '' as JobId];
let nowMs = 0;

/** A car begun an hour and a half late, at whose end its technician was to wash the next one; nobody else can. */
beforeEach(() => {
  shop = openBayShop();
  shop.write('bays.setTechnician', { personId: shop.ben, skills: [], shifts: [] });
  runs = shop.job('Marit Vane', [CUT]);
  next = shop.job('Dev Ostler', [WASH]);
  shop.write('bays.bookEarliest', { jobId: runs, runs: 20, marginMin: 480 });
  shop.write('bays.bookEarliest', { jobId: next, runs: 20, marginMin: 0 });
  const [cut] = work(runs);
  if (!cut) throw new Error('no plan');
  shop.at((cut.s - 15) * MIN);
  shop.write('bookings.arrive', { jobId: runs, ...CAR_RECORD });
  shop.at((cut.s + 90) * MIN);
  const setAside = unclayed('clayed at home');
  shop.write('bookings.startStage', { stageId: cut.id, personId: shop.ann, setAside });
  nowMs = (cut.s + 120) * MIN;
  shop.at(nowMs);
});
afterEach(() => shop.close());

function work(jobId: JobId) {
  return shop.db.raw
    .prepare(
      'SELECT stage_id AS id, bay_id AS bay, start_min AS s, end_min AS e FROM placement WHERE job_id = ? ORDER BY s',
    )
    .all(jobId) as { id: StageId; bay: string; s: number; e: number }[];
}
const plain = (plans: readonly JobPlanView[]) =>
  plans.map((plan) => ({
    ...plan,
    stays: [...plan.stays],
    pieces: plan.pieces.map((p) => ({ ...p, personIds: [...p.personIds] })),
  }));
async function replanned(): Promise<PlanChange> {
  const view: ReplanView = await shop.read('bays.replan', { iterations: 60 });
  const plans = plain(view.moved.map((m) => m.after));
  const { planRevision, nowMin } = view;
  const consent = view.moved.filter((m) => m.needsConsent).map((m) => m.jobId);
  const bold = view.moved.filter((m) => m.bold).map((m) => m.jobId);
  return shop.write('bays.applyReplan', { planRevision, nowMin, plans, consent, bold });
}
const back = (change: PlanChange, more: object = {}) => ({
  planRevision: change.planRevision,
  plans: plain(change.undo),
  standing: [...change.standing],
  left: plain(change.left),
  ...more,
});

describe('a re-plan around work that runs over', () => {
  test('is undone minutes later, though the work that runs lies in the way of the old plan, and done again', async () => {
    const before = [work(runs), work(next)];
    const change = await replanned();
    expect(work(next)).not.toEqual(before[1]);
    expect(change.standing.map((f) => [f.rule, f.jobId])).toContainEqual(['personBusy', next]);
    shop.at(nowMs + 7 * MIN);
    const undone = shop.write('bays.restorePlans', back(change));
    expect([work(runs), work(next)]).toEqual(before);
    shop.write('bays.restorePlans', back(undone));
    expect(work(next)).not.toEqual(before[1]);
    expect(await shop.read('bays.faults', {})).toEqual([]);
  });

  test('is not undone where that breaks more than the old plan did', async () => {
    const change = await replanned();
    expect(await shop.call('bays.restorePlans', back(change, { standing: [] }))).toMatchObject({
      error: { code: 'PLAN_BREAKS_RULE', data: { rule: 'personBusy' } },
    });
    const elsewhere = change.standing.map((f) => ({ ...f, jobId: runs }));
    expect(await shop.call('bays.restorePlans', back(change, { standing: elsewhere }))).toMatchObject({
      error: { code: 'PLAN_BREAKS_RULE' },
    });
    // The bay of the old plan is closed since: that fault is new.
    const [cut] = plain(change.undo).find((p) => p.jobId === next)?.pieces ?? [];
    shop.write('bays.addClosure', {
      fromDay: dayOf(cut?.startMin ?? 0),
      toDay: dayOf(cut?.endMin ?? 0),
      bayId: shop.bays[0] ?? null,
      reason: 'lamp broken',
    });
    expect(await shop.call('bays.restorePlans', back(change))).toMatchObject({
      error: { code: 'PLAN_BREAKS_RULE', data: { rule: 'bayClosed' } },
    });
  });
  test('is not undone over what somebody planned since, but beside it', async () => {
    const change = await replanned();
    const other = shop.job('Celia Farrow', [WASH]);
    shop.write('bays.bookEarliest', { jobId: other, runs: 20, notBeforeMin: (nowMs / MIN + 5000) as never });
    const [wash] = work(next);
    if (!wash) throw new Error('no plan');
    const { planRevision } = await board();
    const wish = { jobId: next, stageIds: [wash.id], bayId: wash.bay as never, startMin: wash.s + 15 };
    const again = shop.write('bays.move', { ...wish, planRevision, consent: true } as never);
    const stale = { ...back(change), planRevision: again.planRevision };
    expect(await shop.call('bays.restorePlans', stale)).toMatchObject({
      error: { code: 'UNDO_OVERTAKEN', data: { who: 'Dev Ostler' } },
    });
    const { planRevision: undone } = shop.write('bays.restorePlans', back(again));
    expect(await shop.call('bays.restorePlans', { ...stale, planRevision: undone })).toMatchObject({
      ok: true,
    });
  });
});

describe('an undo that was allowed because of work that ran', () => {
  test('is refused in words where the hour was given to another car of that name since', async () => {
    const [old] = work(next);
    const change = await replanned();
    const [cut] = work(runs);
    if (!old || !cut) throw new Error('no plan');
    shop.at(nowMs + 10 * MIN);
    shop.write('bookings.finishStage', { stageId: cut.id });
    const other = shop.job('Marit Vane', [PROTECT]);
    shop.write('bays.bookEarliest', {
      jobId: other,
      runs: 20,
      marginMin: 0,
      notBeforeMin: (old.s - 30) as never,
    });
    expect(work(other).some((w) => w.s < old.e && w.e > old.s)).toBe(true);
    const { planRevision } = await board();
    expect(await shop.call('bays.restorePlans', back(change, { planRevision }))).toMatchObject({
      error: { code: 'PLAN_BREAKS_RULE', data: { rule: 'personBusy' } },
    });
  });

  test('is over with a job that is no longer on the board', async () => {
    const change = await replanned();
    shop.write('bookings.cancelJob', { jobId: next, reason: 'sold the car' });
    const { planRevision } = await board();
    expect(await shop.call('bays.restorePlans', back(change, { planRevision }))).toMatchObject({
      error: { code: 'NOT_FOUND', data: { what: 'job' } },
    });
  });
});

const board = () => shop.read('bays.board', { fromDay: '2026-11-25', toDay: '2026-12-02' } as never);
const dayOf = (min: number) => new Date(min * MIN).toISOString().slice(0, 10) as never;
