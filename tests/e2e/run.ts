import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import Database from 'better-sqlite3';
import type { Browser, Locator, Page } from 'playwright-core';
import { DATABASE_FILE } from '#core/db/backup.ts';
import type { EntryName, OutputFor, SentFor } from '#core/shared/catalogue.ts';
import { ROOT } from '../bridge/desktopApp.ts';
import { type HostProcess, startProgram } from '../bridge/hostProcess.ts';
import { type ChromiumChoice, launchChromium } from '../helpers/chromium.ts';
import { callFrom } from './pageCalls.ts';

/** A file that the page handed over. */
export type Saved = { readonly name: string; readonly bytes: Uint8Array };

/** One value of a row as SQLite gives it. */
export type Row = Readonly<Record<string, string | number | null>>;

/** What the chapters of one run share: the window, the shop's file, the clock, and what earlier ones made. */
export type Run = {
  readonly page: Page;
  readonly dataDir: string;
  /** Ids, numbers and names that later chapters need, by a plain name: `job`, `customer`, `secondJob`. */
  readonly made: Map<string, string>;
  /** What the page threw; stays empty. */
  readonly faults: string[];
  /** Goes to a path of the program, as a bookmark would. */
  open(hash: string): Promise<void>;
  /** Waits until this is on the screen. */
  see(text: string | RegExp, within?: Locator): Promise<void>;
  /** Types into the field with this label and leaves it, which is when screens save. */
  fill(label: string | RegExp, value: string, within?: Locator): Promise<void>;
  press(name: string | RegExp, within?: Locator): Promise<void>;
  /** Chooses one of a few words in a row of choices, or ticks a box. */
  pick(group: string | RegExp, word: string | RegExp): Promise<void>;
  /** Opens a list by its label and takes the entry. */
  choose(label: string | RegExp, entry: string | RegExp, within?: Locator): Promise<void>;
  /** Rows of the shop's file, read beside the running program. */
  rows(sql: string, ...values: readonly (string | number)[]): readonly Row[];
  /** The only row of a query. */
  row(sql: string, ...values: readonly (string | number)[]): Row;
  /** Reads through the door as this window's person; for reading only. */
  ask<N extends EntryName>(name: N, input: SentFor<N>): Promise<OutputFor<N>>;
  /** The file that the page saves while `act` runs. */
  saved(act: () => Promise<void>): Promise<Saved>;
  /** Sets the shop's clock and the page's: epoch ms, or a local time in Vienna such as `2026-11-25T09:00`. */
  setClock(to: string | number): Promise<void>;
  /** Who is here: leaves, then picks a name and types the PIN if there is one. */
  signIn(name: string, pin?: string): Promise<void>;
  /** A picture into shots/e2e when RAKELIGHT_SHOTS is set. */
  shot(name: string): Promise<void>;
};

export type StartedRun = { readonly run: Run; stop(): Promise<void>; failed(chapter: string): Promise<void> };

/** The town of the run is one hour ahead of Greenwich on all its days. */
function instantOf(local: string): string {
  return `${local}:00+01:00`;
}

/** The first morning of the story: a Wednesday, the shop just open. */
export const FIRST = '2026-11-25T09:00';
/** Who calls: a name of sixty letters, most of them not English. */
export const CALLER = 'Wilhelmine-Änne von und zu Ostermünde-Überlingen am Weißberg';
const SHOTS = path.join(ROOT, 'shots/e2e');

