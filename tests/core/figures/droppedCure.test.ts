import { expect, it } from 'vitest';
import { openTestShop } from '../../helpers/shop.ts';
import { lookBackDay } from './lookBackDay.ts';

it('a cure that was dropped once it had begun holds its bay for its own time at most', async () => {
  const shop = openTestShop();
  lookBackDay(shop);
  const began = Date.parse('2026-11-25T13:00Z');
  const [job, bay] = ['j'.repeat(20), 'b'.repeat(20)];
  shop.db.raw.exec(`
    INSERT INTO job_stage (id,job_id,seq,kind,state,panels,estimated_min,p20_min,p50_min,p80_min,p95_min,mu,sigma,dwell_min,bay_kinds,skill,crew,splittable,note,started_ms)
      VALUES ('t','${job}',1,'cure','inWork','[]',0,0,0,0,0,0,0,30,'["correction"]','correction',0,1,'',${began});
    INSERT INTO placement (job_id,stage_id,bay_id,person_id,start_min,end_min,dwell_end_min)
      VALUES ('${job}','t','${bay}',NULL,${began / 60_000},${began / 60_000},${began / 60_000 + 30});
    UPDATE job SET state = 'inWork', ready_ms = NULL, collected_ms = NULL;
  `);
  shop.at(began + 10 * 60_000);
  shop.write('bookings.dropStage', { stageId: 't' as never, reason: 'Wiped off again' });
  shop.db.raw.exec(`UPDATE job SET state = 'collected', collected_ms = ${Date.parse('2026-11-25T15:00Z')}`);
  // Three Wednesdays later: open 600 min on each of four; an hour dried, and at most half an hour of what was dropped.
  shop.at(Date.parse('2026-12-17T09:00Z'));
  const range = { fromDay: '2026-11-25', toDay: '2026-12-16', by: 'month' } as const;
  const { total } = await shop.read('figures.utilization', range);
  expect(total).toMatchObject({ availableMin: 2400, attendedMin: 180, cureMin: 90 });
  shop.close();
});
