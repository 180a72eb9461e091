import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { callFrom } from '../e2e/pageCalls.ts';
import { axeOf } from '../helpers/axe.ts';
import { findChromium } from '../helpers/chromium.ts';
import { openJobFor, openShopWindow, PLAIN, type ShopWindow } from './shopWindow.ts';

const choice = findChromium();

/** From a made estimate to a credit note, by hand in the window, over the real door and a real file. */
describe.skipIf(choice === null)('money in the window', () => {
  let win: ShopWindow;
  let page: Page;
  let jobId = '';

  async function call<T>(name: string, input: unknown): Promise<T> {
    const value = await win.call<T>(name, input);
    expect(value, name).not.toBeNull();
    return value;
  }

  beforeAll(async () => {
    if (!choice) return;
    win = await openShopWindow(choice, PLAIN);
    page = win.page;
    jobId = await openJobFor(
      win.call,
      { name: 'Łucja Vane', email: 'l.vane@example.org' },
      { body: 'saloon', makeModel: 'Velloy Merrin' },
    );
    for (const wish of ['clean', 'protect', 'oneStage', 'twoStage'])
      await call('estimate.provisional', { jobId, wish });
  });
  afterAll(() => win?.close());

  it('makes a quote of two estimates, one either side of the tape', async () => {
    await win.goTo(`/jobs/${jobId}/quote`);
    const second = page.getByRole('checkbox').nth(1);
    await second.waitFor({ state: 'attached' });
    await second.check({ force: true });
    // Three at most: a fourth is switched off and says why, and none is taken out by itself.
    const boxes = page.getByRole('checkbox');
    await boxes.nth(2).check({ force: true });
    await page.getByText('A quote has three options at most: take one out first.').waitFor();
    expect(await boxes.nth(3).isDisabled()).toBe(true);
    for (const i of [0, 1, 2]) expect(await boxes.nth(i).isChecked()).toBe(true);
    await boxes.nth(2).uncheck({ force: true });
    expect(await boxes.nth(3).isDisabled()).toBe(false);
    await page.getByRole('button', { name: 'Make the quote' }).click();
    await page.getByRole('region', { name: 'Option B' }).waitFor();
    await page.getByText('What polishing will not fix').waitFor();
    const wide = await page.evaluate(() => document.documentElement.scrollWidth);
    expect(wide).toBe(1280);
  });

  it('wipes from option to option with the arrows', async () => {
    const tape = page.getByRole('slider').first();
    await tape.focus();
    await page.keyboard.press('ArrowLeft');
    expect(Number(await tape.getAttribute('aria-valuenow'))).toBe(49);
  });

  it('has nothing that axe objects to', async () => {
    const { violations } = await axeOf(page).analyze();
    expect(violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.target.join(' ')).join(', ')}`)).toEqual(
      [],
    );
  });

  it('keeps who agreed, and takes the deposit once', async () => {
    await page.getByRole('button', { name: /^Agree A/ }).click();
    await page.getByText(/Option A agreed by Łucja Vane, in person/).waitFor();
    await page.getByRole('button', { name: /^Take €/ }).click();
    await page.getByText(/is held for this job/).waitFor();
    const money = await call<{ depositMinor: number }>('billing.readJobMoney', { jobId });
    expect(money.depositMinor).toBeGreaterThan(0);
  });

  it('issues the invoice with the deposit taken off', async () => {
    const { invoiceId } = await call<{ invoiceId: string }>('billing.draftInvoice', { jobId });
    await win.goTo(`/money/${invoiceId}`);
    await page.getByRole('button', { name: 'Issue', exact: true }).click();
    await page
      .getByRole('alert')
      .getByText(/its car is not even here/)
      .waitFor();
    await page.getByRole('button', { name: 'Issue it before the work is done' }).click();
    await page.getByRole('heading', { name: 'Invoice 1' }).waitFor();
    await page.getByText('Deposit taken off').waitFor();
  });

  it('asks what money above the amount owed is, and books nothing until it is named', async () => {
    const amount = page.getByLabel('Amount', { exact: true });
    await amount.fill('99999');
    await amount.press('Enter');
    await page.getByRole('button', { name: /^Take €99,999/ }).click();
    await page
      .getByRole('alert')
      .getByText(/Say what the rest is/)
      .waitFor();
    const desk = await call<{ ageing: { owedMinor: number } }>('billing.readDesk', {});
    expect(desk.ageing.owedMinor).toBeGreaterThan(0);
    await amount.fill('10');
    await amount.press('Enter');
    // What can't be read is not replaced by what was readable before it.
    await amount.fill('ten');
    await amount.press('Enter');
    await page.getByRole('button', { name: 'Take €10.00' }).click();
    await page.getByText(/what is typed at “[^”]+” can’t be used/).waitFor();
    expect(await call('billing.readDesk', {})).toEqual(desk);
    await amount.fill('10');
    await amount.press('Enter');
    await page.getByRole('button', { name: 'Take €10.00' }).click();
    await page.getByText('payment, card').waitFor();
  });

  it('writes a credit note over the whole and then owes money back', async () => {
    await page.getByRole('button', { name: 'Credit note' }).click();
    await page.getByText('the whole document').click();
    await page.getByLabel('Reason, printed on it').fill('car sold before the work');
    await page.getByRole('button', { name: 'Write the credit note' }).click();
    await page.getByRole('heading', { name: 'Credit note 2' }).waitFor();
    await page.getByText('The shop owes on document 1').waitFor();
    await win.goTo('/money');
    // Nothing is to be paid on it any more: it stands among what is to be paid back.
    await page.getByText('to pay back', { exact: true }).click();
    await page
      .getByRole('row', { name: /Łucja Vane/ })
      .first()
      .waitFor();
    const desk = await call<{ payBack: readonly { owedMinor: number }[] }>('billing.readDesk', {});
    expect(desk.payBack[0]?.owedMinor).toBeLessThan(0);
  });

  it('bills a part of what was agreed, as far as somebody says, and says what stays for the final invoice', async () => {
    await win.goTo(`/jobs/${jobId}/partial`);
    const all = page.getByRole('textbox', { name: 'All lines up to' });
    await page.getByText('Proposed by the stages that are finished.').waitFor();
    await all.fill('150');
    await all.press('Enter');
    await page.getByText('From 0 to 100.').waitFor();
    await all.fill('40');
    await all.press('Enter');
    await page.getByRole('button', { name: 'Set all lines' }).click();
    await page.getByText('At least one line is above what is finished of it.').waitFor();
    await page.getByRole('button', { name: 'Draft the partial invoice' }).click();
    await page.getByText(/^This is the 1st partial invoice of its job\./).waitFor();
    await page.getByLabel('Note on the invoice').fill('as agreed by telephone');
    await page.getByRole('button', { name: 'Keep', exact: true }).click();
    await page.getByRole('button', { name: 'Issue', exact: true }).click();
    await page
      .getByRole('alert')
      .getByText(/more of job 1 than its finished stages/)
      .waitFor();
    await page.getByRole('button', { name: 'Issue it before the work is done' }).click();
    await page.getByRole('heading', { name: 'Partial invoice 3' }).waitFor();
    await win.goTo(`/jobs/${jobId}/partial`);
    await page.getByText(/^Partial invoice 3, /).waitFor();
    const { invoiceId } = await call<{ invoiceId: string }>('billing.draftInvoice', { jobId });
    await win.goTo(`/money/${invoiceId}`);
    await page.getByRole('heading', { name: 'Final invoice', level: 2 }).waitFor();
    await page.getByText(/^Billed before, partial invoice 3 of/).waitFor();
  });

  it('lights a cancelled job’s deposit, and moves it to the job that is chosen', async () => {
    const { id: customerId } = await call<{ id: string }>('people.addCustomer', { name: 'Änne Über-Örtel' });
    const vehicle = await call<{ id: string }>('people.addVehicle', {
      customerId,
      body: 'hatch',
      makeModel: 'Tarn Ketto',
    });
    const open = async (): Promise<string> => {
      const job = { customerId, vehicleId: vehicle.id, purpose: 'correction', wish: 'swirls' };
      const opened = await call<{ jobId: string }>('bookings.openJob', job);
      await call('estimate.provisional', { jobId: opened.jobId, wish: 'oneStage' });
      return opened.jobId;
    };
    const [given, kept] = [await open(), await open()];
    const [estimate] = await call<readonly { id: string }[]>('estimate.ofJob', { jobId: given });
    await call('billing.quoteEstimates', { jobId: given, estimateIds: [estimate?.id] });
    await call('billing.takeDeposit', { jobId: given, amountMinor: 12_000, way: 'card' });
    await callFrom(page, 'bookings.cancelJob', { jobId: given, reason: 'sold the car', deposit: null });
    await win.goTo('/money');
    await page.getByText('Deposits of jobs that are over').waitFor();
    await page.getByText(/say what becomes of it/).click();
    await page.getByText('moved', { exact: true }).click();
    await page.getByRole('button', { name: 'Move it' }).press('Enter');
    await page.getByRole('button', { name: /To which job/ }).click();
    await page.getByRole('option').first().click();
    await page.getByRole('button', { name: 'Move it' }).click();
    await expect
      .poll(
        async () =>
          (await call<{ depositMinor: number }>('billing.readJobMoney', { jobId: kept })).depositMinor,
      )
      .toBe(12_000);
    expect(
      (await call<{ depositMinor: number }>('billing.readJobMoney', { jobId: given })).depositMinor,
    ).toBe(0);
    const wide = await page.evaluate(() => document.documentElement.scrollWidth);
    expect(wide).toBe(1280);
    const { violations } = await axeOf(page).analyze();
    expect(violations.map((v) => v.id)).toEqual([]);
  });

  it('takes what is above as a named credit, lays it on another invoice, and pays the rest back', async () => {
    const { id: customerId } = await call<{ id: string }>('people.addCustomer', { name: 'Harbour Fleet' });
    const bill = async (priceMinor: number): Promise<string> => {
      const lines = [{ text: 'Drying cloth', quantity: 1, priceMinor }];
      const { invoiceId } = await call<{ invoiceId: string }>('billing.draftOther', { customerId, lines });
      await call('billing.issueInvoice', { invoiceId, revision: 1, aheadOfWork: true });
      return invoiceId;
    };
    const [first, second] = [await bill(1000), await bill(300)];
    await win.goTo(`/money/${first}`);
    await page.getByText('Drying cloth').waitFor();
    const amount = page.getByLabel('Amount', { exact: true });
    await amount.fill('15');
    await amount.press('Enter');
    await page.getByText('tip', { exact: true }).click();
    await page.getByRole('button', { name: /Whose tip/ }).waitFor();
    await page.getByText('credit for later', { exact: true }).click();
    await page.getByRole('button', { name: 'Take €15.00' }).click();
    await page.getByText('Paid in full').waitFor();
    await win.goTo(`/money/${second}`);
    await page.getByText('Harbour Fleet has €5.00 credit on account.').waitFor();
    await page.getByRole('button', { name: 'Use €3.00 of it here' }).click();
    await page.getByText('Paid in full').waitFor();
    await win.goTo('/money');
    await page.getByRole('button', { name: 'Pay back' }).click();
    await page.getByRole('button', { name: 'Pay back €2.00' }).click();
    await page.getByText('No credit is held.').waitFor();
  });

  it('drafts an invoice for goods that no job stands for, from the page of whoever buys them', async () => {
    const { id } = await call<{ id: string }>('people.addCustomer', { name: 'Harbour Rowing' });
    await win.goTo(`/customers/${id}`);
    await page.getByRole('link', { name: 'Invoice for goods' }).click();
    await page.getByLabel('What is sold').fill('Drying cloth');
    await page.getByLabel('How many').fill('2');
    await page.getByLabel('Price of one').fill('19.50');
    await page.getByRole('button', { name: 'Another line' }).click();
    const draft = page.getByRole('button', { name: 'Draft the invoice' });
    expect(await draft.getAttribute('title')).toBe('Each line needs what is sold, how many, and a price.');
    // The new line has the keyboard.
    await page.keyboard.type('Wash mitt');
    await page.getByLabel('Price of one').last().fill('12');
    await page.keyboard.press('Tab');
    await page.getByText('€51.00').waitFor();
    await win.holds();
    await win.shot('goods');
    await draft.click();
    await page.getByText('Wash mitt').waitFor();
    const { rows } = await call<{ rows: readonly { customer: string; toPayMinor: number }[] }>(
      'billing.listInvoices',
      { list: 'all', search: 'Harbour Rowing' },
    );
    expect(rows).toMatchObject([{ customer: 'Harbour Rowing', toPayMinor: 5100 }]);
  });

  it('takes money once for a double click, though the next sum stands there by then', async () => {
    const { id: customerId } = await call<{ id: string }>('people.addCustomer', { name: 'Noor Tarn' });
    const lines = [{ text: 'Drying cloth', quantity: 1, priceMinor: 1000 }];
    const { invoiceId } = await call<{ invoiceId: string }>('billing.draftOther', { customerId, lines });
    await call('billing.issueInvoice', { invoiceId, revision: 1, aheadOfWork: true });
    await win.goTo(`/money/${invoiceId}`);
    const amount = page.getByLabel('Amount', { exact: true });
    await amount.fill('4');
    await amount.press('Enter');
    const box = await page.getByRole('button', { name: 'Take €4.00' }).boundingBox();
    if (!box) throw new Error('not on the screen');
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await page.mouse.click(x, y);
    const rest = page.getByRole('button', { name: 'Take €6.00' });
    await rest.waitFor();
    await page.mouse.down({ clickCount: 2 });
    await page.mouse.up({ clickCount: 2 });
    await page.waitForTimeout(300);
    expect(await rest.count()).toBe(1);
  });

  it('reaches every credit that is held, however many there are', async () => {
    for (const name of ['Brisk', 'Dray', 'Ellory', 'Farrow', 'Holm']) {
      const { id: customerId } = await call<{ id: string }>('people.addCustomer', { name });
      const lines = [{ text: 'Drying cloth', quantity: 1, priceMinor: 500 }];
      const { invoiceId } = await call<{ invoiceId: string }>('billing.draftOther', { customerId, lines });
      await call('billing.issueInvoice', { invoiceId, revision: 1, aheadOfWork: true });
      const paid = { invoiceIds: [invoiceId], amountMinor: 1000, way: 'cash', surplus: 'credit' };
      await call('billing.takePayment', paid);
    }
    await win.goTo('/desk');
    await win.goTo('/money');
    const back = page.getByRole('button', { name: 'Pay back', exact: true });
    await expect.poll(() => back.count()).toBe(4);
    await page.getByRole('button', { name: '1 more' }).click();
    expect(await back.count()).toBe(5);
  });

  it('prints every document as a real PDF, from the faces shipped with the program', async () => {
    const quote = await call<{ id: string }>('billing.readJobQuote', { jobId });
    const head = await page.evaluate(async (quoteId) => {
      const answer = await fetch('/rpc', {
        method: 'POST',
        headers: {
          'content-type': 'application/json',
          authorization: `Bearer ${sessionStorage.getItem('rakelight.window') ?? ''}`,
        },
        body: JSON.stringify({
          name: 'billing.quoteFile',
          input: { quoteId },
          session: sessionStorage.getItem('rakelight.session'),
        }),
      });
      return (await answer.text()).slice(0, 400);
    }, quote.id);
    // The bytes travel as base64: `%PDF-1.7` begins with JVBERi0xLj.
    expect(head).toContain('JVBERi0xLj');
    expect(win.faults).toEqual([]);
  });
});
