import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { JobId } from '#core/shared/ids.ts';
import {
  addTestJob,
  agreedJob,
  quoteJob,
  STAGES,
  stageIdsOf,
  testEstimate,
  workOn,
} from '../../helpers/billing.ts';
import { planned } from '../../helpers/bookedJob.ts';
import { pdfText } from '../../helpers/pdfText.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';

let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
});
afterEach(() => shop.close());

const byTime = (jobId: JobId): unknown =>
  shop.db.raw.prepare("UPDATE quote SET basis = 'byTime' WHERE job_id = ?").run(jobId);

async function linesOf(jobId: JobId): Promise<readonly string[]> {
  const { invoiceId } = shop.write('billing.draftInvoice', { jobId });
  return (await shop.read('billing.readInvoice', { invoiceId })).bill.lines.map((l) => l.what);
}

describe('work billed by its time', () => {
  it('leaves out the look at the paint that came before the quote and was no part of it', async () => {
    const { jobId } = agreedJob(shop);
    byTime(jobId);
    shop.write('bookings.setStages', { jobId, basis: 'agreed', stages: [planned('inspection'), ...STAGES] });
    const [look, wash] = stageIdsOf(shop, jobId);
    workOn(shop, look, 0, 45);
    workOn(shop, wash, 45, 105);
    expect(await linesOf(jobId)).toEqual(['labour.prepare', 'materials']);
  });

  it('has it where it was part of what was agreed', async () => {
    const { jobId } = addTestJob(shop);
    const stages = [planned('inspection'), ...STAGES];
    const quoteId = quoteJob(shop, jobId, [{ ...testEstimate(jobId), stages }]);
    shop.write('billing.acceptQuote', {
      quoteId,
      revision: 1,
      letter: 'A',
      name: 'Marit Vane',
      way: 'spoken',
    });
    byTime(jobId);
    workOn(shop, stageIdsOf(shop, jobId)[0], 0, 45);
    expect(await linesOf(jobId)).toEqual(['labour.inspection', 'materials']);
  });
});

describe('a quote by time', () => {
  const paperOf = async (jobId: JobId): Promise<string> => {
    byTime(jobId);
    const quote = await shop.read('billing.readJobQuote', { jobId });
    const file = await shop.read('billing.quoteFile', { quoteId: quote?.id ?? '' });
    return (await pdfText(file.bytes)).join(' ').replace(/\s+/g, ' ');
  };

  it('names the price of an hour that will be billed, not one worked out from rounded minutes', async () => {
    const { jobId } = addTestJob(shop);
    // 84.90 of labour over 570 charged minutes is 8.94 an hour: the price of an hour is the shop's all the same
    quoteJob(shop, jobId, [testEstimate(jobId, { labour: 8490 })]);
    expect(await paperOf(jobId)).toContain('by the time it takes at €85.00 an hour');
  });

  it('names the lowest and the highest where hours have several prices', async () => {
    const { jobId } = addTestJob(shop);
    quoteJob(shop, jobId, [testEstimate(jobId, { rates: { wash: 4000, cut: 11_000 } })]);
    expect(await paperOf(jobId)).toContain('at €40.00–€110.00 an hour');
  });
});
