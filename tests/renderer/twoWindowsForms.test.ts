import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { findChromium } from '../helpers/chromium.ts';
import { openShopWindow, type ShopWindow } from './shopWindow.ts';

const choice = findChromium();

/** Forms of stock and rules half typed in, while somebody else saves the same record through the same door. */
describe.skipIf(choice === null)('two windows on an item, a supplier and the rules', () => {
  let win: ShopWindow;
  let itemId = '';
  let supplierId = '';
  const row = (table: string) => win.rows(`SELECT * FROM ${table}`)[0] ?? {};
  const rules = () => JSON.parse(String(row('shop')['settings'])) as Record<string, Record<string, unknown>>;

  beforeAll(async () => {
    if (!choice) return;
    win = await openShopWindow(choice);
    const item = { name: 'Heavy-cut compound', unit: 'ul', packSize: 1_000_000 };
    itemId = (await win.call<{ itemId: string }>('stock.addItem', item)).itemId;
    const supplier = { name: 'Mill Rise', leadDays: 2 };
    supplierId = (await win.call<{ supplierId: string }>('stock.addSupplier', supplier)).supplierId;
  }, 90_000);
  afterAll(() => win?.close());

  it('an item keeps what is typed and takes over the rest', async () => {
    await win.goTo(`/stock/items/${itemId}`);
    await win.page.getByRole('button', { name: 'Change', exact: true }).click();
    await win.page.getByLabel('Place', { exact: true }).fill('shelf 4');
    const elsewhere = { itemId, revision: row('stock_item')['revision'], changes: { hazards: 'irritant' } };
    await win.call('stock.changeItem', elsewhere);
    await win.page.getByText(/taken over here: Hazards: irritant/).waitFor();
    expect(await win.page.getByLabel('Place', { exact: true }).inputValue()).toBe('shelf 4');
    const ends = win.page.getByRole('button', { name: 'No longer kept' });
    expect(await ends.getAttribute('title')).toBe('Save or leave what is typed first.');
    await win.page.getByRole('button', { name: 'Save the changes' }).click();
    await expect.poll(() => row('stock_item')).toMatchObject({ place: 'shelf 4', hazards: 'irritant' });
  });

  it('a supplier asks which of two leads stands before anything is saved', async () => {
    await win.goTo('/stock/suppliers');
    await win.page.getByRole('button', { name: /Mill Rise/ }).click();
    const lead = win.page.getByLabel('Working days to delivery');
    await lead.fill('5');
    await lead.press('Enter');
    const changes = { leadDays: 3, email: 'orders@mill.example' };
    await win.call('stock.changeSupplier', { supplierId, revision: row('supplier')['revision'], changes });
    await win.page.getByText('Changed in another window while you typed here.').waitFor();
    expect(await lead.inputValue()).toBe('5');
    await win.page.getByRole('button', { name: 'Keep what is typed here' }).click();
    await win.page.getByRole('button', { name: 'Save the changes' }).click();
    await expect.poll(() => row('supplier')).toMatchObject({ lead_days: 5, email: 'orders@mill.example' });
  });

  it('a rule that is being typed is not lost to another one that is saved, nor to a refusal', async () => {
    await win.goTo('/shop');
    await win.page.getByRole('button', { name: /^Rules/ }).click();
    const thin = win.page.getByLabel('a panel is thin below');
    await thin.fill('77');
    const change = (setting: string, value: unknown) =>
      win.call('shop.changeSettings', {
        revision: row('shop')['revision'],
        changes: [{ setting, value }],
      });
    await change('paint.readingsPerSpot', 4);
    await change('paint.thinTenthUm', 790);
    await win.page.getByText(/Saved meanwhile: 79/).waitFor();
    expect(await thin.inputValue()).toBe('77');
    await thin.press('Enter');
    await expect.poll(() => rules()['paint']).toMatchObject({ thinTenthUm: 770, readingsPerSpot: 4 });
    await thin.fill('99999');
    await thin.press('Enter');
    await win.page.getByRole('alert').waitFor();
    expect(await thin.inputValue()).toBe('99,999');
    await thin.fill('77');
    await thin.press('Enter');
    await win.page.getByRole('alert').waitFor({ state: 'detached' });
  });

  it('a rule set and set back before the first answer stays as it was set last', async () => {
    const thin = win.page.getByLabel('a panel is thin below');
    let letThrough = (): void => undefined;
    const held = new Promise<void>((done) => {
      letThrough = done;
    });
    await win.page.route('**/rpc', async (route) => {
      if (route.request().postData()?.includes('shop.changeSettings') === true) await held;
      await route.continue();
    });
    await thin.fill('76');
    await thin.press('Enter');
    await thin.fill('77');
    await thin.press('Enter');
    const first = win.page.waitForResponse((of) => of.request().postData()?.includes('760') === true);
    letThrough();
    await first;
    await win.page.unrouteAll({ behavior: 'wait' });
    await expect.poll(() => rules()['paint']).toMatchObject({ thinTenthUm: 770 });
    expect(await thin.inputValue()).toBe('77');
    expect(win.faults).toEqual([]);
  });
});
