import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { JobView } from '#core/shared/views/bookings.ts';
import type { InspectionView } from '#core/shared/views/paint.ts';
import { CAR_RECORD, planned } from '#tests/helpers/bookedJob.ts';
import { findChromium } from '../helpers/chromium.ts';
import { openJobFor, openShopWindow, type ShopWindow } from './shopWindow.ts';

const choice = findChromium();

/** Everything that is typed in the bay, without leaving the card, over the real door and a real file. */
describe.skipIf(choice === null)('the job card in the bay', () => {
  let shop: ShopWindow;
  let jobId = '';

  beforeAll(async () => {
    if (!choice) return;
    shop = await openShopWindow(choice);
    const customer = await shop.call<{ id: string }>('people.addCustomer', {
      name: 'Jörg Ößterling-Fennimore van der Hexelbach zu Underwood-Marsh',
    });
    const car = { customerId: customer.id, body: 'saloon', makeModel: 'Velloy Merrin' };
    const vehicle = await shop.call<{ id: string }>('people.addVehicle', car);
    const opened = await shop.call<{ jobId: string }>('bookings.openJob', {
      ...{ customerId: customer.id, vehicleId: vehicle.id, purpose: 'correction', wish: '' },
    });
    jobId = opened.jobId;
    const stages = [planned('clay'), planned('cut')];
    await shop.call('bookings.setStages', { jobId, basis: 'provisional', stages });
    await shop.call('bookings.arrive', { jobId, ...CAR_RECORD });
    await shop.goTo(`/jobs/${jobId}/card`);
    await shop.page.getByRole('navigation', { name: 'Stages' }).waitFor();
  });
  afterAll(() => shop?.close());

  const job = () => shop.call<JobView>('bookings.job', { jobId });
  const paint = () => shop.call<InspectionView | null>('paint.inspectionOf', { jobId });
  const press = (name: string) => shop.page.getByRole('button', { name, exact: true }).click();
  /** No target of the thumb is smaller than 44 px. */
  async function largeTargets(): Promise<void> {
    const small = await shop.page.evaluate(() =>
      [...document.querySelectorAll<HTMLElement>('main button, main a, main label[data-on]')]
        .map((el) => ({ text: el.textContent || el.ariaLabel, box: el.getBoundingClientRect() }))
        .filter(({ box }) => box.width > 0 && (box.height < 44 || box.width < 44))
        .map(({ text, box }) => `${text}: ${box.width} × ${box.height}`),
    );
    expect(small).toEqual([]);
  }

  it('clocks the time of the technician that is chosen, while the owner stays signed in', async () => {
    await shop.page.getByRole('button', { name: /^clay/ }).click();
    await shop.page.getByText('Wren Tarn', { exact: true }).click();
    await largeTargets();
    await press('Start');
    await shop.page.getByText('at it').waitFor();
    const clay = (await job()).stages[0];
    expect(clay?.work.map((w) => w.person.name)).toEqual(['Wren Tarn']);
    await shop.shot('card-who');
    await press('Pause');
    await shop.page.getByRole('button', { name: 'Go on' }).waitFor();
    expect((await job()).stages[0]?.state).toBe('paused');
  });

  it('starts the inspection from the card and takes readings typed on the large keys', async () => {
    await press('Reading');
    await press('Start the inspection');
    await shop.page.getByRole('button', { name: 'next reading' }).waitFor();
    await shop.page.locator('[data-panel="ro"]').click();
    for (const key of ['1', '0', '4', 'decimal mark', '2', 'next reading', '1', '0', '6']) await press(key);
    await shop.shot('card-reading');
    await largeTargets();
    await press('Keep these readings');
    await shop.page.getByRole('button', { name: 'Remove 104.2' }).waitFor();
    const roof = (await paint())?.panels.find((p) => p.panel === 'ro');
    expect(roof?.readings.map((r) => [r.phase, r.tenthUm])).toEqual([
      ['before', 1042],
      ['before', 1060],
    ]);
    await press('Remove 104.2');
    await expect.poll(async () => (await paint())?.readingCount).toBe(1);
    await shop.holds();
    await press('Back to the stage');
  });

  it('asks about figures that fit the other unit, and keeps nothing meanwhile', async () => {
    await press('Reading');
    await shop.page.locator('[data-panel="bo"]').click();
    await shop.page.getByLabel('readings in µm').fill('4.1 4.2');
    await press('Keep these readings');
    await shop.page.getByText('looks like mil').waitFor();
    expect((await paint())?.readingCount).toBe(1);
    await press('They are mil');
    await expect.poll(async () => (await paint())?.readingCount).toBe(3);
    await press('Back to the stage');
  });

  it('records a test spot with its panel, step, passes and time', async () => {
    await press('Test spot');
    await largeTargets();
    await shop.page.locator('[data-panel="ro"]').click();
    await shop.page.getByText('one step', { exact: true }).click();
    for (let n = 0; n < 4; n += 1) await press('passes +');
    await press('passes −');
    await shop.page.getByLabel('seconds for its sections').fill('300');
    await shop.page.keyboard.press('Tab');
    await shop.shot('card-spot');
    await press('Record the test spot');
    await shop.page.getByText('The test spot is kept').waitFor();
    const reply = await shop.call<readonly unknown[]>('paint.steps', {});
    expect(reply.length).toBe(4);
    const spot = shop.rows('SELECT panel, role, passes, sections, actual_s AS seconds FROM test_spot');
    expect(spot).toEqual([{ panel: 'ro', role: 'oneStep', passes: 3, sections: 1, seconds: 300 }]);
  });

  it('keeps no earlier time of a test spot while the watch runs for the next', async () => {
    await press('Test spot');
    await press('passes +');
    await shop.page.getByLabel('seconds for its sections').fill('300');
    await press('Start the watch');
    const record = shop.page.getByRole('button', { name: 'Record the test spot' });
    expect(await record.getAttribute('aria-disabled')).toBe('true');
    await press('Stop the watch');
    await expect.poll(() => record.getAttribute('aria-disabled')).toBe('false');
    await press('Back to the stage');
  });

  it('notes something on the stage in hand', async () => {
    await press('Note');
    await shop.page.getByRole('textbox', { name: 'Note' }).fill('old overspray under the sill');
    await press('Keep the note');
    const noted = async () => (await job()).stages.flatMap((s) => s.notes.map((n) => n.text));
    await expect.poll(noted).toContain('old overspray under the sill');
  });

  it('keeps who was chosen while something is noted', async () => {
    await shop.page.getByText('Wren Tarn', { exact: true }).click();
    await press('Note');
    await press('Back to the stage');
    expect(await shop.page.getByRole('radio', { name: /^Wren Tarn/ }).isChecked()).toBe(true);
  });

  it('cuts no pasted note: it says how much is too much, and keeps nothing until it fits', async () => {
    await press('Note');
    const note = shop.page.getByRole('textbox', { name: 'Note' });
    await note.fill('x'.repeat(1003));
    await shop.page.getByText('3 letters too many: it takes 1000 at most').waitFor();
    await press('Keep the note');
    await shop.page.getByText(/what is typed at “[^”]+” can’t be used/).waitFor();
    expect((await note.inputValue()).length).toBe(1003);
    await note.fill('x'.repeat(990));
    await shop.page.getByText('10 more letters fit.').waitFor();
    await press('Keep the note');
    const noted = async () => (await job()).stages.flatMap((s) => s.notes.map((n) => n.text.length));
    await expect.poll(noted).toContain(990);
  });

  it('shows every caution of a stage without a scroll, before how it is done', async () => {
    await shop.page.getByRole('button', { name: /^cut/ }).click();
    const last = await shop.page.getByText('Oily towels into the lidded bin.').boundingBox();
    const row = await shop.page.getByRole('group', { name: 'Who works' }).boundingBox();
    expect((last?.y ?? 800) + (last?.height ?? 0)).toBeLessThan(row?.y ?? 0);
  });

  it('stays with the card when somebody else signs in at it', async () => {
    const stages = shop.page.getByRole('navigation', { name: 'Stages' });
    await shop.page.getByRole('link', { name: 'Signed in: Dev Ostler' }).click();
    await shop.page.getByRole('button', { name: /^Wren Tarn/ }).click();
    await stages.waitFor();
    await shop.page.getByRole('link', { name: 'Signed in: Wren Tarn' }).click();
    await shop.page.getByRole('link', { name: 'Stay as you are' }).click();
    await stages.waitFor();
    await shop.page.getByRole('link', { name: 'Signed in: Wren Tarn' }).click();
    await shop.page.getByRole('button', { name: /^Dev Ostler/ }).click();
    await stages.waitFor();
    await largeTargets();
  });

  it('books draws corrected by the natural step, by the large one, and typed', async () => {
    const blades = { name: 'Blades', unit: 'piece', packSize: 10, opening: { amount: 20, valueMinor: 100 } };
    await shop.call('stock.addItem', blades);
    await shop.page.getByRole('button', { name: /^cut/ }).click();
    await press('Start');
    await shop.page.getByLabel('Why').fill('clayed at the last visit');
    for (const rule of ['Not decontaminated yet', 'Not clayed yet']) {
      await shop.page.getByText(rule).waitFor();
      await press('Approve under my name');
    }
    await shop.page.getByRole('button', { name: 'Pause', exact: true }).waitFor();
    const toUsedUp = async (): Promise<void> => {
      const hold = shop.page.getByRole('button', { name: 'Hold to finish' });
      await hold.hover();
      await shop.page.mouse.down();
      await shop.page.getByRole('region', { name: 'Used up' }).waitFor();
      await shop.page.mouse.up();
    };
    await toUsedUp();
    await largeTargets();
    const field = shop.page.getByLabel('heavy-cut compound', { exact: true });
    const said = async () => field.inputValue();
    expect(await said()).toBe('30');
    // A digit too many is asked after before it leaves the stock, and may still be right.
    await field.fill('300');
    await field.blur();
    await shop.page.getByText('10 times as much as proposed: a digit may be wrong.').waitFor();
    await field.fill('30');
    await field.blur();
    await shop.page.getByText('times as much as proposed').waitFor({ state: 'detached' });
    await press('heavy-cut compound +');
    await expect.poll(said).toBe('31');
    await press('heavy-cut compound +3 ml');
    await expect.poll(said).toBe('34');
    await press('Something else was used');
    await shop.page
      .getByRole('region', { name: 'Used up' })
      .getByRole('button', { name: /What else$/ })
      .click();
    await shop.page.getByRole('option', { name: 'Blades' }).click();
    await press('Blades +');
    await press('Blades +');
    await largeTargets();
    await field.fill('32.5');
    await shop.page.keyboard.press('Tab');
    await shop.shot('card-used');
    await shop.page.getByRole('link', { name: 'Back to the job' }).click();
    // Come back before the card is gone, it has never been left: what it asks is still there, its stages are not.
    await shop.page.getByRole('region', { name: 'Used up' }).waitFor({ state: 'detached' });
    await shop.page.goBack();
    const stages = shop.page.getByRole('navigation', { name: 'Stages' });
    await stages.getByRole('button', { name: /^cut/ }).click();
    await toUsedUp();
    await shop.page.getByText('not saved yet').waitFor();
    expect(await said()).toBe('32.5');
    await shop.holds();
    await press('Finish the stage');
    await shop.page.getByRole('navigation', { name: 'Stages' }).waitFor();
    const cut = (await job()).stages.find((s) => s.kind === 'cut');
    expect(cut?.state).toBe('done');
    // kept with what else was typed while the card was left, and drawn with the stage
    expect(shop.rows('SELECT qty, stage_id FROM stock_movement WHERE qty < 0')).toEqual([
      { qty: -2, stage_id: cut?.id },
    ]);
    expect(shop.faults).toEqual([]);
  });

  it('shows ten stages at once, without scrolling sideways for the last', async () => {
    const car = { body: 'saloon', makeModel: 'Harrowe Lintel' };
    const tenId = await openJobFor(shop.call, { name: 'Dev Ostler' }, car);
    const kinds = ['wash', 'decontaminate', 'clay', 'mask', 'cut', 'refine', 'panelWipe', 'protect'] as const;
    const stages = [...kinds, 'interior', 'finalCheck'] as const;
    await shop.call('bookings.setStages', {
      ...{ jobId: tenId, basis: 'provisional' },
      stages: stages.map((kind) => planned(kind)),
    });
    await shop.goTo(`/jobs/${tenId}/card`);
    const row = shop.page.getByRole('navigation', { name: 'Stages' });
    await expect.poll(() => row.getByRole('button').count()).toBe(10);
    expect(await row.evaluate((el) => el.scrollWidth - el.clientWidth)).toBe(0);
    await largeTargets();
    await shop.shot('card-ten');
  });
});
