import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { InspectionView, StepView } from '#core/shared/views/paint.ts';
import { findChromium } from '../helpers/chromium.ts';
import { openJobFor, openShopWindow, type ShopWindow } from './shopWindow.ts';

const choice = findChromium();

/** The gauge's file and the machine steps, in the window, over the real door and a real file. */
describe.skipIf(choice === null)('readings from the gauge and machine steps', () => {
  let shop: ShopWindow;
  let jobId = '';

  beforeAll(async () => {
    if (!choice) return;
    shop = await openShopWindow(choice);
    jobId = await openJobFor(
      shop.call,
      { name: 'Marit Vane' },
      { body: 'saloon', makeModel: 'Velloy Merrin' },
    );
    await shop.call('paint.startInspection', { jobId });
  });
  afterAll(() => shop?.close());

  const paint = () => shop.call<InspectionView>('paint.inspectionOf', { jobId });
  const press = (name: string) => shop.page.getByRole('button', { name, exact: true }).click();
  async function file(bytes: Buffer): Promise<void> {
    const sent = { name: 'gauge.csv', mimeType: 'text/csv', buffer: bytes };
    await shop.page.locator('input[type="file"]').first().setInputFiles(sent);
  }

  it('takes a gauge’s file in whole or not at all, and names row and column', async () => {
    await shop.goTo(`/jobs/${jobId}/inspection`);
    await press('Paste from the gauge');
    await file(Buffer.from('panel,point,reading,unit\nbonnet,a,104.2,um\nwhale,b,99,um\n'));
    await press('Take in');
    await shop.page.getByText('Row 3, panel: nobody here knows a panel “whale”').waitFor();
    expect((await paint()).readingCount).toBe(0);
    await file(Buffer.from('panel,reading\nbonnet,104\nroof,\xff\n', 'latin1'));
    await press('Take in');
    await shop.page.getByText('Row 3, column reading:').waitFor();
    await file(Buffer.from('panel,point,reading,unit\nbonnet,a,104.2,um\nroof,b,4.1,mil\n'));
    await shop.page.getByText('after', { exact: true }).first().click();
    await shop.shot('gauge');
    await press('Take in');
    await shop.page.getByText('2 readings taken in').waitFor();
    const roof = (await paint()).panels.find((p) => p.panel === 'ro');
    expect(roof?.readings.map((r) => [r.phase, r.tenthUm])).toEqual([['after', 1041]]);
  });

  it('asks about figures that fit the other unit and takes them once somebody says so', async () => {
    await shop.page.getByRole('textbox', { name: 'Paste from the gauge' }).fill('panel,reading\nbonnet,12\n');
    await press('Take in');
    await shop.page.getByText('looks like mil').waitFor();
    await press('They are µm');
    await expect.poll(async () => (await paint()).readingCount).toBe(3);
  });

  it('shows what a pass takes, says what a fit lacks, and keeps a changed step', async () => {
    await shop.goTo('/steps');
    await shop.page.getByText('0.50 µm').first().waitFor();
    await shop.page.getByRole('row', { name: /^cut, heavy/ }).click();
    await press('Fit to our readings');
    await shop.page.getByText('No test spot of this step').waitFor();
    await shop.page.getByLabel('Turns a minute', { exact: true }).fill('1500');
    await shop.page.keyboard.press('Tab');
    await press('Keep the step');
    await shop.page.getByText('set by the shop').waitFor();
    const steps = await shop.call<readonly StepView[]>('paint.steps', {});
    const kept = steps.find((s) => s.role === 'heavyCut');
    expect(kept).toMatchObject({ speedRpm: 1500, own: true, revision: 1 });
    await shop.shot('steps');
  });

  it('asks whose pressure stands where another window changed it, and takes over the rest', async () => {
    await shop.page.getByLabel('Pressure', { exact: true }).fill('50');
    await shop.page.keyboard.press('Tab');
    const steps = await shop.call<readonly StepView[]>('paint.steps', {});
    const {
      tenthUmPerPass: _p,
      errorPerPass: _e,
      own: _o,
      spots: _s,
      ...seen
    } = steps.find((s) => s.role === 'heavyCut') as StepView;
    await shop.call('paint.setStep', { ...seen, pressureN: 60, padDiameterMm: 125 });
    const clash = shop.page.getByText('Pressure: 60', { exact: false });
    await clash.waitFor();
    await expect.poll(() => shop.page.getByLabel('Pad, across', { exact: true }).inputValue()).toBe('125');
    await press('Keep what is typed here');
    await press('Keep the step');
    await shop.page.getByText('Kept.').waitFor();
    const now = (await shop.call<readonly StepView[]>('paint.steps', {})).find((s) => s.role === 'heavyCut');
    expect(now).toMatchObject({ pressureN: 50, padDiameterMm: 125, revision: 3 });
  });

  it('says the rate in the unit that the shop reads film in', async () => {
    const rate = shop.page.getByLabel('Film in a thousand seconds of contact', { exact: true });
    expect(await rate.inputValue()).toBe('105');
    const page = await shop.call<{ readonly shop: { readonly revision: number } }>('shop.page', {});
    await shop.call('shop.update', { revision: page.shop.revision, filmUnit: 'mil' });
    // 105 µm are 4.134 mil of 25.4 µm.
    await expect.poll(() => rate.inputValue()).toBe('4.134');
    await shop.holds();
    expect(shop.faults).toEqual([]);
  });
});
