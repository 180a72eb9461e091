import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { JobId } from '#core/shared/ids.ts';
import type { LocalDay } from '#core/shared/units.ts';
import { addTestJob, agreedJob, billJob } from '../../helpers/billing.ts';
import { openTestShop, TEST_NOW, type TestShop } from '../../helpers/shop.ts';

let shop: TestShop;
/** Hours already worked, so that nobody works on two jobs at once. */
let jobs = 1;
beforeEach(() => {
  jobs = 1;
  shop = openTestShop();
});
afterEach(() => shop.close());

const range = { fromDay: '2026-11-25' as LocalDay, toDay: '2026-11-25' as LocalDay };

/** A job with an hour of cutting, 500 drawn from the shelf, and two uses of a pad of 8.00 that lasts 16. */
function workedJob(state: 'collected' | 'inWork', redoOf: string | null = null): string {
  const { jobId } = addTestJob(shop);
  const { raw } = shop.db;
  raw.exec(`
    UPDATE job SET state = '${state}', arrived_ms = 1, ready_ms = ${state === 'collected' ? TEST_NOW : 'NULL'},
      collected_ms = ${state === 'collected' ? TEST_NOW : 'NULL'}, redo_of_job_id = ${redoOf ? `'${redoOf}'` : 'NULL'} WHERE id = '${jobId}';
    INSERT INTO job_stage (id,job_id,seq,kind,state,panels,estimated_min,p20_min,p50_min,p80_min,p95_min,mu,sigma,dwell_min,bay_kinds,skill,crew,splittable,note)
      VALUES ('s${jobId}','${jobId}',0,'cut','done','[]',60,60,60,60,60,4.1,0.1,0,'["correction"]','correction',1,1,'');
    INSERT INTO stage_work (stage_id,person_id,start_ms,end_ms) VALUES ('s${jobId}','${shop.people.technician}',${jobs * 3_600_000},${(jobs + 1) * 3_600_000});
    INSERT INTO stock_movement (item_id,qty,value_minor,reason,job_id,at_ms,note) VALUES ('polish',-50,-500,'draw','${jobId}',1,'');
    INSERT INTO pad_event (batch_id,from_state,to_state,pieces,used,job_id,at_ms,note) VALUES ('batch','clean','dirty',2,1,'${jobId}',1,'');`);
  jobs += 1;
  return jobId;
}

function shelf(): void {
  shop.db.raw.exec(`
    INSERT INTO stock_item (id,name,base_unit,pack_size,pack_word,place,hazards,sheet,barcode,reusable,uses_per_life) VALUES
      ('polish','Fine polish','ul',1000,'bottle','','','','',0,NULL),
      ('pad','Cutting pad','piece',1,'pad','','','','',1,16);
    INSERT INTO stock_movement (item_id,qty,value_minor,reason,at_ms,note) VALUES
      ('polish',1000,10000,'delivery',1,''), ('pad',10,8000,'delivery',1,'');
    INSERT INTO pad_batch (id,item_id,pieces,uses_per_life,came_ms,note) VALUES ('batch','pad',10,16,1,'');`);
}

describe('what a job cost', () => {
  it('has the wear of its pads beside what it drew, as the job’s own page says', async () => {
    shelf();
    const jobId = workedJob('collected');
    const { jobs: rows } = await shop.read('figures.margin', range);
    // 5.00 drawn and two of sixteen uses of a pad of 8.00: 1.00
    expect(rows).toMatchObject([{ jobId, materialMinor: 600, workedMin: 60 }]);
    expect((await shop.read('stock.jobCost', { jobId: jobId as JobId })).totalMinor).toBe(600);
  });

  it('has what was redone of it, also what is redone a second time and is still in work', async () => {
    shelf();
    const jobId = workedJob('collected');
    const again = workedJob('collected', jobId);
    workedJob('inWork', again);
    const view = await shop.read('figures.margin', range);
    expect(view.jobs).toMatchObject([{ jobId, materialMinor: 1800, workedMin: 180 }]);
    expect(view).toMatchObject({ materialMinor: 1800, workedMin: 180 });
    // Of both, one has gone: 5.00 drawn and 1.00 of wear, as in the job that they are charged to.
    const { warranty } = await shop.read('figures.money', range);
    expect(warranty).toMatchObject({ jobs: 1, materialMinor: 600, costMinor: 600 });
  });

  it('counts a sale that bears two taxes once in what a job brought', async () => {
    const billing = { pricesIncludeTax: false };
    shop.db.raw.prepare('UPDATE shop SET settings = ?').run(JSON.stringify({ billing }));
    const parts = [
      { name: 'State', ratePpm: 40_000, onTax: false },
      { name: 'City', ratePpm: 45_000, onTax: false },
    ];
    shop.write('shop.setTax', { name: 'Sales tax', category: 'S', ratePpm: 0, parts });
    const { jobId } = agreedJob(shop, { labour: 80_000, materials: 10_000, taxIncluded: false });
    await billJob(shop, jobId);
    const at = TEST_NOW;
    shop.db.raw
      .prepare(
        "UPDATE job SET state = 'collected', arrived_ms = 1, ready_ms = ?, collected_ms = ? WHERE id = ?",
      )
      .run(at, at, jobId);
    expect(await shop.read('figures.margin', range)).toMatchObject({ jobs: [{ jobId }], netMinor: 90_000 });
  });
});
