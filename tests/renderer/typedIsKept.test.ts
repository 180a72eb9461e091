import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CAR_RECORD } from '#tests/helpers/bookedJob.ts';
import { findChromium } from '../helpers/chromium.ts';
import { openJobFor, openShopWindow, type ShopWindow } from './shopWindow.ts';

const choice = findChromium();
const DAY_MS = 86_400_000;

/** What somebody types is neither lost, nor passed over, nor carried to another record. */
describe.skipIf(choice === null)('what is typed', () => {
  let win: ShopWindow;
  const press = (name: string): Promise<void> =>
    win.page.getByRole('button', { name, exact: true }).first().click();

  beforeAll(async () => {
    if (choice) win = await openShopWindow(choice);
  });
  afterAll(() => win?.close());

  it('is saved before a draft can be issued: an issued invoice never changes', async () => {
    const { id: customerId } = await win.call<{ id: string }>('people.addCustomer', { name: 'Marit Vane' });
    const lines = [{ text: 'Drying cloth', quantity: 1, priceMinor: 3000 }];
    const { invoiceId } = await win.call<{ invoiceId: string }>('billing.draftOther', { customerId, lines });
    await win.goTo(`/money/${invoiceId}`);
    const discount = win.page.getByLabel('Discount on the whole');
    await discount.fill('5');
    await discount.press('Enter');
    const issue = win.page.getByRole('button', { name: 'Issue', exact: true });
    await issue.click({ force: true });
    expect(await issue.getAttribute('title')).toBe('Keep what is typed below first.');
    expect(win.rows('SELECT number FROM invoice WHERE number IS NOT NULL')).toEqual([]);
    await press('Keep');
    await win.page.getByText('−5.00').waitFor();
    await issue.click();
    await win.page.getByRole('heading', { name: 'Invoice 1' }).waitFor();
  });

  it('stays with its own item when another one is opened over it', async () => {
    const ids: string[] = [];
    for (const name of ['Heavy-cut compound', 'Panel wipe']) {
      const item = { name, unit: 'ul', packSize: 1_000_000, opening: { amount: 900_000, valueMinor: 900 } };
      ids.push((await win.call<{ itemId: string }>('stock.addItem', item)).itemId);
    }
    const [first, second] = ids;
    await win.goTo(`/stock/items/${second}`);
    await win.page.getByRole('heading', { name: 'Panel wipe', level: 1 }).waitFor();
    await win.goTo(`/stock/items/${first}`);
    await win.page.getByRole('heading', { name: 'Heavy-cut compound', level: 1 }).waitFor();
    await press('Waste');
    await win.page.getByLabel('Why', { exact: true }).fill('the bottle fell');
    await win.goTo(`/stock/items/${second}`);
    await win.page.getByRole('heading', { name: 'Panel wipe', level: 1 }).waitFor();
    expect(await win.page.getByLabel('Why', { exact: true }).count()).toBe(0);
  });

  it('stays on the screen while the program does not answer for a moment', async () => {
    const { id } = await win.call<{ id: string }>('people.addCustomer', { name: 'Greta Holm' });
    await win.goTo(`/customers/${id}`);
    const note = win.page.getByLabel('note', { exact: true });
    await note.fill('rings back on Friday');
    await win.page.route('**/rpc', (route) =>
      route.request().postData()?.includes('"shop.state"') ? route.abort() : route.continue(),
    );
    const { shop } = await win.call<{ shop: { revision: number } }>('shop.page', {});
    const changes = [{ setting: 'billing.termsDays', value: 21 }];
    await win.call('shop.changeSettings', { revision: shop.revision, changes });
    await win.page.waitForTimeout(500);
    await win.page.unrouteAll({ behavior: 'wait' });
    expect(await note.inputValue()).toBe('rings back on Friday');
  });

  it('goes on while the save before it is still on its way', async () => {
    const { id } = await win.call<{ id: string }>('people.addCustomer', { name: 'Anton Brisk' });
    await win.goTo(`/customers/${id}`);
    const note = win.page.getByLabel('note', { exact: true });
    await note.fill('rings');
    await win.page.route('**/rpc', async (route) => {
      const isSave = route.request().postData()?.includes('"people.changeCustomer"');
      if (isSave) await new Promise((done) => setTimeout(done, 600));
      await route.continue();
    });
    await press('Save');
    await note.fill('rings on Friday');
    await win.page.getByText('saved', { exact: false }).first().waitFor();
    await expect
      .poll(() => win.rows(`SELECT note FROM customer WHERE id = '${id}'`))
      .toEqual([{ note: 'rings' }]);
    await win.page.waitForTimeout(300);
    await win.page.unrouteAll({ behavior: 'wait' });
    expect(await note.inputValue()).toBe('rings on Friday');
  });

  it('said once of pictures, before or after work, holds from panel to panel', async () => {
    const car = { body: 'saloon', makeModel: 'Velloy Merrin' };
    const jobId = await openJobFor(win.call, { name: 'Celia Pell' }, car);
    await win.call('bookings.arrive', { jobId, ...CAR_RECORD, picturesRecord: true });
    await win.goTo(`/jobs/${jobId}/pictures`);
    const after = win.page.getByRole('radio', { name: 'after', exact: true });
    await after.check({ force: true });
    await win.page.locator('[data-panel="ro"][role="button"]').click();
    await win.page.getByRole('heading', { name: 'roof' }).waitFor();
    expect(await after.isChecked()).toBe(true);
  });

  it('is forgotten after three days, whoever left it', async () => {
    await win.page.evaluate((days) => {
      const kept = (ago: number): string =>
        JSON.stringify({ atMs: Date.now() - ago * days, value: { name: 'Marit Vane' } });
      localStorage.setItem('rakelight.draft.somebody.call.1', kept(4));
      localStorage.setItem('rakelight.draft.somebody.call.2', kept(2));
    }, DAY_MS);
    await win.page.reload();
    await win.page.getByRole('navigation').first().waitFor();
    const left = await win.page.evaluate(() =>
      Object.keys(localStorage).filter((key) => key.includes('call')),
    );
    expect(left).toEqual(['rakelight.draft.somebody.call.2']);
  });

  it('is said to be unsaved when a file cannot be written', async () => {
    await win.goTo('/money/tax');
    await win.page.getByRole('button', { name: /journal/i }).waitFor();
    await win.page.evaluate(() => {
      URL.createObjectURL = () => {
        throw new Error('the disk is full');
      };
    });
    await win.page.getByRole('button', { name: /journal/i }).click();
    await win.page
      .getByRole('alert')
      .getByText(/was not saved/)
      .waitFor();
    expect(win.faults).toEqual([]);
  });
});
