import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { findChromium } from '../helpers/chromium.ts';
import { openShopWindow, type ShopWindow } from './shopWindow.ts';

const choice = findChromium();

/** A customer's form, while somebody else saves the same customer through the same door. */
describe.skipIf(choice === null)('two windows on one customer', () => {
  let win: ShopWindow;
  let customerId = '';
  const kept = () => win.rows('SELECT phone, note, revision FROM customer')[0];
  const elsewhere = (said: object): Promise<unknown> =>
    win.call('people.changeCustomer', { customerId, revision: kept()?.['revision'], ...said });

  /** Saves are kept at once and answered 0.8 s later. */
  const answerSavesLate = (): Promise<unknown> =>
    win.page.route('**/rpc', async (route) => {
      if (route.request().postData()?.includes('people.changeCustomer') !== true) return route.continue();
      const response = await route.fetch();
      await new Promise((done) => setTimeout(done, 800));
      await route.fulfill({ response });
    });

  beforeAll(async () => {
    if (!choice) return;
    win = await openShopWindow(choice);
    customerId = (await win.call<{ id: string }>('people.addCustomer', { name: 'Marit Vane' })).id;
    await win.goTo(`/customers/${customerId}`);
  }, 90_000);
  afterAll(() => win?.close());

  it('the typing stays, their change stands in the form, and saving keeps both', async () => {
    const note = win.page.getByLabel('note', { exact: true });
    await note.fill('comes at seven');
    await elsewhere({ phone: '0555 999' });
    await win.page.getByText(/taken over here: telephone: 0555 999/).waitFor();
    expect(await note.inputValue()).toBe('comes at seven');
    await win.page.getByRole('button', { name: 'Save', exact: true }).click();
    await win.page.getByText('saved', { exact: true }).waitFor();
    expect(kept()).toMatchObject({ phone: '0555 999', note: 'comes at seven' });
  });

  it('its own save is not held against it when the saved record is there before the answer', async () => {
    const note = win.page.getByLabel('note', { exact: true });
    await note.fill('comes at nine');
    await answerSavesLate();
    await win.page.getByRole('button', { name: 'Save', exact: true }).click();
    await win.page.getByText('saved', { exact: true }).waitFor();
    // What is still on its way is let through first.
    await win.page.unrouteAll({ behavior: 'wait' });
    await note.fill('comes at ten');
    expect(await win.page.getByText('Changed in another window').count()).toBe(0);
    await win.page.getByRole('button', { name: 'Save', exact: true }).click();
    await expect.poll(() => kept()?.['note']).toBe('comes at ten');
    await win.page.getByText('saved', { exact: true }).waitFor();
  });

  it('typed on while its own save is answered late, it still asks where they wrote meanwhile', async () => {
    const note = win.page.getByLabel('note', { exact: true });
    await note.fill('comes at ten sharp');
    await answerSavesLate();
    await win.page.getByRole('button', { name: 'Save', exact: true }).click();
    await expect.poll(() => kept()?.['note']).toBe('comes at ten sharp');
    await note.fill('comes at noon');
    await elsewhere({ note: 'comes at ten' });
    await win.page.unrouteAll({ behavior: 'wait' });
    await win.page.getByText('Changed in another window while you typed here.').waitFor();
    expect(await note.inputValue()).toBe('comes at noon');
    await win.page.getByRole('button', { name: 'Take what was saved there' }).click();
    expect(await note.inputValue()).toBe('comes at ten');
  });

  it('saved twice at once, the second is not held against the first, whose record is not back yet', async () => {
    const note = win.page.getByLabel('note', { exact: true });
    const save = win.page.getByRole('button', { name: 'Save', exact: true });
    let letThrough = (): void => undefined;
    const held = new Promise<void>((done) => {
      letThrough = done;
    });
    await win.page.route('**/rpc', async (route) => {
      if (route.request().postData()?.includes('people.customerPage') === true) await held;
      await route.continue();
    });
    await note.fill('comes at six');
    await save.click();
    await win.page.getByText('saved', { exact: true }).waitFor();
    await note.fill('comes at six sharp');
    await save.click();
    await expect.poll(() => kept()?.['note']).toBe('comes at six sharp');
    letThrough();
    await win.page.unrouteAll({ behavior: 'wait' });
    expect(await win.page.getByText('Changed in another window while').count()).toBe(0);
  });

  it('a letter typed between the answer to a save and its drawing forgets neither', async () => {
    const note = win.page.getByLabel('note', { exact: true });
    const before = String(kept()?.['note']);
    await holdDrawing(win);
    await note.fill('comes at three');
    await answerSavesLate();
    const answered = win.page.waitForResponse(
      (of) => of.request().postData()?.includes('comes at three') === true,
    );
    await win.page.getByRole('button', { name: 'Save', exact: true }).click();
    await expect.poll(() => kept()?.['note']).toBe('comes at three');
    await note.focus();
    await win.page.evaluate('drawing.hold()');
    await (await answered).finished();
    await win.page.waitForFunction('drawing.waits() > 0');
    await note.fill('comes at four');
    await win.page.evaluate('drawing.go()');
    await win.page.unrouteAll({ behavior: 'wait' });
    await elsewhere({ note: before });
    await win.page.getByText('Changed in another window while you typed here.').waitFor();
    await win.page.getByRole('button', { name: 'Take what was saved there' }).click();
  });

  it('where both wrote, the person chooses before anything is saved', async () => {
    const note = win.page.getByLabel('note', { exact: true });
    await note.fill('comes at eight');
    await elsewhere({ note: 'comes at nine' });
    await win.page.getByText('Changed in another window while you typed here.').waitFor();
    expect(await note.inputValue()).toBe('comes at eight');
    await win.shot('two-windows');
    await win.page.getByRole('button', { name: 'Keep what is typed here' }).click();
    await win.page.getByRole('button', { name: 'Save', exact: true }).click();
    await expect.poll(() => kept()?.['note']).toBe('comes at eight');
    expect(win.faults).toEqual([]);
  });
});

/** Lets the test hold back what the page draws later: React waits for its turn by a message to itself, a question by a timer. */
async function holdDrawing({ page }: ShopWindow): Promise<void> {
  await page.evaluate(() => {
    const { postMessage } = MessagePort.prototype;
    const { setTimeout: later } = window;
    const held: (() => void)[] = [];
    let holds = false;
    const turn = (draw: () => void): unknown => (holds ? held.push(draw) : draw());
    MessagePort.prototype.postMessage = function said(this: MessagePort, ...what: [unknown]) {
      turn(() => postMessage.apply(this, what as never));
    };
    window.setTimeout = ((what: () => void, ms?: number) =>
      ms ? later(what, ms) : turn(() => later(what, 0))) as never;
    const hold = (): void => {
      holds = true;
    };
    const go = (): void => {
      holds = false;
      for (const draw of held.splice(0)) draw();
    };
    Object.assign(window, { drawing: { hold, go, waits: () => held.length } });
  });
}
