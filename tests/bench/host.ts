import { spawn } from 'node:child_process';
import { readdirSync, readFileSync, rmSync } from 'node:fs';
import path from 'node:path';
import { gzipSync } from 'node:zlib';
import Database from 'better-sqlite3';
import type { Page } from 'playwright-core';
import { DIST } from '../bridge/desktopApp.ts';
import { startBrowserHost } from '../bridge/hostProcess.ts';
import { callFrom, signInOwner } from '../e2e/pageCalls.ts';
import { findChromium, launchChromium } from '../helpers/chromium.ts';
import { demoFolder } from './demo.ts';
import type { BenchRow } from './measure.ts';

const ASSETS = path.join(DIST, 'renderer/assets');

/** The built program over the demo shop: how soon it can be used, how much memory it takes, how large its page is. */
export async function rows(): Promise<readonly BenchRow[]> {
  const { dir, buildMs } = await demoFolder();
  try {
    const jobs = jobsIn(dir);
    const built: BenchRow = {
      what: `demo shop built (${jobs} jobs)`,
      measured: `${(buildMs / 1000).toFixed(1)} s`,
      asked: '< 30 s on 2 cores',
    };
    return [built, ...(await inBrowser(dir, jobs)), pageSize()];
  } finally {
    rmSync(dir, { recursive: true, force: true });
  }
}

function jobsIn(dir: string): number {
  const db = new Database(path.join(dir, 'rakelight.sqlite'), { readonly: true });
  const n = db.prepare('SELECT count(*) FROM job').pluck().get() as number;
  db.close();
  return n;
}

async function inBrowser(dir: string, jobs: number): Promise<readonly BenchRow[]> {
  const choice = findChromium();
  if (!choice) return [{ what: 'first usable screen, memory', measured: 'not measured: no Chromium here' }];
  const browser = await launchChromium(choice);
  // The first start writes its daily copy; what is measured is a start like every other one.
  await (await startBrowserHost(dir)).stop();
  const empty = await emptyNode();
  const start = performance.now();
  const host = await startBrowserHost(dir);
  try {
    const up = performance.now();
    const page = await (await browser.newContext()).newPage();
    const loaded = loadedAssets(page);
    await page.goto(host.link);
    await page.locator('main').first().waitFor();
    const who = performance.now();
    const first = firstLoad(loaded);
    await signInOwner(page);
    const again = performance.now();
    await page.reload();
    await page.getByRole('heading').first().waitFor();
    const desk = performance.now();
    await everyPlace(page);
    const rss = rssOf(host.child.pid ?? 0);
    return [
      {
        what: `demo shop of ${jobs} jobs to first usable screen (who is here?)`,
        measured: `${Math.round(who - start)} ms`,
        beside: `host up after ${Math.round(up - start)} ms; Chromium runs already`,
        asked: '< 1500 ms',
      },
      { what: 'the desk after a reload, signed in', measured: `${Math.round(desk - again)} ms` },
      {
        what: 'memory of the host with the demo shop, every place opened once',
        measured: `${mb(rss - empty)} MB`,
        beside: `resident ${mb(rss)} MB less ${mb(empty)} MB of a Node that does nothing`,
        asked: '< 200 MB',
      },
      { what: 'renderer, first screen', measured: kb(first), beside: 'scripts and styles, gzipped' },
    ];
  } finally {
    await browser.close();
    await host.stop();
  }
}

function loadedAssets(page: Page): Set<string> {
  const names = new Set<string>();
  page.on('request', (request) => {
    const { pathname } = new URL(request.url());
    if (/\.(js|css)$/.test(pathname)) names.add(path.basename(pathname));
  });
  return names;
}

/** Asks what the screens ask: the board of two weeks, the lists, the figures of a quarter. */
async function everyPlace(page: Page): Promise<void> {
  const day = (shift: number): string => new Date(Date.now() + shift * 864e5).toISOString().slice(0, 10);
  const asked: readonly (readonly [string, unknown])[] = [
    ['bookings.desk', {}],
    ['bookings.jobs', {}],
    ['bays.board', { fromDay: day(-1), toDay: day(13) }],
    ['stock.showBoard', {}],
    ['billing.readDesk', {}],
    ['figures.utilization', { fromDay: day(-90), toDay: day(0) }],
    ['figures.honesty', { fromDay: day(-90), toDay: day(0) }],
  ];
  for (const [name, input] of asked) await callFrom(page, name, input);
}

/** Resident set of a process in bytes; Linux only, elsewhere NaN. */
function rssOf(pid: number): number {
  try {
    const [, kB = 'NaN'] = /VmRSS:\s+(\d+) kB/.exec(readFileSync(`/proc/${pid}/status`, 'utf8')) ?? [];
    return Number(kB) * 1024;
  } catch {
    return Number.NaN;
  }
}

async function emptyNode(): Promise<number> {
  const child = spawn(process.execPath, ['-e', 'setInterval(() => {}, 1000)']);
  await new Promise((done) => setTimeout(done, 500));
  const rss = rssOf(child.pid ?? 0);
  child.kill();
  return rss;
}

const mb = (bytes: number): string => (bytes / 1e6).toFixed(0);
const kb = (bytes: number): string => `${(bytes / 1000).toFixed(0)} kB`;
const gzipped = (name: string): number =>
  gzipSync(readFileSync(path.join(ASSETS, name)), { level: 9 }).length;

function firstLoad(names: ReadonlySet<string>): number {
  return [...names].reduce((sum, name) => sum + gzipped(name), 0);
}

/** All scripts and styles, however late they are loaded; fonts are files of their own and not counted. */
function pageSize(): BenchRow {
  const files = readdirSync(ASSETS).filter((name) => /\.(js|css)$/.test(name));
  return {
    what: 'renderer, all of it',
    measured: kb(firstLoad(new Set(files))),
    beside: `${files.length} scripts and styles, gzipped`,
    asked: '< 600 kB',
  };
}
