import { parse } from 'csv-parse/sync';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { ACCOUNTS } from '#core/shared/settings/accounts.ts';
import { defaultSettings } from '#core/shared/settings.ts';
import { agreedJob, refusalOf } from '../../helpers/billing.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';

const DAY = { fromDay: '2026-11-25', toDay: '2026-11-25' };
let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
});
afterEach(() => shop.close());

async function rows(): Promise<Record<string, string>[]> {
  const { bytes } = await shop.read('billing.journalFile', DAY);
  return parse(new TextDecoder().decode(bytes), { columns: true });
}

function set(setting: string, value: string): Promise<string> {
  const revision = shop.db.raw.prepare('SELECT revision FROM shop').pluck().get();
  return refusalOf(shop, 'shop.changeSettings', { revision, changes: [{ setting, value }] });
}

describe('accounts of the journal', () => {
  it('have a number each in the example chart, no two the same', () => {
    const chart = defaultSettings().accounts;
    expect(new Set(Object.values(chart)).size).toBe(ACCOUNTS.length);
  });

  it('are written with the number the shop gave them and their name', async () => {
    const { jobId } = agreedJob(shop);
    shop.write('billing.takeDeposit', { jobId, amountMinor: 5000, way: 'card' });
    expect((await rows()).map((r) => [r['account no.'], r['account'], r['debit'], r['credit']])).toEqual([
      ['1010', 'card money on its way', '50.00', ''],
      ['2100', 'deposits held', '', '50.00'],
    ]);
    expect(await set('accounts.depositsHeld', 'S 1718.00')).toBe('accepted');
    expect((await rows())[1]?.['account no.']).toBe('S 1718.00');
  });

  it('take no number that is empty, too long, or that a spreadsheet would run', async () => {
    for (const wrong of ['', '=1+1', '-4000', '@sum', '123456789012345678901'])
      expect(await set('accounts.revenue', wrong)).toBe('SETTING_OUT_OF_RANGE');
    expect(await set('accounts.revenue', '8400')).toBe('accepted');
  });
});
