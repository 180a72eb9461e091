import { expect } from 'vitest';
import type { Run } from '../run.ts';

const STAFF = ['Wren Tarn', 'Dev Ostler', 'Jörg Mühl'];

/** A shop with umlauts, from the first window on, step by step as the screen offers them. */
export async function setUpShop(run: Run): Promise<void> {
  await run.press('Set up my shop');
  await run.fill('name of the shop', 'Lichtschliff Österby');
  await run.fill('address', '4 Low Tannery Yard\nEmberwick');
  await run.fill('tax number', 'AT00000000');
  await run.press(/^Next: Place/);
  await run.choose(/country, with its example/, /Austria/);
  await run.press(/^Next: People/);
  await run.fill('owner’s name', 'Ines Örtel');
  await run.fill(/owner’s PIN/, '4711');
  await run.fill('the same PIN again', '4711');
  for (const [at, name] of STAFF.entries()) {
    await run.press('Add somebody');
    await run.page.getByLabel('name', { exact: true }).nth(at).fill(name);
  }
  await workAndPlaces(run);
  await run.press(/^Price of an hour/);
  await run.fill('price of a person hour', '85');
  await run.press(/^Next: Tax/);
  await run.shot('01-setup');
  await run.press('Set up the shop');
  await run.page.getByRole('main', { name: 'Shop' }).waitFor();
  written(run);
}

/** Bays, hours, skills: the example week is taken, the desk opens Saturday mornings, the yard takes three cars. */
async function workAndPlaces(run: Run): Promise<void> {
  await run.press(/^Bays and yard/);
  await run.fill('cars at once', '3');
  await run.see('1 wash, 2 correction, 1 protection, yard for 3');
  await run.shot('01-bays');
  await run.press(/^Opening hours/);
  await run.fill('Sat, the desk hands over', '9-12');
  await expect.poll(() => run.page.getByLabel('Sat, the desk hands over').inputValue()).toBe('09:00–12:00');
  await run.shot('01-hours');
  await run.press(/^Skills and shifts/);
  for (const name of STAFF) await run.see(name);
  await run.shot('01-work');
}

function written(run: Run): void {
  expect(run.row('SELECT name, zone, currency, film_unit, volume_unit FROM shop')).toEqual({
    ...{ name: 'Lichtschliff Österby', zone: 'Europe/Vienna', currency: 'EUR' },
    ...{ film_unit: 'um', volume_unit: 'ml' },
  });
  expect(run.rows('SELECT name, kind, capacity FROM bay ORDER BY seq')).toEqual([
    { name: 'Wash bay', kind: 'wash', capacity: 1 },
    { name: 'Bay 1', kind: 'correction', capacity: 1 },
    { name: 'Bay 2', kind: 'correction', capacity: 1 },
    { name: 'Protection bay', kind: 'protection', capacity: 1 },
    { name: 'Yard', kind: 'yard', capacity: 3 },
  ]);
  expect(run.rows('SELECT name, role, pin_hash IS NULL AS open FROM person ORDER BY rowid')).toEqual([
    { name: 'Ines Örtel', role: 'owner', open: 0 },
    ...STAFF.map((name) => ({ name, role: 'technician', open: 1 })),
  ]);
  // Monday to Friday for each of three people.
  expect(run.row('SELECT count(*) AS n FROM shift')).toEqual({ n: 15 });
  expect(run.row('SELECT hour_minor FROM rate')).toEqual({ hour_minor: 8500 });
  expect(run.row('SELECT rate_ppm, category FROM tax_rate')).toEqual({ rate_ppm: 200_000, category: 'S' });
}
