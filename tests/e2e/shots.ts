/**
 * `npm run shots`: opens the built program over the browser host and captures every screen into shots/.
 * Options: `--data <folder>` (else the demo shop), `--only <part of a name>`, `--theme dark|light`.
 */
import { mkdirSync } from 'node:fs';
import path from 'node:path';
import { parseArgs } from 'node:util';
import type { Page } from 'playwright-core';
import { startProgram } from '../bridge/hostProcess.ts';
import { findChromium, launchChromium } from '../helpers/chromium.ts';
import { callFrom, signInOwner } from './pageCalls.ts';
import { SHOT_ROUTES, SHOT_SIZES, SHOT_THEMES, type ShotRoute } from './shotRoutes.ts';

const { values: asked } = parseArgs({
  options: { data: { type: 'string' }, only: { type: 'string' }, theme: { type: 'string' } },
});
const OUT = path.resolve(import.meta.dirname, '../../shots');
const SETTLE_MS = 350;

async function idsFor(page: Page): Promise<Readonly<Record<string, string>>> {
  const jobs = await callFrom(page, 'bookings.jobs', { list: 'open' });
  const rows = (jobs as { rows?: { jobId: string }[] } | null)?.rows ?? [];
  const customers = (await callFrom(page, 'people.findCustomers', {})) as { id: string }[] | null;
  const vehicles = (await callFrom(page, 'people.findVehicles', {})) as { id: string }[] | null;
  const found = { jobId: rows[0]?.jobId, customerId: customers?.[0]?.id, vehicleId: vehicles?.[0]?.id };
  return Object.fromEntries(Object.entries(found).filter((entry): entry is [string, string] => !!entry[1]));
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

async function main(): Promise<void> {
  const choice = findChromium();
  if (!choice) throw new Error('no Chromium here: set RAKELIGHT_CHROMIUM to one');
  mkdirSync(OUT, { recursive: true });
  const host = startProgram('start', ['--browser', ...(asked.data ? ['--data', asked.data] : ['--demo'])]);
  const browser = await launchChromium(choice);
  try {
    const [, url = ''] = await host.said(/Rakelight is ready at (\S+)/);
    const page = await browser.newPage();
    page.setDefaultTimeout(5000);
    await page.goto(url);
    await page.locator('main').first().waitFor();
    await signInOwner(page);
    const ids = await idsFor(page);
    for (const route of SHOT_ROUTES.filter((one) => one.name.includes(asked.only ?? ''))) {
      const at = filled(route, ids);
      if (at === null) console.log(`${route.name}: nothing of this kind in the data, left out`);
      else await capture(page, route, at).then(() => console.log(route.name));
    }
  } finally {
    await browser.close();
    await host.stop();
  }
}

await main();
