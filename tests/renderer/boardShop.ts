import { mkdtempSync, rmSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import Database from 'better-sqlite3';
import type { Locator, Page } from 'playwright-core';
import { DATABASE_FILE } from '#core/db/backup.ts';
import { addLocalDays, localDayOf } from '#core/shared/time.ts';
import type { BoardView } from '#core/shared/views/bays.ts';
import type { OffersView } from '#core/shared/views/offers.ts';
import { startProgram } from '../bridge/hostProcess.ts';
import { callFrom } from '../e2e/pageCalls.ts';
import { type ChromiumChoice, launchChromium } from '../helpers/chromium.ts';

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

export type BoardShop = {
  readonly page: Page;
  readonly faults: readonly string[];
  /** Through the page's own door, as its screens call it. */
  call<T>(name: string, input: unknown): Promise<T>;
  board(): Promise<BoardView>;
  /** A job with these stages, not on the board yet. */
  newJob(who: string, makeModel: string, stages?: readonly TestStage[]): Promise<string>;
  /** Its first offer, booked. */
  book(jobId: string): Promise<void>;
  /** Rows of the shop's file, read beside the running program. */
  rows<T>(sql: string, ...values: readonly string[]): readonly T[];
  /** The last place in which the job is worked on; a car may stand in the yard after it. */
  workOf(jobId: string | undefined): Locator;
  close(): Promise<void>;
};
export type TestStage = ReturnType<typeof stage>;

/** A Wednesday, 10:13 in the shop: what lies where on the board must not hang on the hour of the test. */
export const BOARD_NOW = Date.parse('2026-11-25T09:13:00Z');

/** A shop with a wash bay, two correction bays, a yard and two technicians, open day and night, in a window. */
export async function openBoardShop(choice: ChromiumChoice): Promise<BoardShop> {
  const folder = mkdtempSync(path.join(os.tmpdir(), 'rakelight-bays-'));
  const host = startProgram('start', ['--browser', '--data', folder], {
    RAKELIGHT_CLOCK: new Date(BOARD_NOW).toISOString(),
  });
  const [, url = ''] = await host.said(/Rakelight is ready at (\S+)/);
  const browser = await launchChromium(choice);
  const page = await (await browser.newContext({ reducedMotion: 'reduce' })).newPage();
  const faults: string[] = [];
  page.setDefaultTimeout(5000);
  page.on('pageerror', (problem) => faults.push(problem.message));
  await page.setViewportSize({ width: 1280, height: 800 });
  await page.clock.setFixedTime(new Date(BOARD_NOW));
  await page.goto(url);
  await page.locator('main').first().waitFor();
  const call = async <T>(name: string, input: unknown): Promise<T> =>
    (await callFrom(page, name, input)) as T;
  await setUp(page, call);
  const file = new Database(path.join(folder, DATABASE_FILE), { readonly: true });
  return {
    ...{ page, faults, call },
    board: () => {
      const today = localDayOf(BOARD_NOW, SET_UP.shop.zone);
      return call<BoardView>('bays.board', { fromDay: today, toDay: addLocalDays(today, 9) });
    },
    newJob: (who, makeModel, stages = WASH_AND_CUT) => newJob(call, who, makeModel, stages),
    book: async (jobId) => {
      const view = await call<OffersView>('bays.offers', { jobId });
      await call('bays.bookOffer', { planRevision: view.planRevision, plan: view.offers[0]?.plan });
    },
    rows: <T>(sql: string, ...values: readonly string[]) => file.prepare(sql).all(...values) as T[],
    workOf: (jobId) =>
      page
        .locator(`[data-job="${jobId}"]`)
        .filter({ has: page.locator('[data-form]') })
        .last(),
    close: async () => {
      file.close();
      await browser.close();
      await host.stop();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

type Caller = BoardShop['call'];

async function setUp(page: Page, call: Caller): Promise<void> {
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
  const skills = ['wash', 'correction'];
  await call('bays.setTechnician', { personId: ownerId, skills, shifts });
  const { id } = await call<{ id: string }>('access.addPerson', { name: 'Wren Tarn', role: 'technician' });
  await call('bays.setTechnician', { personId: id, skills, shifts });
  await call('bays.setBays', {
    bays: [
      { name: 'Bay 1', kind: 'wash' },
      { name: 'Bay 2', kind: 'correction' },
      { name: 'Bay 3', kind: 'correction' },
      { name: 'Yard', kind: 'yard', capacity: 3 },
    ],
  });
}

async function newJob(
  call: Caller,
  name: string,
  makeModel: string,
  stages: readonly TestStage[],
): Promise<string> {
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
  await call('bookings.setStages', { jobId, basis: 'agreed', stages });
  return jobId;
}

export const stage = (kind: string, bay: string, skill: string, min: number) => ({
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
/** An hour of washing, five of cutting. */
export const WASH_AND_CUT = [
  stage('wash', 'wash', 'wash', 60),
  stage('cut', 'correction', 'correction', 300),
];
