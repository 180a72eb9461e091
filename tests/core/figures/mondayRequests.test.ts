import { expect, it } from 'vitest';
import type { LocalDay } from '#core/shared/units.ts';
import { requestRows } from '#core/views/mondayMoney.ts';
import { addTestJob, quoteJob, testEstimate } from '../../helpers/billing.ts';
import { openTestShop } from '../../helpers/shop.ts';

it('a request waits until it is declined, or its newest quote lapsed for longer than a week', () => {
  const shop = openTestShop();
  const asked = addTestJob(shop).jobId;
  const quoted = () => {
    const { jobId } = addTestJob(shop);
    return { jobId, quoteId: quoteJob(shop, jobId, [testEstimate(jobId)]) };
  };
  const [open, no] = [quoted(), quoted()];
  shop.write('billing.sendQuote', { quoteId: open.quoteId, revision: 1 });
  shop.write('billing.declineQuote', { quoteId: no.quoteId, revision: 1 });
  const valid = shop.db.raw.prepare('SELECT valid_until_day FROM quote WHERE id = ?').pluck();
  const last = valid.get(open.quoteId) as LocalDay;
  const days = (more: number) =>
    new Date(Date.parse(last) + more * 86_400_000).toISOString().slice(0, 10) as LocalDay;
  const waits = (day: LocalDay) => requestRows(shop.db, day).map((r) => r.jobId);
  expect(waits(last)).toEqual([asked, open.jobId]);
  expect(waits(days(7))).toEqual([asked, open.jobId]);
  expect(waits(days(8))).toEqual([asked]);
  shop.close();
});
