import { mkdtempSync, rmSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { BoardView, OffersView } from '#core/shared/views/bays.ts';
import { type HostProcess, startProgram } from '../bridge/hostProcess.ts';
import { callFrom } from '../e2e/pageCalls.ts';
import { findChromium, launchChromium } from '../helpers/chromium.ts';

const choice = findChromium();
const TOKEN = 'ab'.repeat(32);
const WEEK = [1, 2, 3, 4, 5, 6, 7];
const SET_UP = {
  shop: {
    name: 'Emberwick Paintwork',
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

/** The board by mouse and by keyboard, over the real door and a real file. */
describe.skipIf(choice === null)('the bay board in the window', () => {
  const folder = mkdtempSync(path.join(os.tmpdir(), 'rakelight-bays-'));
  const faults: string[] = [];
  let host: HostProcess;
  let browser: Browser;
  let page: Page;
  const jobs: string[] = [];

  async function call<T>(name: string, input: unknown): Promise<T> {
    const value = await callFrom(page, name, input);
    return value as T;
  }
  async function newJob(name: string, makeModel: string): Promise<string> {
    const customer = await call<{ id: string }>('people.addCustomer', { name });
    const vehicle = await call<{ id: string }>('people.addVehicle', {
      customerId: customer.id,
      body: 'saloon',
      makeModel,
    });
    const { jobId } = await call<{ jobId: string }>('bookings.openJob', {
      customerId: customer.id,
      vehicleId: vehicle.id,
      purpose: 'correction',
      wish: 'swirls',
    });
    await call('bookings.setStages', { jobId, basis: 'agreed', stages: STAGES });
    return jobId;
  }
  /** The last place in which the job is worked on; a car may stand in the yard after it. */
  const workOf = (id: string | undefined) =>
    page
      .locator(`[data-job="${id}"]`)
      .filter({ has: page.locator('[data-form]') })
      .last();
  async function board(): Promise<BoardView> {
    const at = new Date().toISOString().slice(0, 10);
    const end = new Date(Date.now() + 9 * 86_400_000).toISOString().slice(0, 10);
    return call<BoardView>('bays.board', { fromDay: at, toDay: end });
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
    const { ownerId } = await call<{ ownerId: string }>('shop.setUp', SET_UP);
    await page.evaluate((token) => sessionStorage.setItem('rakelight.session', token), TOKEN);
    await page.reload();
    await call('bays.setOpeningHours', {
      hours: WEEK.flatMap((weekday) => [
        { weekday, kind: 'shop', openMin: 0, closeMin: 1440 },
        { weekday, kind: 'desk', openMin: 480, closeMin: 1080 },
      ]),
    });
    const shifts = WEEK.map((weekday) => ({ weekday, startMin: 420, endMin: 1140 }));
    await call('bays.setTechnician', { personId: ownerId, skills: ['wash', 'correction'], shifts });
    const { id } = await call<{ id: string }>('access.addPerson', { name: 'Wren Tarn', role: 'technician' });
    await call('bays.setTechnician', { personId: id, skills: ['wash', 'correction'], shifts });
    await call('bays.setBays', {
      bays: [
        { name: 'Bay 1', kind: 'wash' },
        { name: 'Bay 2', kind: 'correction' },
        { name: 'Bay 3', kind: 'correction' },
        { name: 'Yard', kind: 'yard', capacity: 3 },
      ],
    });
    for (const [who, car] of CARS) jobs.push(await newJob(who, car));
    const first = await call<OffersView>('bays.offers', { jobId: jobs[0] });
    await call('bays.bookOffer', { planRevision: first.planRevision, plan: first.offers[0]?.plan });
  });
  afterAll(async () => {
    await browser?.close();
    await host?.stop();
    rmSync(folder, { recursive: true, force: true });
  });

  it('shows the offers of the job in hand and books one by keyboard, around the car that is there', async () => {
    await page.evaluate((id) => {
      localStorage.setItem('rakelight.hand', JSON.stringify({ current: id, laidDown: [] }));
      sessionStorage.setItem('rakelight.hand', JSON.stringify({ current: id, laidDown: [] }));
      location.hash = '/bays';
    }, jobs[1]);
    await page.reload();
    const offers = page.getByRole('region', { name: 'Offers' });
    await offers.getByRole('article').nth(2).waitFor();
    await page.keyboard.press('b');
    await expect.poll(() => offers.getByRole('button', { pressed: true }).textContent()).toMatch(/^B/);
    await page.keyboard.press('Control+Enter');
    await expect.poll(async () => (await board()).promises.length).toBe(2);
    expect(await call('bays.faults', {})).toEqual([]);
  });

  it('moves a block by keyboard, and takes it back with undo', async () => {
    const before = (await board()).blocks;
    const car = workOf(jobs[1]);
    await car.focus();
    await page.keyboard.press('Enter');
    await page.getByText(/Arrows move by a quarter/).waitFor();
    for (let i = 0; i < 4; i += 1) await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Escape');
    await expect.poll(() => page.getByText(/Arrows move by a quarter/).count()).toBe(0);
    expect((await board()).blocks).toEqual(before);
    await page.keyboard.press('Enter');
    for (let i = 0; i < 2; i += 1) await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Enter');
    const undo = page.getByRole('button', { name: 'Undo' });
    await undo.waitFor();
    const cut = (blocks: typeof before) =>
      blocks.filter((b) => b.jobId === jobs[1]).flatMap((b) => b.pieces)[1]?.startMin ?? 0;
    expect(cut((await board()).blocks) - cut(before)).toBeGreaterThan(0);
    await undo.click();
    await expect.poll(async () => (await board()).blocks).toEqual(before);
  });

  it('refuses a lane that is not for the work, in words, with places that work', async () => {
    const car = workOf(jobs[1]);
    await car.focus();
    await page.keyboard.press('Enter');
    await page.keyboard.press('ArrowUp');
    await page.keyboard.press('ArrowUp');
    await page
      .getByRole('alert')
      .getByText(/is not a place for|is taken|would/)
      .first()
      .waitFor();
    await page.keyboard.press('Escape');
  });

  it('moves a block by mouse to the other bay of its kind', async () => {
    const car = workOf(jobs[1]);
    const [from, lane] = [await car.boundingBox(), await page.locator('[data-bay]').nth(2).boundingBox()];
    if (!from || !lane) throw new Error('not on the screen');
    await page.mouse.move(from.x + from.width / 2, from.y + 10);
    await page.mouse.down();
    await page.mouse.move(from.x + from.width / 2, lane.y + 20, { steps: 6 });
    await page.mouse.up();
    const bayOf = async () => {
      const now = await board();
      const bayId = now.blocks.filter((b) => b.jobId === jobs[1] && b.pieces.length > 0).at(-1)?.bayId;
      return now.lanes.find((l) => l.bayId === bayId)?.name;
    };
    await expect.poll(bayOf).toBe('Bay 3');
    expect(await call('bays.faults', {})).toEqual([]);
  });

  it('gives the work of a block to somebody else when it is dropped on their row', async () => {
    const now = await board();
    const worker = () =>
      board().then(
        (b) => b.blocks.filter((x) => x.jobId === jobs[1] && x.pieces.length > 0).at(-1)?.pieces[0],
      );
    const before = (await worker())?.personIds[0];
    const other = now.people.find((p) => p.personId !== before)?.personId;
    const [from, row] = [
      await workOf(jobs[1]).boundingBox(),
      await page.locator(`[data-who="${other}"]`).boundingBox(),
    ];
    if (!from || !row) throw new Error('not on the screen');
    await page.mouse.move(from.x + from.width / 2, from.y + 10);
    await page.mouse.down();
    await page.mouse.move(from.x + from.width / 2, row.y + 12, { steps: 6 });
    await page.mouse.up();
    await expect.poll(async () => (await worker())?.personIds[0]).toBe(other);
    expect(await call('bays.faults', {})).toEqual([]);
  });

  it('fits the window and has nothing that axe objects to', async () => {
    const size = await page.evaluate(() => [
      document.documentElement.scrollWidth,
      document.documentElement.scrollHeight,
    ]);
    expect(size).toEqual([1280, 800]);
    if (process.env['RAKELIGHT_PICTURE']) await page.screenshot({ path: process.env['RAKELIGHT_PICTURE'] });
    const { violations } = await new AxeBuilder({ page }).analyze();
    expect(violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.target.join(' ')).join(', ')}`)).toEqual(
      [],
    );
    expect(faults).toEqual([]);
  });
});

const CARS = [
  ['Marit Vane', 'Velloy Merrin'],
  ['Dev Ostler', 'Harrowe Lintel'],
] as const;

const stage = (kind: string, bay: string, skill: string, min: number) => ({
  ...{
    kind,
    panels: ['bo'],
    estimatedMin: min,
    p20Min: min - 10,
    p50Min: min,
    p80Min: min + 20,
    p95Min: min + 50,
  },
  ...{ mu: Math.log(min), sigma: 0.25, dwellMin: 0, bayKinds: [bay], skill, crew: 1, splittable: true },
  materials: [],
  note: '',
});
const STAGES = [stage('wash', 'wash', 'wash', 60), stage('cut', 'correction', 'correction', 300)];
