import { expect } from 'vitest';
import { CALLER, type Run } from '../run.ts';

/** The car comes on the minute: mileage, keys, what lies in it, damage that is there, pictures, a signature. */
export async function carArrives(run: Run): Promise<void> {
  const { drop_off_min: dropOff } = run.row('SELECT drop_off_min FROM job');
  await run.setClock(Number(dropOff) * 60_000);
  await run.open('/desk');
  await run.page.getByRole('link', { name: 'Take in' }).click();
  await run.fill('Mileage', '48120');
  await run.fill('Keys', '2');
  await run.fill('Left in the car', 'Kindersitz, Müsliriegel');
  await run.page.getByText('Pictures for our record').click();
  await run.page.locator('[data-panel="fb"]').click();
  await run.fill('On the front bumper', 'stone chips, left');
  await run.press('The car is here');
  await run.see('no signature');
  expect(run.rows('SELECT id FROM car_record')).toEqual([]);
  await sign(run);
  await run.shot('05-arrival');
  await run.press('The car is here');
  await run.page.getByRole('heading', { name: CALLER }).waitFor();
  written(run);
}

async function sign(run: Run): Promise<void> {
  const field = await run.page.getByRole('img', { name: 'Sign here' }).boundingBox();
  if (!field) throw new Error('no field to sign in');
  await run.page.mouse.move(field.x + 20, field.y + 60);
  await run.page.mouse.down();
  await run.page.mouse.move(field.x + 140, field.y + 30, { steps: 5 });
  await run.page.mouse.up();
}

function written(run: Run): void {
  expect(run.row('SELECT state FROM job')).toEqual({ state: 'here' });
  const record = run.row(
    'SELECT kind, mileage, mileage_unit, key_count, belongings, damage, pictures_record, pictures_publish, agreed_by, late_min FROM car_record',
  );
  expect(record).toEqual({
    ...{ kind: 'arrival', mileage: 48_120, mileage_unit: 'km', key_count: 2, late_min: 0 },
    ...{ belongings: 'Kindersitz, Müsliriegel', agreed_by: CALLER, pictures_record: 1, pictures_publish: 0 },
    damage: JSON.stringify([{ panel: 'fb', note: 'stone chips, left' }]),
  });
  const { strokes } = run.row('SELECT strokes FROM car_record');
  const [line = []] = JSON.parse(String(strokes)) as (readonly unknown[])[];
  expect(line.length).toBeGreaterThan(2);
}
