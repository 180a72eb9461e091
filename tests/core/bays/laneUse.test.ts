import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { laneUse } from '#core/bays/rules/laneUse.ts';
import type { StageId } from '#core/shared/ids.ts';
import type { LocalDay } from '#core/shared/units.ts';
import { CAR_RECORD, unclayed } from '../../helpers/bookedJob.ts';
import { type BayShop, openBayShop } from './shop.ts';

const span = (startMin: number, endMin: number) => ({ startMin, endMin });
const spans = fc.array(
  fc.tuple(fc.nat(300), fc.nat(80)).map(([from, length]) => span(from, from + length)),
  { maxLength: 6 },
);

describe('the open minutes of a place', () => {
  it('are attended before they are cure, cure before a car that stands, and idle otherwise', () => {
    expect(
      laneUse({
        open: [span(100, 200), span(220, 300)],
        closed: [span(280, 300)],
        standing: [span(90, 180), span(210, 240)],
        curing: [span(150, 170)],
        attended: [span(110, 130), span(120, 160), span(190, 230)],
      }),
    ).toEqual({ openMin: 160, attendedMin: 70, cureMin: 10, standingMin: 30, idleMin: 50 });
    expect(laneUse({ open: [], closed: [], standing: [], curing: [], attended: [] }).openMin).toBe(0);
  });

  it('add up to those open and not closed, whatever overlaps what', () => {
    fc.assert(
      fc.property(spans, spans, spans, spans, spans, (open, closed, standing, curing, attended) => {
        const use = laneUse({ open, closed, standing, curing, attended });
        const isIn = (of: typeof open, t: number) => of.some((s) => s.startMin <= t && t < s.endMin);
        const minutes = Array.from({ length: 400 }, (_, t) => t).filter(
          (t) => isIn(open, t) && !isIn(closed, t),
        );
        expect(use.openMin).toBe(minutes.length);
        expect(use.attendedMin + use.cureMin + use.standingMin + use.idleMin).toBe(use.openMin);
        expect(use.attendedMin).toBe(minutes.filter((t) => isIn(attended, t)).length);
        expect(use.idleMin).toBe(
          minutes.filter((t) => ![standing, curing, attended].some((of) => isIn(of, t))).length,
        );
      }),
    );
  });
});

describe('on the board', () => {
  const DAY = '2026-11-25' as LocalDay;
  let shop: BayShop;
  beforeEach(() => {
    shop = openBayShop();
  });
  afterEach(() => shop.close());

  it('attended minutes are those that were worked, once work was done, and the planned ones before', async () => {
    const jobId = shop.job('Noor Farrow', [
      { kind: 'cut', min: 120, bay: 'correction', skill: 'correction' },
    ]);
    shop.write('bays.bookEarliest', { jobId, runs: 20, marginMin: 480 });
    const { id, s } = shop.db.raw
      .prepare('SELECT stage_id AS id, start_min AS s FROM placement WHERE job_id = ?')
      .get(jobId) as { id: StageId; s: number };
    const use = async () => {
      const board = await shop.read('bays.board', { fromDay: DAY, toDay: '2026-12-01' as LocalDay });
      const lane = board.lanes.find((l) => l.bayId === shop.bays[1])?.use;
      if (!lane) throw new Error('no lane');
      expect(lane.attendedMin + lane.cureMin + lane.standingMin + lane.idleMin).toBe(lane.openMin);
      return lane;
    };
    const planned = await use();
    expect(planned.attendedMin).toBe(120);
    shop.at((s - 15) * 60_000);
    shop.write('bookings.arrive', { jobId, ...CAR_RECORD });
    // Worked for 40 minutes by one, paused for 30, and for 20 by another: an hour in all.
    const setAside = unclayed('clayed at home');
    const at = (min: number) => shop.at((s + min) * 60_000);
    at(0);
    shop.write('bookings.startStage', { stageId: id, personId: shop.ann, setAside });
    at(40);
    shop.write('bookings.pauseStage', { stageId: id });
    at(70);
    shop.write('bookings.startStage', { stageId: id, personId: shop.ben, setAside });
    at(90);
    shop.write('bookings.finishStage', { stageId: id });
    const done = await use();
    expect(done.attendedMin).toBe(60);
    expect(done.openMin).toBe(planned.openMin);
  });

  it('a car that has not come has stood nowhere', async () => {
    const jobId = shop.job('Noor Farrow', [
      { kind: 'cut', min: 120, bay: 'correction', skill: 'correction' },
    ]);
    shop.write('bays.bookEarliest', { jobId, runs: 20, marginMin: 0 });
    const { e } = shop.db.raw.prepare('SELECT end_min AS e FROM placement').get() as { e: number };
    shop.at((e + 600) * 60_000);
    const board = await shop.read('bays.board', { fromDay: DAY, toDay: '2026-12-01' as LocalDay });
    const lane = board.lanes.find((l) => l.bayId === shop.bays[1])?.use;
    expect(lane).toMatchObject({ attendedMin: 0, standingMin: 0 });
  });
});
