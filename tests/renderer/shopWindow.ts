import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import Database from 'better-sqlite3';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { expect } from 'vitest';
import { DATABASE_FILE } from '#core/db/backup.ts';
import { type HostProcess, startProgram } from '../bridge/hostProcess.ts';
import { callFrom } from '../e2e/pageCalls.ts';
import { axeOf } from '../helpers/axe.ts';
import { type ChromiumChoice, launchChromium } from '../helpers/chromium.ts';

const TOKEN = 'ab'.repeat(32);

/** An invented shop with a price and a tax, its owner signed in; nothing else is set up. */
export const PLAIN = {
  shop: {
    ...{ name: 'Emberwick Paintwork', address: '4 Low Tannery Yard\nEmberwick', taxNumber: 'AT00000000' },
    ...{ country: 'AT', zone: 'Europe/Vienna', currency: 'EUR', locale: 'en-GB' },
    ...{ filmUnit: 'um', volumeUnit: 'ml', lengthUnit: 'm', paper: 'A4' },
  },
  owner: { name: 'Dev Ostler', token: TOKEN },
  rates: [{ hourMinor: 8500 }],
  taxes: [{ name: 'VAT', category: 'S', ratePpm: 200_000 }],
};

/** The same shop with bays, hours and people. */
export const SAMPLE = {
  ...PLAIN,
  people: [{ name: 'Wren Tarn', role: 'technician' }],
  bays: [
    { name: 'Bay 1', kind: 'correction' },
    { name: 'Yard', kind: 'yard', capacity: 3 },
  ],
  hours: [1, 2, 3, 4, 5, 6, 7].flatMap((weekday) =>
    (['shop', 'desk'] as const).map((kind) => ({ weekday, kind, openMin: 360, closeMin: 1200 })),
  ),
  technicians: [
    {
      name: 'Wren Tarn',
      skills: ['wash', 'correction', 'protection', 'interior', 'inspection'],
      shifts: [1, 2, 3, 4, 5, 6, 7].map((weekday) => ({ weekday, startMin: 360, endMin: 1200 })),
    },
  ],
};

export type ShopWindow = {
  readonly page: Page;
  readonly folder: string;
  readonly faults: readonly string[];
  call<T>(name: string, input: unknown): Promise<T>;
  /** Rows of the shop's file, read beside the running program. */
  rows(sql: string): readonly Readonly<Record<string, unknown>>[];
  goTo(hash: string): Promise<void>;
  /** Sets the program's clock and the page's; only in a window that was opened at a time of its own. */
  setClock(ms: number): Promise<void>;
  /** A picture where RAKELIGHT_SHOTS names a folder, in both themes and both sizes. */
  shot(name: string): Promise<void>;
  /** No page scroll at 1280 by 800, and nothing that the accessibility rules find. */
  holds(): Promise<void>;
  close(): Promise<void>;
};

/** When and where a window is opened, if not here and now. */
export type AtTime = { readonly ms: number; readonly zone: string };

/** A window of the built program over a new data folder; `setUp` is sent before the first screen. */
export async function openShopWindow(
  choice: ChromiumChoice,
  setUp: unknown = SAMPLE,
  folder: string = mkdtempSync(path.join(os.tmpdir(), 'rakelight-window-')),
  at: AtTime | null = null,
): Promise<ShopWindow> {
  const clockFile = `${folder}.clock`;
  if (at) writeFileSync(clockFile, new Date(at.ms).toISOString());
  const host: HostProcess = startProgram(
    'start',
    ['--browser', '--data', folder],
    at ? { RAKELIGHT_CLOCK: clockFile } : {},
  );
  const [, url = ''] = await host.said(/Rakelight is ready at (\S+)/);
  const browser: Browser = await launchChromium(choice);
  const context: BrowserContextOptions = { reducedMotion: 'reduce', ...(at ? { timezoneId: at.zone } : {}) };
  const page = await (await browser.newContext(context)).newPage();
  if (at) await page.clock.setFixedTime(at.ms);
  const faults: string[] = [];
  page.setDefaultTimeout(15_000);
  page.on('pageerror', (problem) => faults.push(problem.message));
  await page.setViewportSize({ width: 1280, height: 800 });
  await page.goto(url);
  await page.locator('main').first().waitFor();
  if (setUp !== null) {
    expect(await callFrom(page, 'shop.setUp', setUp)).toHaveProperty('ownerId');
    await page.evaluate((token) => sessionStorage.setItem('rakelight.session', token), TOKEN);
    await page.reload();
    await page.getByRole('navigation').first().waitFor();
  }
  return {
    ...{ page, folder, faults },
    call: async <T>(name: string, input: unknown) => (await callFrom(page, name, input)) as T,
    rows: (sql) => rowsOf(folder, sql),
    goTo: (hash) =>
      page.evaluate((to) => {
        location.hash = to;
      }, hash),
    setClock: async (ms) => {
      writeFileSync(clockFile, new Date(ms).toISOString());
      await page.clock.setFixedTime(ms);
    },
    shot: (name) => picture(page, name),
    holds: () => holds(page),
    close: async () => {
      await browser.close();
      await host.stop();
      rmSync(folder, { recursive: true, force: true });
      rmSync(clockFile, { force: true });
    },
  };
}

function rowsOf(folder: string, sql: string): Readonly<Record<string, unknown>>[] {
  const db = new Database(path.join(folder, DATABASE_FILE), { readonly: true });
  try {
    return db.prepare(sql).all() as Record<string, unknown>[];
  } finally {
    db.close();
  }
}

type Caller = ShopWindow['call'];

/** A customer with a car, and a job opened for it; its id. */
export async function openJobFor(
  call: Caller,
  who: { readonly name: string; readonly email?: string },
  car: { readonly body: string; readonly makeModel: string },
): Promise<string> {
  const { id: customerId } = await call<{ id: string }>('people.addCustomer', who);
  const { id: vehicleId } = await call<{ id: string }>('people.addVehicle', { customerId, ...car });
  const wanted = { purpose: 'correction', wish: 'make it look good by Friday' };
  const { jobId } = await call<{ jobId: string }>('bookings.openJob', { customerId, vehicleId, ...wanted });
  return jobId;
}

async function picture(page: Page, name: string): Promise<void> {
  const out = process.env['RAKELIGHT_SHOTS'];
  if (!out) return;
  for (const colorScheme of ['dark', 'light'] as const) {
    await page.emulateMedia({ colorScheme });
    for (const [width, height] of [
      [1920, 1080],
      [1280, 800],
    ] as const) {
      await page.setViewportSize({ width, height });
      await page.screenshot({ path: path.join(out, `${name}-${colorScheme}-${width}.png`) });
    }
  }
}

async function holds(page: Page): Promise<void> {
  const over = await page.evaluate(
    () =>
      document.documentElement.scrollHeight > innerHeight ||
      document.documentElement.scrollWidth > innerWidth,
  );
  expect(over).toBe(false);
  const { violations } = await axeOf(page).analyze();
  expect(violations.map((v) => [v.id, v.nodes.map((n) => n.html)])).toEqual([]);
}
