import { expect, it } from 'vitest';
import type { JobId, StageId } from '#core/shared/ids.ts';
import { CAR_RECORD } from '../../helpers/bookedJob.ts';
import { openBayShop, USUAL } from './shop.ts';

it('a job that is stopped lets go of its bays and people; its car stays where it stands', async () => {
  const shop = openBayShop();
  const all = <T>(sql: string, jobId: JobId) => shop.db.raw.prepare(sql).all(jobId) as T[];
  const stays = (of: JobId) =>
    all<{ bayId: string; at: number; till: number }>(
      'SELECT bay_id AS bayId, arrive_min AS at, leave_min AS till FROM stay WHERE job_id = ? ORDER BY arrive_min',
      of,
    );
  const work = (of: JobId) =>
    all<{ stageId: StageId; startMin: number; endMin: number }>(
      'SELECT stage_id AS stageId, start_min AS startMin, end_min AS endMin FROM placement WHERE job_id = ? ORDER BY start_min',
      of,
    );
  try {
    const jobId = shop.job('Marit Vane', USUAL);
    shop.write('bays.bookEarliest', { jobId, runs: 20 });
    const [came] = stays(jobId);
    const [wash, cut] = work(jobId);
    if (!came || !wash || !cut) throw new Error('no plan');
    shop.at(came.at * 60_000);
    shop.write('bookings.arrive', { jobId, ...CAR_RECORD });
    shop.at(wash.startMin * 60_000);
    shop.write('bookings.startStage', { stageId: wash.stageId, personId: shop.ann });
    shop.at((wash.startMin + 20) * 60_000);
    shop.write('bookings.stopHalfWay', { jobId, reason: 'owner needs the car' });

    expect(stays(jobId)).toEqual([came]);
    expect(work(jobId).map((p) => [p.stageId, p.endMin])).toEqual([[wash.stageId, wash.startMin + 20]]);
    // The next car can have the hours that are free again.
    const next = shop.job('Dev Ostler', USUAL.slice(1, 2));
    const { offers } = await shop.read('bays.offers', { jobId: next });
    expect(Math.min(...offers.flatMap((o) => o.plan.pieces.map((p) => p.startMin)))).toBeLessThan(cut.endMin);
    expect(await shop.read('bays.faults', {})).toEqual([]);
    // An hour later it still stands in the bay it was stopped in.
    shop.at((came.till + 60) * 60_000);
    const board = await shop.read('bays.board', { fromDay: '2026-11-23', toDay: '2026-12-05' });
    const blocks = board.blocks.filter((b) => b.jobId === jobId);
    expect(blocks.map((b) => b.bayId)).toEqual([came.bayId]);
    expect(blocks[0]?.leaveMin).toBeGreaterThan(came.till + 60);
  } finally {
    shop.close();
  }
});

it('a cure that is over stays where the bay had it, although nobody stood by', async () => {
  const shop = openBayShop();
  const places = (of: JobId) =>
    shop.db.raw
      .prepare(
        'SELECT stage_id AS stageId, dwell_end_min AS till FROM placement WHERE job_id = ? ORDER BY start_min',
      )
      .all(of) as { stageId: StageId; till: number }[];
  try {
    const jobId = shop.job('Marit Vane', USUAL);
    shop.write('bays.bookEarliest', { jobId, runs: 20 });
    const planned = places(jobId);
    const last = planned.at(-1);
    if (!last) throw new Error('no plan');
    // As a cure is: begun and over, and no time of anybody on it.
    shop.db.raw.prepare("UPDATE job SET state = 'inWork', arrived_ms = 0 WHERE id = ?").run(jobId);
    shop.db.raw
      .prepare("UPDATE job_stage SET state = 'done', started_ms = ?, done_ms = ? WHERE id = ?")
      .run((last.till - 720) * 60_000, last.till * 60_000, last.stageId);
    shop.at((last.till + 30) * 60_000);
    shop.write('bookings.stopHalfWay', { jobId, reason: 'owner needs the car' });
    expect(places(jobId)).toEqual([last]);
  } finally {
    shop.close();
  }
});
