import { afterEach, expect, test } from 'vitest';
import { type BayShop, openBayShop, USUAL } from './shop.ts';

let shop: BayShop | undefined;
afterEach(() => shop?.close());

test('what a bay is for can be changed while no car is planned in it', async () => {
  shop = openBayShop();
  const { bayId } = shop.write('bays.addBay', { name: 'Lamp bay', kind: 'protection' });
  shop.write('bays.changeBay', { bayId, revision: 1, kind: 'yard', capacity: 4 });
  shop.write('bays.changeBay', { bayId, revision: 2, kind: 'correction' });
  const { bays } = await shop.read('bays.setup', {});
  expect(bays.find((bay) => bay.bayId === bayId)).toMatchObject({ kind: 'correction', capacity: 1 });
});

test('with a car planned in it the change is refused, a rename is not', async () => {
  shop = openBayShop();
  const jobId = shop.job('Marit Vane', USUAL);
  shop.write('bays.bookEarliest', { jobId });
  const { bays } = await shop.read('bays.setup', {});
  const row = shop.db.raw.prepare('SELECT bay_id FROM stay WHERE job_id = ?').pluck().get(jobId);
  const held = bays.find((bay) => bay.bayId === row);
  if (!held) throw new Error('the job stands nowhere');
  const { bayId, revision } = held;
  const other = held.kind === 'wash' ? 'correction' : 'wash';
  expect(() => shop?.write('bays.changeBay', { bayId, revision, kind: other })).toThrow('BAY_KIND_IN_USE');
  shop.write('bays.changeBay', { bayId, revision, name: 'Lamp bay', kind: held.kind });
});
