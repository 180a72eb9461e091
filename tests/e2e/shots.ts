/**
 * `npm run shots`: opens the built program over the browser host and captures every screen into shots/.
 * Options: `--data <folder>` (else a demo shop of a fixed day, built once), `--only <part of a name>`,
 * `--theme dark|light`, `--clock <instant>` (the demo's own), `--readme` keeps the picture that README shows.
 */
import { cpSync, existsSync, mkdirSync } from 'node:fs';
import path from 'node:path';
import { parseArgs } from 'node:util';
import type { Page } from 'playwright-core';
import type { LocalDay } from '#core/shared/units.ts';
import { buildInto } from '../../seed/worker.ts';
import { startProgram } from '../bridge/hostProcess.ts';
import { findChromium, launchChromium } from '../helpers/chromium.ts';
import { signInOwner } from './pageCalls.ts';
import { idsFor } from './shotIds.ts';
import { SHOT_ROUTES, SHOT_SIZES, SHOT_THEMES, type ShotRoute } from './shotRoutes.ts';

const { values: asked } = parseArgs({
  options: {
    data: { type: 'string' },
    only: { type: 'string' },
    theme: { type: 'string' },
    clock: { type: 'string', default: '2026-11-25T09:42:00Z' },
    readme: { type: 'boolean', default: false },
  },
});
const ROOT = path.resolve(import.meta.dirname, '../..');
const OUT = path.join(ROOT, 'shots');
const DEMO = path.join(ROOT, 'node_modules/.cache/rakelight-demo');
const DEMO_DAY = '2026-11-25' as LocalDay;
const SETTLE_MS = 350;

/** The demo shop of the pictures: always the same day, so that two runs can be compared. */
async function demoFolder(): Promise<string> {
  if (existsSync(path.join(DEMO, 'rakelight.sqlite'))) return DEMO;
  console.log('building the demo shop …');
  const migrationsDir = path.join(ROOT, 'migrations');
  await buildInto({ dataDir: DEMO, migrationsDir, day: DEMO_DAY }, () => {});
  return DEMO;
}

function filled(route: ShotRoute, ids: Readonly<Record<string, string>>): string | null {
  let missing = false;
  const at = route.path.replace(/:(\w+)/g, (_, name: string) => {
    missing ||= ids[name] === undefined;
    return ids[name] ?? '';
  });
  return missing ? null : at;
}

async function capture(page: Page, route: ShotRoute, at: string): Promise<void> {
  for (const theme of SHOT_THEMES.filter((one) => !asked.theme || one === asked.theme))
    for (const size of SHOT_SIZES) {
      await page.setViewportSize(size);
      await page.evaluate((chosen) => {
        document.documentElement.dataset['theme'] = chosen;
      }, theme);
      await page.evaluate((hash) => {
        location.hash = hash;
      }, at);
      await page.locator('main').first().waitFor();
      if (route.ready) await page.locator(route.ready).first().waitFor();
      await page.waitForTimeout(SETTLE_MS);
      await page.screenshot({ path: path.join(OUT, `${route.name}-${theme}-${size.width}.png`) });
    }
}

/** README shows the desk. */
function keepForReadme(): void {
  mkdirSync(path.join(ROOT, '.readme'), { recursive: true });
  cpSync(path.join(OUT, 'desk-dark-1280.png'), path.join(ROOT, '.readme/desk.png'));
}

async function main(): Promise<void> {
  const choice = findChromium();
  if (!choice) throw new Error('no Chromium here: set RAKELIGHT_CHROMIUM to one');
  mkdirSync(OUT, { recursive: true });
  const dataDir = asked.data ?? (await demoFolder());
  const host = startProgram('start', ['--browser', '--data', dataDir], { RAKELIGHT_CLOCK: asked.clock });
  const browser = await launchChromium(choice);
  try {
    const [, url = ''] = await host.said(/Rakelight is ready at (\S+)/);
    const page = await browser.newPage();
    page.setDefaultTimeout(5000);
    await page.clock.setFixedTime(new Date(asked.clock));
    await page.goto(url);
    await page.locator('main').first().waitFor();
    await signInOwner(page);
    const ids = await idsFor(page);
    for (const route of SHOT_ROUTES.filter((one) => one.name.includes(asked.only ?? ''))) {
      const at = filled(route, ids);
      if (at === null) console.log(`${route.name}: nothing of this kind in the data, left out`);
      else await capture(page, route, at).then(() => console.log(route.name));
    }
    if (asked.readme) keepForReadme();
  } finally {
    await browser.close();
    await host.stop();
  }
}

await main();
