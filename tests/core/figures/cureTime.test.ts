import { afterEach, beforeEach, expect, it } from 'vitest';
import type { UtilizationParts } from '#core/shared/views/figures.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';
import { lookBackDay } from './lookBackDay.ts';

const BEGAN = Date.parse('2026-11-25T13:00Z');
const MIN = 60_000;
const RANGE = { fromDay: '2026-11-25', toDay: '2026-12-16', by: 'month' } as const;
let shop: TestShop;

/** The car of the day, cut from 09:00 to 12:00Z with an hour to dry, is put to cure for half an hour at 13:00Z. */
beforeEach(() => {
  shop = openTestShop();
  lookBackDay(shop);
  const [job, bay] = ['j'.repeat(20), 'b'.repeat(20)];
  shop.db.raw.exec(`
    INSERT INTO job_stage (id,job_id,seq,kind,state,panels,estimated_min,p20_min,p50_min,p80_min,p95_min,mu,sigma,dwell_min,bay_kinds,skill,crew,splittable,note,started_ms)
      VALUES ('t','${job}',1,'cure','inWork','[]',0,0,0,0,0,0,0,30,'["correction"]','correction',0,1,'',${BEGAN});
    INSERT INTO placement (job_id,stage_id,bay_id,person_id,start_min,end_min,dwell_end_min)
      VALUES ('${job}','t','${bay}',NULL,${BEGAN / MIN},${BEGAN / MIN},${BEGAN / MIN + 30});
    UPDATE job SET state = 'inWork', ready_ms = NULL, collected_ms = NULL;
  `);
});
afterEach(() => shop.close());

async function parts(): Promise<UtilizationParts> {
  const { total } = await shop.read('figures.utilization', RANGE);
  const { attendedMin, cureMin, waitingMin, blockedMin, idleMin, availableMin } = total;
  expect(attendedMin + cureMin + waitingMin + blockedMin + idleMin).toBe(availableMin);
  return total;
}

function collectedAt(iso: string): void {
  shop.db.raw.exec(`UPDATE job SET state = 'collected', collected_ms = ${Date.parse(iso)}`);
}

it('a cure that was dropped once it had begun holds its bay for its own time at most', async () => {
  shop.at(BEGAN + 10 * MIN);
  shop.write('bookings.dropStage', { stageId: 't' as never, reason: 'Wiped off again' });
  collectedAt('2026-11-25T15:00Z');
  // Three Wednesdays later: open 600 min on each of four; an hour dried, and at most half an hour of what was dropped.
  shop.at(Date.parse('2026-12-17T09:00Z'));
  expect(await parts()).toMatchObject({ availableMin: 2400, attendedMin: 180, cureMin: 90 });
});

it('a cure that runs on past its own time waits for people, minute by minute', async () => {
  shop.at(BEGAN + 20 * MIN);
  // 08:00–09:00 waiting, 12:00–13:00 dried, 13:00–13:20 cures
  expect(await parts()).toMatchObject({ cureMin: 80, waitingMin: 60, blockedMin: 0 });
  shop.at(BEGAN + 30 * MIN);
  expect(await parts()).toMatchObject({ cureMin: 90, waitingMin: 60, blockedMin: 0 });
  shop.at(BEGAN + 75 * MIN);
  expect(await parts()).toMatchObject({ cureMin: 90, waitingMin: 105, blockedMin: 0 });
});

it('and is told so of the past too, when somebody ended it late; ended early, it cured that long', async () => {
  const end = shop.db.raw.prepare("UPDATE job_stage SET state = 'done', done_ms = ? WHERE id = 't'");
  collectedAt('2026-11-25T15:00Z');
  shop.at(Date.parse('2026-12-17T09:00Z'));
  // Ended 14:00Z: half an hour of cure, half an hour in which nobody saw to it, an hour in the way until 15:00Z.
  end.run(BEGAN + 60 * MIN);
  expect(await parts()).toMatchObject({ cureMin: 90, waitingMin: 90, blockedMin: 60 });
  end.run(BEGAN + 15 * MIN);
  expect(await parts()).toMatchObject({ cureMin: 75, waitingMin: 60, blockedMin: 105 });
});

it('a car that was fetched takes its cure with it', async () => {
  const end = shop.db.raw.prepare("UPDATE job_stage SET state = 'done', done_ms = ? WHERE id = 's'");
  end.run(BEGAN);
  shop.db.raw.exec("DELETE FROM placement WHERE stage_id = 't'; DELETE FROM job_stage WHERE id = 't';");
  collectedAt('2026-11-25T13:20Z');
  shop.at(Date.parse('2026-12-17T09:00Z'));
  expect(await parts()).toMatchObject({ cureMin: 20, blockedMin: 0 });
});

it('the desk says of a cure that is over that somebody has to see to it', async () => {
  const bayOf = async () => (await shop.read('bookings.desk', {})).inBays[0]?.cureEndsMs;
  shop.at(BEGAN + 75 * MIN);
  expect(await bayOf()).toBe(BEGAN + 30 * MIN);
});
