import { expect } from 'vitest';
import type { Run } from '../run.ts';

/** A shop with an umlaut, from the first window on. */
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
  for (const [at, name] of ['Wren Tarn', 'Jörg Mühl', 'Dev Ostler'].entries()) {
    await run.press('Add somebody');
    const field = run.page.getByLabel('name', { exact: true }).nth(at);
    await field.fill(name);
  }
  await run.press(/^Next: Price/);
  await run.fill('price of a person hour', '85');
  await run.press(/^Next: Tax/);
  await run.press('Set up the shop');
  await run.page.getByRole('main', { name: 'Shop' }).waitFor();
  expect(run.row('SELECT name, zone, currency, film_unit FROM shop')).toEqual({
    name: 'Lichtschliff Österby',
    zone: 'Europe/Vienna',
    currency: 'EUR',
    film_unit: 'um',
  });
}
