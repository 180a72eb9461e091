import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CAR_RECORD, planned } from '../helpers/bookedJob.ts';
import { findChromium } from '../helpers/chromium.ts';
import { openShopWindow, type ShopWindow } from './shopWindow.ts';

const choice = findChromium();

/** Somebody leaves: what was placed with them is listed, what they did stays theirs. */
describe.skipIf(choice === null)('a leaver', () => {
  let win: ShopWindow;
  let doneJob = '';
  const dayIn = (days: number): Date => new Date(Date.now() + days * 86_400_000);
  const vienna = (at: Date, style: Intl.DateTimeFormatOptions): string =>
    new Intl.DateTimeFormat('en-GB', { timeZone: 'Europe/Vienna', ...style }).format(at);

  async function openJob(customerId: string, vehicleId: string): Promise<string> {
    const job = { customerId, vehicleId, purpose: 'correction', wish: 'swirls' };
    const { jobId } = await win.call<{ jobId: string }>('bookings.openJob', job);
    const stages = [planned('wash'), planned('cut')];
    await win.call('bookings.setStages', { jobId, basis: 'agreed', stages });
    return jobId;
  }

  beforeAll(async () => {
    if (!choice) return;
    win = await openShopWindow(choice);
    const people = await win.call<readonly { id: string; name: string }[]>('access.people', {});
    const personId = people.find((p) => p.name === 'Wren Tarn')?.id ?? '';
    const { id: customerId } = await win.call<{ id: string }>('people.addCustomer', {
      name: 'Änne Über-Örtel',
    });
    const vehicle = { customerId, body: 'saloon', makeModel: 'Velloy Merrin' };
    const { id: vehicleId } = await win.call<{ id: string }>('people.addVehicle', vehicle);
    doneJob = await openJob(customerId, vehicleId);
    await win.call('bookings.arrive', { jobId: doneJob, ...CAR_RECORD });
    const { stages } = await win.call<{ stages: readonly { id: string }[] }>('bookings.job', {
      jobId: doneJob,
    });
    await win.call('bookings.startStage', { stageId: stages[0]?.id, personId });
    await win.call('bookings.finishStage', { stageId: stages[0]?.id });
    const notBeforeMin = Math.floor(dayIn(2).getTime() / 60_000);
    await win.call('bays.bookEarliest', { jobId: await openJob(customerId, vehicleId), notBeforeMin });
  });
  afterAll(() => win?.close());

  it('is asked for the stages that are still placed with them before the day is kept', async () => {
    const { page } = win;
    await win.goTo('/shop');
    const counted = page.getByRole('button', { name: /^People/ });
    await counted.click();
    await page.getByRole('button', { name: /^Wren Tarn/ }).click();
    const digits = vienna(dayIn(0), { day: '2-digit', month: '2-digit', year: 'numeric' }).replaceAll(
      '/',
      '',
    );
    await page.getByRole('group', { name: 'last day' }).getByRole('spinbutton').first().click();
    await page.keyboard.type(digits);
    const placed = page.getByRole('list', { name: /Wren Tarn/ });
    await placed
      .getByText(/cut, Änne Über-Örtel/)
      .first()
      .waitFor();
    await win.shot('leaver');
    await win.holds();
    await page.getByRole('button', { name: 'Ends on this day' }).click();
    const until = vienna(dayIn(0), { day: 'numeric', month: 'short', year: 'numeric' });
    await page.getByText(new RegExp(`until ${until}`)).waitFor();
    await placed
      .getByText(/cut, Änne Über-Örtel/)
      .first()
      .waitFor();
    // Today they are still here: counted, and may be away for the rest of it.
    expect(await counted.textContent()).toContain('2 people');
  });

  it('still stands in what they did', async () => {
    const { stages } = await win.call<{
      stages: readonly { state: string; people: readonly { name: string }[] }[];
    }>('bookings.job', { jobId: doneJob });
    expect(stages[0]).toMatchObject({ state: 'done' });
    expect(JSON.stringify(stages[0])).toContain('Wren Tarn');
    await win.goTo(`/jobs/${doneJob}`);
    await win.page
      .getByText(/Wren Tarn/)
      .first()
      .waitFor();
    expect(win.faults).toEqual([]);
  });
});
