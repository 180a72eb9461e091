import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { liveJob } from '#core/bays/rules/live.ts';
import type { JobPlan, Piece, StageSpec } from '#core/bays/rules/model.ts';
import type { BayId, JobId, PersonId, StageId } from '#core/shared/ids.ts';
import type { LocalDay } from '#core/shared/units.ts';
import { unclayed } from '#tests/helpers/bookedJob.ts';
import { CAR_RECORD } from '../../helpers/bookedJob.ts';
import { board, open, person, place, stage } from './boards.ts';
import { type BayShop, openBayShop } from './shop.ts';

const NOW = 200;
const BOARD = board({
  nowMin: NOW,
  places: [place('c', 'correction')],
  technicians: [person('a'), person('b'), person('slow', open([0, 5000]), 500_000)],
});
const piece = (who: string | null, startMin: number, endMin: number, dwellMin = 0): Piece => ({
  ...{ stageId: 's' as StageId, bayId: 'c' as BayId, personIds: who ? [who as PersonId] : [] },
  ...{ startMin, endMin, dwellEndMin: endMin + dwellMin },
});

/** The pieces of a car that came at minute 100, as they stand at minute 200. */
function live(how: Partial<StageSpec>, pieces: readonly Piece[]) {
  const kept: JobPlan = {
    jobId: 'j' as JobId,
    stays: [{ bayId: 'c' as BayId, arriveMin: 100, leaveMin: 900 }],
    pieces,
  };
  const facts = {
    ...{ id: 'j' as JobId, number: 1, who: 'j', state: 'inWork' as const },
    ...{ dropOffMin: 100, pickUpMin: 900, lateWeight: 1, jobSigma: null, goneMin: null },
  };
  return liveJob(BOARD, facts, [stage('s', 60, how)], kept);
}
const times = (found: ReturnType<typeof live>) =>
  found.plan.pieces.map((p) => [p.startMin, p.endMin, p.dwellEndMin]);

describe('work that runs', () => {
  test('is drawn out by what is left of it, at least a quarter of an hour', () => {
    expect(times(live({ state: 'inWork', workedMin: 20 }, [piece('a', 150, 210)]))).toEqual([
      [150, 240, 240],
    ]);
    expect(times(live({ state: 'inWork', workedMin: 80 }, [piece('a', 100, 160)]))).toEqual([
      [100, 215, 215],
    ]);
  });

  test('keeps the end that somebody drew for it', () => {
    expect(times(live({ state: 'inWork', workedMin: 20 }, [piece('a', 180, 270)]))).toEqual([
      [180, 270, 270],
    ]);
  });

  test('is drawn out at the pace of whoever is at it', () => {
    // 60 minutes at normal pace, 20 done: 40 are left, which take somebody at half the pace 80.
    expect(times(live({ state: 'inWork', workedMin: 20 }, [piece('slow', 160, 280)]))).toEqual([
      [160, 280, 280],
    ]);
  });

  test('was split: what is behind stays behind, what another day has is not begun today', () => {
    // 60 minutes: 20 were planned from 100, 20 from 190, 20 by somebody else from 600.
    const split = [piece('a', 100, 120), piece('a', 190, 210), piece('b', 600, 620)];
    const found = live({ state: 'inWork', workedMin: 25 }, split);
    // 35 are left, 20 of them for the last piece: 15 from now on.
    expect(times(found)).toEqual([
      [100, 120, 120],
      [190, 215, 215],
      [600, 620, 620],
    ]);
  });
});

describe('a car that somebody still works on after it was to be driven on', () => {
  const stay = (bay: string, arriveMin: number, leaveMin: number) => ({
    bayId: bay as BayId,
    arriveMin,
    leaveMin,
  });
  const stood = (after: JobPlan['stays'], state: StageSpec['state'] = 'inWork') => {
    const kept: JobPlan = {
      jobId: 'j' as JobId,
      stays: [stay('c', 90, 160), ...after],
      pieces: [piece('a', 100, 160)],
    };
    const facts = {
      ...{ id: 'j' as JobId, number: 1, who: 'j', state: 'inWork' as const },
      ...{ dropOffMin: 90, pickUpMin: 900, lateWeight: 1, jobSigma: null, goneMin: null },
    };
    const { job, plan } = liveJob(BOARD, facts, [stage('s', 60, { state, workedMin: 80 })], kept);
    const at = job.start.kind === 'here' ? job.start.bayId : null;
    return [at, ...plan.stays.map((s) => [s.bayId, s.arriveMin, s.leaveMin])];
  };

  test('stands where the work is, and gets to its next place that much later', () => {
    expect(stood([stay('yard', 160, 900)])).toEqual(['c', ['c', 90, 215], ['yard', 215, 900]]);
    expect(stood([stay('yard', 160, 900)], 'done')).toEqual(['yard', ['c', 90, 160], ['yard', 160, 900]]);
  });

  test('passes over a place that it was to have left again by now', () => {
    expect(stood([stay('yard', 160, 190), stay('d', 190, 900)])).toEqual([
      'c',
      ['c', 90, 215],
      ['d', 215, 900],
    ]);
  });
});

