import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { PadRow } from '#core/shared/views/stock.ts';
import { signInAs } from '../e2e/pageCalls.ts';
import { findChromium } from '../helpers/chromium.ts';
import { openShopWindow, PLAIN, type ShopWindow } from './shopWindow.ts';

const choice = findChromium();
const LONG =
  'Heavy-cut compound, grey, for hard clear coats, repaired panels and everything after wet sanding';

/** Items, suppliers and a delivery that differs from its order, by hand in the window over a real file. */
describe.skipIf(choice === null)('stock in the window', () => {
  let win: ShopWindow;
  let page: Page;
  let itemId = '';
  let supplierId = '';
  let padsId = '';

  const press = (name: string): Promise<void> =>
    page.getByRole('button', { name, exact: true }).first().click();
  const fill = (label: string, value: string): Promise<void> =>
    page.getByLabel(label, { exact: true }).fill(value);

  beforeAll(async () => {
    if (!choice) return;
    win = await openShopWindow(choice, PLAIN);
    page = win.page;
    const add = async <T>(name: string, input: unknown): Promise<T> => {
      const value = await win.call<T>(name, input);
      expect(value, name).not.toBeNull();
      return value;
    };
    const item = { name: LONG, unit: 'ul', packSize: 1_000_000, packWord: 'bottle' };
    itemId = (await add<{ itemId: string }>('stock.addItem', item)).itemId;
    const supplier = { name: 'Kestle & Rowe', leadDays: 2 };
    supplierId = (await add<{ supplierId: string }>('stock.addSupplier', supplier)).supplierId;
    const link = { supplierId, itemId, packSize: 1_000_000, priceMinor: 4120 };
    await win.call('stock.linkSupplier', link);
    await add('stock.makeOrders', { lines: [{ supplierId, itemId, packs: 3 }] });
  });
  afterAll(() => win?.close());

  it('changes an item and keeps its unit', async () => {
    await win.goTo(`/stock/items/${itemId}`);
    await press('Change');
    await fill('Place', 'B2, top');
    await fill('Keeps opened, days', '90');
    await win.holds();
    await press('Save the changes');
    await page.getByText('B2, top').waitFor();
    const [row] = win.rows('SELECT place, opened_life_days, base_unit, revision FROM stock_item');
    expect(row).toEqual({ place: 'B2, top', opened_life_days: 90, base_unit: 'ul', revision: 2 });
  });

  it('keeps a data sheet larger than a usual message, and says when a file is none', async () => {
    await win.goTo(`/stock/items/${itemId}`);
    const field = page.locator('input[type="file"][accept^="application/pdf"]');
    const buffer = Buffer.concat([Buffer.from('%PDF-1.7\n'), Buffer.alloc(1_500_000, 32)]);
    await field.setInputFiles({ name: 'heavy-cut sheet.pdf', mimeType: 'application/pdf', buffer });
    await page.getByRole('button', { name: 'heavy-cut sheet.pdf' }).waitFor();
    await win.holds();
    await win.shot('stock-item-sheet');
    const wrong = {
      name: 'wrong.pdf',
      mimeType: 'application/pdf',
      buffer: Buffer.from('not a sheet at all'),
    };
    await field.setInputFiles(wrong);
    await page.getByText('That is not a PDF, JPEG or PNG file. Nothing was kept.').waitFor();
    // larger than the way to the core takes at all: said before it is sent
    const large = Buffer.concat([Buffer.from('%PDF-1.7\n'), Buffer.alloc(18_500_000, 32)]);
    await field.setInputFiles({ name: 'scan.pdf', mimeType: 'application/pdf', buffer: large });
    await page.getByText('That file is too large; up to 10 MB fit.').waitFor();
    expect(win.rows('SELECT file_name FROM data_sheet WHERE removed_ms IS NULL')).toEqual([
      { file_name: 'heavy-cut sheet.pdf' },
    ]);
  });

  it('scrolls its column to a box far down, and never the page away from under its head', async () => {
    await page.setViewportSize({ width: 1280, height: 500 });
    await win.goTo('/stock/new');
    await page.getByLabel(/^Goes round/).focus();
    const heights = () =>
      page.evaluate(() => [document.documentElement.scrollHeight, window.innerHeight, window.scrollY]);
    expect(await heights()).toEqual([500, 500, 0]);
    await page.setViewportSize({ width: 1280, height: 800 });
  });

  it('takes a name that is looked for as no barcode', async () => {
    await win.goTo('/stock');
    const find = page.getByRole('searchbox');
    await find.fill('Heavy-cut');
    await find.press('Enter');
    await page
      .getByRole('link', { name: /Heavy-cut compound/ })
      .first()
      .waitFor();
    await page.waitForTimeout(300);
    expect(await page.getByText(/No item carries/).count()).toBe(0);
    await find.fill('4006381333931');
    await find.press('Enter');
    await page.getByText('No item carries 4006381333931.').waitFor();
  });

  it('changes when a supplier works', async () => {
    await win.goTo('/stock/suppliers');
    await page.getByRole('button', { name: /Kestle & Rowe/ }).click();
    await fill('Working days to delivery', '4');
    await page.getByText('Sat', { exact: true }).click();
    await win.holds();
    await press('Save the changes');
    await page.getByText('4 working days').waitFor();
    const [row] = win.rows('SELECT lead_days, open_weekdays FROM supplier');
    expect(row).toEqual({ lead_days: 4, open_weekdays: '[1,2,3,4,5,6]' });
  });

  it('has the days of the chart as a table, the day an order is due among them', async () => {
    await win.goTo(`/stock/items/${itemId}`);
    await press('Table');
    const table = page.getByRole('table', { name: 'Day by day' });
    expect(await table.getByRole('row').count()).toBe(43);
    const due = table.getByRole('row', { name: /an order is due/ });
    expect(await due.getByRole('cell').nth(1).textContent()).toBe('3000');
    await win.holds();
    await win.shot('stock-item-table');
    await press('Picture');
    await table.waitFor({ state: 'detached' });
  });

  it('asks before it books in another pack, and keeps the rest due', async () => {
    const [order] = win.rows('SELECT id FROM purchase_order');
    await win.goTo(`/stock/orders/${order?.['id']}`);
    await press('Fill in that all of it came');
    await page.getByText('Filled in above, not in stock yet.').waitFor();
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Put in stock');
    await win.shot('stock-order-filled');
    expect(win.rows('SELECT qty FROM stock_level')).toEqual([]);
    await fill('Packs that came', '1');
    await press('Price, pack, batch …');
    await fill('A pack holds', '500');
    await fill('Price of a pack, before tax', '22.50');
    await fill('Batch', 'K-7');
    await win.holds();
    await press('Put in stock');
    await page.getByText(/came in another pack than ordered/).waitFor();
    expect(win.rows('SELECT qty FROM stock_level')).toEqual([]);
    await press('Yes, this pack is right');
    await page.getByText('1 came, 2 still due').waitFor();
    const [line] = win.rows('SELECT packs, pack_size, price_minor, batch FROM delivery_line');
    expect(line).toEqual({ packs: 1, pack_size: 500_000, price_minor: 2250, batch: 'K-7' });
    expect(win.rows('SELECT qty, value_minor FROM stock_level')).toEqual([
      { qty: 500_000, value_minor: 2250 },
    ]);
  });

  it('asks about a price with its point left out before it puts anything in stock', async () => {
    const [order] = win.rows('SELECT id FROM purchase_order');
    await win.goTo('/stock');
    await win.goTo(`/stock/orders/${order?.['id']}`);
    await fill('Packs that came', '1');
    await press('Price, pack, batch …');
    await fill('Price of a pack, before tax', '4120');
    await press('Put in stock');
    await page.getByText(/41\.20 a pack was agreed, the delivery says €4,120\.00/).waitFor();
    await win.holds();
    await win.shot('stock-price-asked');
    expect(win.rows('SELECT packs FROM delivery_line')).toHaveLength(1);
    await fill('Price of a pack, before tax', '41.20');
    await page.getByText(/41\.20 a pack was agreed/).waitFor({ state: 'detached' });
    await press('Put in stock');
    await page.getByText('2 came, 1 still due').waitFor();
    const price = 'SELECT price_minor FROM delivery_line WHERE pack_size = 1000000';
    expect(win.rows(price)).toEqual([{ price_minor: 4120 }]);
    await win.call('stock.waste', { itemId, amount: 1_000_000, why: 'spilt' });
  });

  it('checks a list before it takes it over', async () => {
    await win.goTo('/stock/lists');
    const choose = (csv: string): Promise<void> =>
      page.locator('input[type=file]').setInputFiles({
        name: 'items.csv',
        mimeType: 'text/csv',
        buffer: Buffer.from(csv),
      });
    await choose('name,unit,packSize\r\nClay,grams,200\r\n');
    await page.getByText('Line 2, unit: it has to be one of ml, g, m, piece').waitFor();
    await win.holds();
    await choose('name,unit,packSize\r\nClay,g,200\r\n');
    await page.getByText('New: Clay').waitFor();
    expect(win.rows('SELECT count(*) AS items FROM stock_item')).toEqual([{ items: 1 }]);
    await press('Take it over');
    await page.getByText('Taken over: 1 new, 0 changed.').waitFor();
    expect(win.rows('SELECT count(*) AS items FROM stock_item')).toEqual([{ items: 2 }]);
  });

  it('finds an item from the command bar and shows the shelf without a fault', async () => {
    await win.goTo('/stock');
    await page.getByRole('region', { name: 'Order today' }).waitFor();
    await win.holds();
    await page.keyboard.press('Control+k');
    await page.keyboard.type('heavy');
    await page.getByRole('option', { name: /Heavy-cut compound/ }).waitFor();
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: LONG }).first().waitFor();
    expect(win.faults).toEqual([]);
  });

  it('says of an item that is short by the book that it is out', async () => {
    await win.call('stock.waste', { itemId, amount: 500_000, why: 'spilt' });
    await win.goTo('/stock');
    await page.getByRole('link', { name: /^Heavy-cut compound.*out now/ }).waitFor();
    await win.shot('stock-out');
    await win.goTo(`/stock/items/${itemId}`);
    await page.getByRole('heading', { name: LONG }).first().waitFor();
    await win.shot('stock-out-item');
  });

  it('looks for pads by their name too, and leaves out those that do not fit', async () => {
    const pads = { name: 'Cutting pads, 150 mm', unit: 'piece', packSize: 6, reusable: true };
    const opening = { amount: 6, valueMinor: 6000 };
    padsId = (await win.call<{ itemId: string }>('stock.addItem', { ...pads, opening })).itemId;
    await win.goTo('/stock');
    const listed = page.getByRole('region', { name: 'Pads and towels' });
    await listed.waitFor();
    await page.getByRole('searchbox').fill('heavy-cut');
    await listed.waitFor({ state: 'detached' });
    await page.getByRole('searchbox').fill('cutting');
    await listed.getByText('Cutting pads, 150 mm').waitFor();
  });

  it('asks about a count far beyond what ever came in', async () => {
    const nozzles = { name: 'Spray nozzles', unit: 'piece', packSize: 1, barcode: 'RL0N4QKXT7' };
    const opening = { amount: 2, valueMinor: 600 };
    const made = await win.call<{ itemId: string }>('stock.addItem', { ...nozzles, opening });
    await win.goTo(`/stock/items/${made.itemId}`);
    await press('Count');
    await fill('On the shelf now', '40170725');
    await press('Save the count');
    await page.getByText(/far more Spray nozzles than the book says/).waitFor();
    await win.shot('stock-count-asked');
    // A yes to another figure than the one that was asked about is none.
    await fill('On the shelf now', '30');
    await page.getByText(/far more Spray nozzles/).waitFor({ state: 'detached' });
    await press('Save the count');
    await press('Yes, so much is there');
    await page.getByLabel('On the shelf now', { exact: true }).waitFor({ state: 'detached' });
    expect(win.rows('SELECT counted_qty FROM stock_count WHERE counted_qty > 20')).toEqual([
      { counted_qty: 30 },
    ]);
  });

  it('opens the item of a barcode that is read while a button is in front, and presses nothing', async () => {
    await win.goTo('/stock');
    await page.getByRole('link', { name: 'New item' }).focus();
    // all at once, as a reader sends them; the code has an N in it, which alone would open a new item
    const pressed = await page.evaluate((code) => {
      const press = (key: string): boolean =>
        document.activeElement?.dispatchEvent(
          new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true }),
        ) ?? true;
      return [...code, 'Enter'].map(press);
    }, 'RL0N4QKXT7');
    expect(pressed.slice(1)).toEqual(new Array(10).fill(false));
    await page.getByRole('heading', { name: 'Spray nozzles' }).first().waitFor();
    expect(win.faults).toEqual([]);
  });

  it('keeps what was put off in sight, with who and until when, and takes it back', async () => {
    const wax = { name: 'Wax', unit: 'ul', packSize: 500_000, opening: { amount: 1000, valueMinor: 10 } };
    const made = await win.call<{ itemId: string }>('stock.addItem', wax);
    const seller = { supplierId, itemId: made.itemId, packSize: 500_000, priceMinor: 900 };
    await win.call('stock.linkSupplier', seller);
    await win.call('stock.waste', { itemId: made.itemId, amount: 3000, why: 'spilt' });
    await win.goTo('/stock');
    const orders = page.getByRole('region', { name: 'Order today' });
    await orders.getByRole('button', { name: 'Not today' }).click();
    await orders.getByText(/^Wax put off to .* by Dev Ostler\./).waitFor();
    await win.holds();
    await win.shot('stock-put-off');
    await orders.getByRole('button', { name: 'Order it today after all' }).click();
    await orders.getByRole('button', { name: 'Not today' }).waitFor();
  });

  it('lets a technician wash pads, and shows them nothing of orders', async () => {
    await win.call('stock.padsUsed', { itemId: padsId, pieces: 2 });
    await win.call('access.addPerson', { name: 'Wren Tarn', role: 'technician' });
    expect(await signInAs(page, 'technician')).toBe(true);
    await win.goTo('/stock');
    await page.getByRole('region', { name: 'Pads and towels' }).waitFor();
    expect(await page.getByRole('region', { name: 'Order today' }).count()).toBe(0);
    expect(await page.getByRole('link', { name: 'Cutting pads, 150 mm' }).count()).toBe(0);
    await page.getByRole('button', { name: /Cutting pads, 150 mm/ }).click();
    await page.getByRole('button', { name: 'Wash 2 dirty' }).click();
    await expect
      .poll(async () => (await win.call<readonly PadRow[]>('stock.showPads', {}))[0])
      .toMatchObject({ clean: 4, dirty: 0, washing: 2 });
    await win.holds();
    await win.shot('stock-pads');
    const itemId = padsId;
    await page.getByText('enough clean', { exact: true }).waitFor();
    await win.call('stock.padsUsed', { itemId, pieces: 4 });
    await page.getByText('none clean: wash first').waitFor();
    await win.shot('stock-pads-dirty');
    await win.call('stock.padsWash', { itemId, pieces: 4, step: 'in' });
    await page.getByText('all in the wash').waitFor();
    await page.getByRole('button', { name: 'One used outside a stage' }).click();
    await page.getByText('The book had none clean. It was taken as found. A count was opened.').waitFor();
    await win.holds();
    await win.shot('stock-pads-beyond');
    await win.call('stock.padsWash', { itemId, pieces: 6, step: 'out' });
    await page.getByText('enough clean', { exact: true }).waitFor();
    await page.getByRole('button', { name: 'One used outside a stage' }).click();
    await expect
      .poll(async () => (await win.call<readonly PadRow[]>('stock.showPads', {}))[0])
      .toMatchObject({ clean: 5, dirty: 2 });
    expect(await page.getByText('The book had none clean.').count()).toBe(0);
    await win.shot('stock-pads-one');
  });

  it('lets a technician write down in the bay that a bottle was opened, and what is left in it', async () => {
    const bottles = page.getByRole('region', { name: 'Bottles, tubs and rolls' });
    await bottles.getByRole('button', { name: /^Item|Item$/ }).click();
    await page.getByRole('option', { name: new RegExp(`^${LONG}`) }).click();
    await bottles.getByRole('button', { name: 'One was opened' }).click();
    await bottles.getByRole('button', { name: 'Write it down' }).click();
    await bottles.getByText('1,000 ml of 1,000 ml').waitFor();
    await bottles.getByRole('button', { name: 'What is left' }).click();
    await page.getByRole('radio', { name: '4', exact: true }).check({ force: true });
    await win.holds();
    await win.shot('stock-bay-bottle');
    await bottles.getByRole('button', { name: 'Save what is left' }).click();
    await bottles.getByText('500 ml of 1,000 ml').waitFor();
    await bottles.getByRole('button', { name: 'Waste' }).click();
    await win.holds();
    expect(win.rows(`SELECT rest FROM container_reading WHERE how = 'level'`)).toEqual([{ rest: 500_000 }]);
    expect(win.faults).toEqual([]);
  });
});