/** Starts the built program on an empty folder, and a window on it. */
export async function startRun(choice: ChromiumChoice): Promise<StartedRun> {
  const home = mkdtempSync(path.join(os.tmpdir(), 'rakelight-e2e-'));
  const dataDir = path.join(home, 'shop');
  const clockFile = path.join(home, 'clock');
  writeFileSync(clockFile, instantOf(FIRST));
  const host = startProgram('start', ['--browser', '--data', dataDir], { RAKELIGHT_CLOCK: clockFile });
  const [, url = ''] = await host.said(/Rakelight is ready at (\S+)/);
  const browser = await launchChromium(choice);
  const page = await firstWindow(browser, url);
  const faults: string[] = [];
  page.on('pageerror', (problem) => faults.push(problem.message));
  const file = new Database(path.join(dataDir, DATABASE_FILE), { readonly: true });
  const run: Run = {
    ...{ page, dataDir, faults, made: new Map<string, string>() },
    ...screenActs(page),
    ...fileReads(file),
    ask: async (name, input) => (await callFrom(page, name, input)) as never,
    saved: (act) => savedBy(page, act),
    setClock: async (to) => {
      const instant = typeof to === 'number' ? new Date(to).toISOString() : instantOf(to);
      writeFileSync(clockFile, instant);
      await page.clock.setFixedTime(instant);
    },
  };
  return {
    run,
    stop: async () => {
      file.close();
      await browser.close();
      await host.stop();
      rmSync(home, { recursive: true, force: true });
    },
    failed: (chapter) => tell(page, host, chapter),
  };
}

async function firstWindow(browser: Browser, url: string): Promise<Page> {
  const context = await browser.newContext({
    reducedMotion: 'reduce',
    acceptDownloads: true,
    timezoneId: 'Europe/Vienna',
    viewport: { width: 1280, height: 800 },
  });
  const page = await context.newPage();
  page.setDefaultTimeout(15_000);
  await page.clock.setFixedTime(instantOf(FIRST));
  await page.goto(url);
  await page.locator('main').first().waitFor();
  return page;
}

function screenActs(
  page: Page,
): Pick<Run, 'open' | 'see' | 'fill' | 'press' | 'pick' | 'choose' | 'signIn' | 'shot'> {
  const press: Run['press'] = (name, within) =>
    (within ?? page).getByRole('button', { name }).first().click();
  const open: Run['open'] = async (hash) => {
    await page.evaluate((to) => {
      location.hash = to;
    }, hash);
  };
  const fill: Run['fill'] = async (label, value, within) => {
    const field = (within ?? page).getByLabel(label).first();
    await field.fill(value);
    await field.blur();
  };
  return {
    ...{ open, press, fill },
    see: (text, within) => (within ?? page).getByText(text).first().waitFor(),
    pick: (group, word) =>
      page.getByRole('group', { name: group }).first().getByText(word, { exact: true }).click(),
    choose: async (label, entry, within) => {
      await (within ?? page).getByRole('button', { name: label }).first().click();
      await page.getByRole('option', { name: entry }).first().click();
    },
    signIn: async (name, pin) => {
      await open('/who');
      await press(name);
      if (pin === undefined) return page.getByRole('navigation').first().waitFor();
      const field = page.getByLabel(`PIN of ${name}`);
      await field.fill(pin);
      await field.press('Enter');
      await page.getByRole('navigation').first().waitFor();
    },
    shot: async (name) => {
      if (!process.env['RAKELIGHT_SHOTS']) return;
      mkdirSync(SHOTS, { recursive: true });
      await page.screenshot({ path: path.join(SHOTS, `${name}.png`) });
    },
  };
}

function fileReads(file: Database.Database): Pick<Run, 'rows' | 'row'> {
  const rows: Run['rows'] = (sql, ...values) => file.prepare(sql).all(...values) as readonly Row[];
  return {
    rows,
    row: (sql, ...values) => {
      const [only, more] = rows(sql, ...values);
      if (!only || more) throw new Error(`${more ? 'more than one row' : 'no row'}: ${sql}`);
      return only;
    },
  };
}

async function savedBy(page: Page, act: () => Promise<void>): Promise<Saved> {
  const [download] = await Promise.all([page.waitForEvent('download'), act()]);
  return { name: download.suggestedFilename(), bytes: new Uint8Array(readFileSync(await download.path())) };
}

/** Leaves a picture of the screen, and says what the program said. */
async function tell(page: Page, host: HostProcess, chapter: string): Promise<void> {
  mkdirSync(SHOTS, { recursive: true });
  const file = path.join(SHOTS, `failed-${chapter.replace(/\W+/g, '-').slice(0, 60)}.png`);
  await page.screenshot({ path: file }).catch(() => {});
  process.stderr.write(`${page.url()}\n${file}\n${host.errors()}`);
}
