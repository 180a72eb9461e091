import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { StageId } from '#core/shared/ids.ts';
import type { LocalDay } from '#core/shared/units.ts';
import { CAR_RECORD } from '../../helpers/bookedJob.ts';
import { type BayShop, openBayShop } from './shop.ts';

const DAY = '2026-11-25' as LocalDay;
let shop: BayShop;
beforeEach(() => {
  shop = openBayShop();
});
afterEach(() => shop.close());

/** The first work of a job as it was planned. */
function firstWork(jobId: string) {
  return shop.db.raw
    .prepare(
      'SELECT stage_id AS stageId, person_id AS personId, start_min AS startMin, end_min AS endMin FROM placement WHERE job_id = ?',
    )
    .get(jobId) as { stageId: StageId; personId: string; startMin: number; endMin: number };
}

describe('the rows of people on the board', () => {
  it('hold what was done with who did it, though somebody else was planned', async () => {
    const jobId = shop.job('Noor Farrow', [{ kind: 'wash', min: 60, bay: 'wash', skill: 'wash' }]);
    shop.write('bays.bookEarliest', { jobId, runs: 20 });
    const plan = firstWork(jobId);
    const [other, them] = plan.personId === shop.ann ? [shop.ben, shop.ann] : [shop.ann, shop.ben];
    const rowOf = async (id: string) => {
      const board = await shop.read('bays.board', { fromDay: DAY, toDay: '2026-12-02' as LocalDay });
      return board.people.find((p) => p.personId === id);
    };
    expect(await rowOf(them)).toMatchObject({
      bookedMin: plan.endMin - plan.startMin,
      work: [{ who: 'Noor Farrow' }],
    });
    shop.at(plan.startMin * 60_000);
    shop.write('bookings.arrive', { jobId, ...CAR_RECORD });
    shop.write('bookings.startStage', { stageId: plan.stageId, personId: other });
    expect((await rowOf(other))?.work).toMatchObject([{ state: 'inWork', startMin: plan.startMin }]);
    expect(await rowOf(them)).toMatchObject({ bookedMin: 0, work: [] });
    shop.at((plan.startMin + 40) * 60_000);
    shop.write('bookings.finishStage', { stageId: plan.stageId });
    expect(await rowOf(other)).toMatchObject({
      bookedMin: 40,
      work: [{ state: 'done', startMin: plan.startMin, endMin: plan.startMin + 40 }],
    });
    expect(await rowOf(them)).toMatchObject({ bookedMin: 0, work: [] });
  });
});
