import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { findChromium } from '../helpers/chromium.ts';
import { openShopWindow, type ShopWindow } from './shopWindow.ts';

const choice = findChromium();

/** What fields do to the page and its buttons while somebody types in them and leaves them for a button. */
describe.skipIf(choice === null)('a field', () => {
  let win: ShopWindow;
  let itemId = '';
  const field = (label: string) => win.page.getByLabel(label, { exact: true });
  const button = (name: string) => win.page.getByRole('button', { name, exact: true });

  beforeAll(async () => {
    if (!choice) return;
    win = await openShopWindow(choice);
    await win.call('stock.addSupplier', { name: 'Ferrule & Hatch', leadDays: 3 });
    const item = { name: 'Clay', unit: 'mg', packSize: 200_000 };
    const opening = { amount: 400_000, valueMinor: 1960 };
    itemId = (await win.call<{ itemId: string }>('stock.addItem', { ...item, opening })).itemId;
  });
  afterAll(() => win?.close());

  async function openWaste(): Promise<void> {
    await win.goTo('/stock');
    await win.page.getByRole('main', { name: /stock/i }).waitFor();
    await win.goTo(`/stock/items/${itemId}`);
    await win.page.getByRole('heading', { name: 'Clay', level: 1 }).waitFor();
  }

  /** Presses the mouse button over something, lets go, and tells whether it still lay under the pointer. */
  async function clickOnce(name: string): Promise<boolean> {
    const box = await button(name).boundingBox();
    if (!box) throw new Error(`no button ${name}`);
    await win.page.mouse.move(box.x + 8, box.y + 4);
    await win.page.mouse.down();
    await win.page.waitForTimeout(120);
    const after = await button(name).boundingBox();
    await win.page.mouse.up();
    return after?.y === box.y;
  }

  it('lets a button follow the figures as they are typed', async () => {
    await openWaste();
    await button('Add pack and price').click();
    await win.page.getByRole('button', { name: /^Supplier/ }).click();
    await win.page.getByRole('option', { name: 'Ferrule & Hatch' }).click();
    const save = button('Save pack and price');
    expect(await save.getAttribute('aria-disabled')).toBe('true');
    await field('Price of a pack, before tax').pressSequentially('9.5');
    expect(await save.getAttribute('aria-disabled')).toBe('false');
    expect(await field('Price of a pack, before tax').inputValue()).toBe('9.5');
    await field('Price of a pack, before tax').press('Escape');
    expect(await save.getAttribute('aria-disabled')).toBe('true');
    await field('Price of a pack, before tax').pressSequentially('9.5');
    await save.click();
    await expect
      .poll(() => win.rows('SELECT price_minor FROM supplier_item'))
      .toEqual([{ price_minor: 950 }]);
  });
  it('loses no click when its refusal comes as it is left', async () => {
    await openWaste();
    await button('Waste').click();
    await win.page.getByLabel('Wasted', { exact: true }).fill('much');
    expect(await clickOnce('Leave it')).toBe(true);
    await win.page.getByLabel('Why', { exact: true }).waitFor({ state: 'detached' });
  });
  it('loses no click when what was refused is put right and left', async () => {
    await openWaste();
    await button('Waste').click();
    const amount = win.page.getByLabel('Wasted', { exact: true });
    await field('Why').fill('dropped');
    await amount.fill('much');
    await amount.press('Enter');
    await win.page.locator('[data-unread]').waitFor();
    await amount.fill('3');
    expect(await clickOnce('Write it off')).toBe(true);
    await field('Why').waitFor({ state: 'detached' });
    expect(win.faults).toEqual([]);
  });
});
