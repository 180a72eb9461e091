import { readdirSync } from 'node:fs';
import path from 'node:path';
import Database from 'better-sqlite3';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { findChromium } from '../helpers/chromium.ts';
import { openShopWindow, type ShopWindow } from './shopWindow.ts';

const choice = findChromium();
const TOKEN = 'ab'.repeat(32);

/** A window that is left open over night: what it shows grows old, and the person at it is signed out. */
describe.skipIf(choice === null)('a window left open', () => {
  let shop: ShopWindow;
  beforeAll(async () => {
    if (choice) shop = await openShopWindow(choice);
  });
  afterAll(() => shop?.close());

  it('asks again what the clock alone makes old', async () => {
    const { page } = shop;
    await page.clock.install();
    await page.reload();
    await page.locator('header').getByText('Dev Ostler').waitFor();
    changeUnseen(shop.folder, "UPDATE person SET name = 'Devin Ostler' WHERE name = 'Dev Ostler'");
    await page.clock.runFor(60_000);
    expect(await page.getByText('Devin Ostler').count()).toBe(0);
    await page.clock.runFor(6 * 60_000);
    await page.getByText('Devin Ostler').first().waitFor();
  });

  it('asks who is here once nobody is signed in any more, and goes on at the same place', async () => {
    const { page } = shop;
    await shop.call('access.signOut', { token: TOKEN });
    await shop.goTo('#/jobs');
    await page.getByRole('heading', { name: 'Who is here?' }).last().waitFor();
    await page.getByText('Signed out after some hours').waitFor();
    await shop.holds();
    await page.getByRole('button', { name: /Devin Ostler/ }).click();
    await page.locator('header').getByText('Devin Ostler').waitFor();
    expect(await page.evaluate(() => location.hash)).toBe('#/jobs');
    await page.getByRole('heading', { name: 'Jobs' }).first().waitFor();
  });
});

/** Writes past the program, so that no window is told. */
function changeUnseen(folder: string, sql: string): void {
  const file = readdirSync(folder).find((f) => f.endsWith('.db') || f.endsWith('.sqlite')) ?? '';
  const raw = new Database(path.join(folder, file));
  expect(raw.prepare(sql).run().changes).toBe(1);
  raw.close();
}