describe('a stage that is done early', () => {
  test('lets the car go as well as the people', () => {
    const found = live({ state: 'done' }, [piece('a', 150, 260)]);
    expect(times(found)).toEqual([[150, 200, 200]]);
    expect(found.job.start).toEqual({ kind: 'here', bayId: 'c', fromMin: 200 });
  });

  test('still dries as long as it has to', () => {
    expect(times(live({ state: 'done' }, [piece('a', 150, 260, 60)]))).toEqual([[150, 200, 260]]);
  });
});

describe('a cure', () => {
  test('that runs ends when what is left of it has run, however often one looks', () => {
    const found = live({ state: 'inWork', crew: 0, labourMin: 0, dwellMin: 30 }, [
      piece(null, 150, 150, 720),
    ]);
    expect(times(found)).toEqual([[150, 150, 230]]);
  });
});

describe('the board of a shop', () => {
  let shop: BayShop;
  beforeEach(() => {
    shop = openBayShop();
  });
  afterEach(() => shop.close());

  test('knows how long a cure has run', async () => {
    const jobId = shop.job('Marit Vane', [
      { kind: 'protect', min: 60, bay: 'protection', skill: 'protection' },
      { kind: 'cure', min: 0, bay: 'protection', skill: 'protection', dwell: 240 },
    ]);
    shop.db.raw
      .prepare("UPDATE job_stage SET crew = 0, p50_min = 0, p20_min = 0, mu = 0 WHERE kind = 'cure'")
      .run();
    const view = await shop.read('bays.offers', { jobId });
    const offer = view.offers[0];
    if (!offer) throw new Error('no offer');
    const pieces = offer.plan.pieces.map((p) => ({ ...p, personIds: [...p.personIds] }));
    const plan = { jobId, stays: [...offer.plan.stays], pieces };
    shop.write('bays.bookOffer', { planRevision: view.planRevision, plan });
    const [protect] = pieces;
    if (!protect) throw new Error('no work');
    shop.at(offer.dropOffMin * 60_000);
    shop.write('bookings.arrive', { jobId, ...CAR_RECORD });
    shop.at(protect.startMin * 60_000);
    shop.write('bookings.startStage', { stageId: protect.stageId, personId: shop.ann });
    shop.at((protect.startMin + 60) * 60_000);
    shop.write('bookings.finishStage', { stageId: protect.stageId });
    shop.at((protect.startMin + 60 + 180) * 60_000);
    const board = await shop.read('bays.board', {
      fromDay: '2026-11-25' as LocalDay,
      toDay: '2026-11-28' as LocalDay,
    });
    const cure = board.blocks.flatMap((b) => b.pieces).find((p) => p.kind === 'cure');
    expect(cure?.dwellEndMin).toBe(protect.startMin + 60 + 240);
    const [promise] = await shop.read('bays.promises', { jobId });
    expect(promise?.p95Min).toBe(protect.startMin + 60 + 240);
  });

  test('reckons what was worked at the pace of whoever worked, since the plan is made at theirs', async () => {
    shop.write('bays.setTechnician', {
      personId: shop.ann,
      skills: ['correction'],
      speedPpm: 500_000,
      shifts: [{ weekday: 3, startMin: 480, endMin: 1020 }],
    });
    shop.write('bays.setTechnician', { personId: shop.ben, skills: ['wash'], shifts: [] });
    const jobId = shop.job('Marit Vane', [{ kind: 'cut', min: 60, bay: 'correction', skill: 'correction' }]);
    const view = await shop.read('bays.offers', { jobId });
    const offer = view.offers[0];
    if (!offer) throw new Error('no offer');
    const pieces = offer.plan.pieces.map((p) => ({ ...p, personIds: [...p.personIds] }));
    shop.write('bays.bookOffer', {
      planRevision: view.planRevision,
      plan: { jobId, stays: [...offer.plan.stays], pieces },
    });
    const [cut] = pieces;
    if (!cut) throw new Error('no work');
    expect(cut.endMin - cut.startMin).toBe(120);
    shop.at(offer.dropOffMin * 60_000);
    shop.write('bookings.arrive', { jobId, ...CAR_RECORD });
    shop.at(cut.startMin * 60_000);
    const setAside = unclayed('nothing but a polish of one panel');
    shop.write('bookings.startStage', { stageId: cut.stageId, personId: shop.ann, setAside });
    shop.at((cut.startMin + 90) * 60_000);
    const board = await shop.read('bays.board', {
      fromDay: '2026-11-25' as LocalDay,
      toDay: '2026-11-25' as LocalDay,
    });
    expect(board.blocks[0]?.pieces[0]?.endMin).toBe(cut.endMin);
    expect(board.conflicts.map((c) => c.kind)).not.toContain('overrun');
  });
});
