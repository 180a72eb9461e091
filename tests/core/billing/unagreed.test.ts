import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { shopOf } from '#core/views/shop.ts';
import { addTestJob, refusalOf, stageIdsOf, workOn } from '../../helpers/billing.ts';
import { CAR_RECORD, jobWith, planned } from '../../helpers/bookedJob.ts';
import { openTestShop, TEST_NOW, type TestShop } from '../../helpers/shop.ts';

const MIN = 60_000;
let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
});
afterEach(() => shop.close());

/** A car that was washed for half an hour and clayed for a quarter, then stopped; nothing was ever agreed. */
function stopped() {
  const { jobId, stageIds } = jobWith(shop, ['wash', 'clay', 'cut']);
  shop.write('bookings.arrive', { jobId, ...CAR_RECORD });
  const [wash, clay] = stageIds;
  if (!wash || !clay) throw new Error('no stages');
  shop.write('bookings.startStage', { stageId: wash });
  shop.at(TEST_NOW + 30 * MIN);
  shop.write('bookings.finishStage', { stageId: wash, draws: [] });
  shop.write('bookings.startStage', { stageId: clay });
  shop.at(TEST_NOW + 45 * MIN);
  shop.write('bookings.stopHalfWay', { jobId, reason: 'owner needs the car' });
  return jobId;
}

describe('a job that was worked on although nothing was agreed', () => {
  it('is waiting to be billed, and is billed by its time at the prices of its day', async () => {
    const jobId = stopped();
    const desk = await shop.read('billing.readDesk', {});
    expect(desk.toBill).toMatchObject([{ jobId, agreedMinor: null }]);
    const { invoiceId } = shop.write('billing.draftInvoice', { jobId });
    const { bill, totals, agreed } = await shop.read('billing.readInvoice', { invoiceId });
    // 45 min at the test shop's 85.00 an hour, with tax
    expect(bill.lines.map((l) => [l.what, l.quantity, l.priceMinor])).toEqual([['labour.prepare', 45, 8500]]);
    expect([totals.toPayMinor, agreed]).toEqual([6375, false]);
    expect((await shop.read('billing.readDesk', {})).toBill).toEqual([]);
  });

  it('is billed at the price of the day the work ended, whatever stands since', async () => {
    const jobId = stopped();
    const all = { applies: 'all' } as const;
    shop.write('shop.setRate', { for: all, hourMinor: 10_000, fromDay: '2026-11-26' });
    shop.at(TEST_NOW + 3 * 24 * 60 * MIN);
    const { invoiceId } = shop.write('billing.draftInvoice', { jobId });
    expect((await shop.read('billing.readInvoice', { invoiceId })).bill.lines[0]?.priceMinor).toBe(8500);
  });

  it('pays for the material that was drawn: cost, the shop’s markup, tax', async () => {
    const jobId = stopped();
    const item = 'i0000000000000000001';
    const { raw } = shop.db;
    raw
      .prepare(
        `INSERT INTO stock_item (id, name, material, base_unit, pack_size, pack_word, place, hazards, sheet, barcode, reusable)
         VALUES (?, 'Clay lubricant', 'clayLubricant', 'ul', 500000, 'bottle', '', '', '', '', 0)`,
      )
      .run(item);
    raw
      .prepare(
        `INSERT INTO stock_movement (item_id, qty, value_minor, reason, job_id, at_ms, note) VALUES
          (?, 500000, 1000, 'open', NULL, 0, ''), (?, -250000, -500, 'draw', ?, ?, '')`,
      )
      .run(item, item, jobId, TEST_NOW);
    const { invoiceId } = shop.write('billing.draftInvoice', { jobId });
    const { bill, totals } = await shop.read('billing.readInvoice', { invoiceId });
    const markup = shopOf(shop.db).settings.estimate.materialMarkupPpm / 1_000_000;
    expect(bill.lines.map((l) => l.what)).toEqual(['labour.prepare', 'materials']);
    // 5.00 drawn, with the markup, and 19 % as the test shop's prices are with tax
    expect(totals.lineShownMinor[1]).toBe(Math.round(500 * (1 + markup) * 1.19));
  });

  it('is not billed for the look at the paint alone', async () => {
    const { jobId, stageIds } = jobWith(shop, ['inspection']);
    workOn(shop, stageIds[0], 0, 30);
    expect(await refusalOf(shop, 'billing.draftInvoice', { jobId })).toBe('NOTHING_TO_BILL');
  });

  it('is not billed when nobody worked on it', async () => {
    const { jobId } = addTestJob(shop);
    shop.write('bookings.setStages', { jobId, basis: 'agreed', stages: [planned('wash')] });
    expect(stageIdsOf(shop, jobId)).toHaveLength(1);
    expect(await refusalOf(shop, 'billing.draftInvoice', { jobId })).toBe('NOTHING_TO_BILL');
  });

  it('is not billed when it repeats work under warranty', async () => {
    const jobId = stopped();
    shop.db.raw.prepare('UPDATE job SET redo_of_job_id = id WHERE id = ?').run(jobId);
    expect(await refusalOf(shop, 'billing.draftInvoice', { jobId })).toBe('NOTHING_TO_BILL');
    expect((await shop.read('billing.readDesk', {})).toBill).toEqual([]);
  });
});
