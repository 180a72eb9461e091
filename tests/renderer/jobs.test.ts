import { mkdtempSync, rmSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { JobView } from '#core/shared/views/bookings.ts';
import { planned } from '#tests/helpers/bookedJob.ts';
import { type HostProcess, startProgram } from '../bridge/hostProcess.ts';
import { callFrom } from '../e2e/pageCalls.ts';
import { findChromium, launchChromium } from '../helpers/chromium.ts';

const choice = findChromium();
const TOKEN = 'cd'.repeat(32);
const NAME = 'Jörg Ößterling-Fennimore van der Hexelbach zu Underwood-Marsh';
const SET_UP = {
  shop: {
    name: 'Emberwick Paintwork',
    address: '4 Low Tannery Yard\nEmberwick',
    taxNumber: 'AT00000000',
    country: 'AT',
    zone: 'Europe/Vienna',
    currency: 'EUR',
    locale: 'en-GB',
    filmUnit: 'um',
    volumeUnit: 'ml',
    lengthUnit: 'm',
    paper: 'A4',
  },
  owner: { name: 'Dev Ostler', token: TOKEN },
  rates: [{ hourMinor: 8500 }],
  taxes: [{ name: 'VAT', category: 'S', ratePpm: 200_000 }],
};

/** A car from the counter to the customer's hands, in the window, over the real door and a real file. */
describe.skipIf(choice === null)('a job in the window', () => {
  const folder = mkdtempSync(path.join(os.tmpdir(), 'rakelight-jobs-'));
  const faults: string[] = [];
  let host: HostProcess;
  let browser: Browser;
  let page: Page;
  let jobId = '';

  async function call<T>(name: string, input: unknown): Promise<T> {
    const value = await callFrom(page, name, input);
    return value as T;
  }
  async function show(hash: string): Promise<void> {
    await page.evaluate((to) => {
      location.hash = to;
    }, hash);
  }
  async function look(name: string): Promise<void> {
    const into = process.env['RAKELIGHT_LOOK'];
    if (into) await page.screenshot({ path: path.join(into, `${name}.png`) });
  }

  beforeAll(async () => {
    if (!choice) return;
    host = startProgram('start', ['--browser', '--data', folder]);
    const [, url = ''] = await host.said(/Rakelight is ready at (\S+)/);
    browser = await launchChromium(choice);
    page = await (await browser.newContext({ reducedMotion: 'reduce' })).newPage();
    page.setDefaultTimeout(5000);
    page.on('pageerror', (problem) => faults.push(problem.message));
    await page.setViewportSize({ width: 1280, height: 800 });
    await page.goto(url);
    await page.locator('main').first().waitFor();
    await call('shop.setUp', SET_UP);
    await page.evaluate((token) => sessionStorage.setItem('rakelight.session', token), TOKEN);
    await page.reload();
    const customer = await call<{ id: string }>('people.addCustomer', { name: NAME });
    const vehicle = await call<{ id: string }>('people.addVehicle', {
      customerId: customer.id,
      body: 'hatch',
      makeModel: 'Velloy Tern',
    });
    const opened = await call<{ jobId: string }>('bookings.openJob', {
      customerId: customer.id,
      vehicleId: vehicle.id,
      purpose: 'correction',
      wish: 'make it look good by Friday',
    });
    jobId = opened.jobId;
    const stages = [planned('clay'), planned('cut')];
    await call('bookings.setStages', { jobId, basis: 'provisional', stages });
  });
  afterAll(async () => {
    await browser?.close();
    await host?.stop();
    rmSync(folder, { recursive: true, force: true });
  });

  it('finds a job in the list by part of a name in the wrong case', async () => {
    await show('/jobs');
    await page.getByLabel('Find a job').fill('öSSterl'.replace('SS', 'ß'));
    await page.getByRole('link', { name: NAME }).waitFor();
    await look('jobs');
  });

  it('takes the car in, with damage on a panel and a drawn signature', async () => {
    await show(`/jobs/${jobId}/arrive`);
    await page.getByLabel('Mileage').fill('48120');
    await page.locator('[data-panel="fb"]').click();
    // The field that the press opened has the focus already.
    await page.keyboard.type('stone chips');
    await show('/jobs');
    await page.getByLabel('Find a job').waitFor();
    await show(`/jobs/${jobId}/arrive`);
    await page.getByText(/^Goes on from today .*not saved yet/).waitFor();
    expect(await page.getByLabel('On the front bumper').inputValue()).toBe('stone chips');
    expect(await page.getByLabel('Mileage').inputValue()).toBe('48,120');
    await page.getByRole('button', { name: 'The car is here' }).click();
    await page.getByText('no signature').waitFor();
    const field = await page.getByRole('img', { name: 'Sign here' }).boundingBox();
    if (!field) throw new Error('no field to sign in');
    await page.mouse.move(field.x + 20, field.y + 60);
    await page.mouse.down();
    await page.mouse.move(field.x + 120, field.y + 30, { steps: 4 });
    await page.mouse.up();
    await look('arrive');
    await page.getByRole('button', { name: 'The car is here' }).click();
    await page.getByRole('heading', { name: NAME }).waitFor();
    const job = await call<JobView>('bookings.job', { jobId });
    expect([job.state, job.records[0]?.mileage, job.records[0]?.damage]).toEqual([
      'here',
      48_120,
      [{ panel: 'fb', note: 'stone chips' }],
    ]);
    expect(job.records[0]?.strokes[0]?.length).toBeGreaterThan(2);
    await look('job');
  });

  it('refuses a cut on a car that was not decontaminated until a named person sets the rule aside', async () => {
    await show(`/jobs/${jobId}/card`);
    await page.getByRole('button', { name: /^cut/ }).click();
    await page.getByRole('button', { name: 'Start' }).click();
    await page.getByText('Not decontaminated yet').waitFor();
    await page.getByLabel('Why').fill('done at the last visit');
    await page.getByRole('button', { name: 'Set the rule aside under my name' }).click();
    await page.getByRole('button', { name: 'Pause' }).waitFor();
    const job = await call<JobView>('bookings.job', { jobId });
    expect(job.overrides.map((o) => [o.rule, o.by])).toEqual([
      ['decontaminateBeforeMachine', 'Dev Ostler'],
      ['clayBeforeMachine', 'Dev Ostler'],
    ]);
    await page.locator('[data-panel="bo"]').click();
    await page.getByText('1 of 2 panels').waitFor();
    await look('card');
  });

  it('ends a stage only when the button is held, and books what was corrected', async () => {
    const hold = page.getByRole('button', { name: 'Hold to finish' });
    await hold.click();
    expect(await page.getByRole('region', { name: 'Used up' }).count()).toBe(0);
    await hold.hover();
    await page.mouse.down();
    await page.getByRole('region', { name: 'Used up' }).waitFor();
    await page.mouse.up();
    await look('finish');
    await page.getByRole('button', { name: 'Finish and book' }).click();
    await page.getByRole('navigation', { name: 'Stages' }).waitFor();
    const job = await call<JobView>('bookings.job', { jobId });
    expect(job.stages.map((s) => s.state)).toEqual(['planned', 'done']);
  });

  it('shows the car at the desk and hands it over from there once it is ready', async () => {
    const job = await call<JobView>('bookings.job', { jobId });
    await call('bookings.dropStage', { stageId: job.stages[0]?.id, reason: 'not wanted any more' });
    await show('/desk');
    await page.getByRole('link', { name: 'Hand over' }).waitFor();
    await look('desk');
    const axe = await new AxeBuilder({ page }).analyze();
    expect(axe.violations.map((v) => [v.id, v.nodes[0]?.html])).toEqual([]);
    await page.getByRole('link', { name: 'Hand over' }).click();
    await page.getByText('signed the printed form').click();
    await page.getByRole('button', { name: 'Handed over' }).click();
    await page.getByText('collected').first().waitFor();
    expect((await call<JobView>('bookings.job', { jobId })).state).toBe('collected');
    expect(faults).toEqual([]);
  });
});
