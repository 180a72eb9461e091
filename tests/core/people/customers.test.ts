import { afterEach, beforeEach, expect, test } from 'vitest';
import { openTestShop, TEST_NOW, type TestShop } from '#tests/helpers/shop.ts';

let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
});
afterEach(() => shop.close());

const LONG = 'Wilhelmine-Änne von und zu Ostermünde-Überlingen am Weißen Se'; /* 61 letters */

test('a customer needs only a name; umlauts and sixty letters stay as they are', async () => {
  const { id } = shop.write('people.addCustomer', { name: `  ${LONG} ` });
  const page = await shop.read('people.customerPage', { customerId: id });
  expect(page.customer).toMatchObject({ name: LONG, phone: '', email: '', kind: 'person', revision: 1 });
  expect(page.money).toEqual({ owedMinor: 0, openInvoices: 0, oldestDueDay: null, heldMinor: 0 });
});

test('a customer is found by part of a name without accents, by telephone and by plate', async () => {
  const { id } = shop.write('people.addCustomer', { name: 'Jürgen Łoś-Müller', phone: '+49 555 014 207' });
  shop.write('people.addVehicle', { customerId: id, body: 'hatch', plate: 'EW 22 KPO' });
  shop.write('people.addCustomer', { name: 'Marit Vane' });
  for (const text of ['muller jur', 'LOS', '0555 014', 'ew-22']) {
    const found = await shop.read('people.findCustomers', { text });
    expect(found.map((hit) => hit.id)).toEqual([id]);
  }
  expect(await shop.read('people.findCustomers', { text: 'uller' })).toEqual([]);
  expect(await shop.read('people.findCustomers', {})).toHaveLength(2);
});

test('a customer is found by a number that is typed with its country code though it was noted without', async () => {
  const { id } = shop.write('people.addCustomer', { name: 'Jürgen Müller', phone: '0555 014 207' });
  shop.write('people.addCustomer', { name: 'Marit Vane', phone: '' });
  const found = async (text: string) =>
    (await shop.read('people.findCustomers', { text })).map((hit) => hit.id);
  expect(await found('+49 555 014 207')).toEqual([id]);
  expect(await found('+49 555 014 208')).toEqual([]);
});

test('a vehicle is found by its make and model, with accents and without', async () => {
  const { id } = shop.write('people.addCustomer', { name: 'Jürgen Müller' });
  const { id: vehicleId } = shop.write('people.addVehicle', {
    customerId: id,
    body: 'hatch',
    makeModel: 'Härlow Éstra',
  });
  shop.write('people.addVehicle', { customerId: id, body: 'hatch', makeModel: 'Velloy Merrin' });
  for (const text of ['härlow', 'Harlow', 'ÉSTRA', 'estra'])
    expect((await shop.read('people.findVehicles', { text })).map((hit) => hit.id)).toEqual([vehicleId]);
});

test('a vehicle is found by its number however that is spaced', async () => {
  const { id } = shop.write('people.addCustomer', { name: 'Jürgen Müller' });
  const { id: vehicleId } = shop.write('people.addVehicle', {
    customerId: id,
    body: 'hatch',
    vin: '1M8 GDM9 A-XKP042788',
  });
  for (const text of ['1M8GDM9AXKP042788', 'xkp 0427'])
    expect((await shop.read('people.findVehicles', { text })).map((hit) => hit.id)).toEqual([vehicleId]);
});

test('somebody with the same telephone and two letters off is offered, with the letters that differ', async () => {
  const { id } = shop.write('people.addCustomer', { name: 'Ilse Tarne', phone: '0555 014 207' });
  const almost = await shop.read('people.findAlmost', { name: 'Ilsa Tarn', phone: '+49 555 014207' });
  expect(almost).toMatchObject({ same: 'phone', letters: 2, inTyped: [3], inKnown: [3, 9] });
  expect(almost?.customer.id).toBe(id);
  expect(await shop.read('people.findAlmost', { name: 'Dev Ostler', phone: '0555 014 207' })).toBeNull();
  expect(await shop.read('people.findAlmost', { name: 'Ilsa Tarn', phone: '0555 999 999' })).toBeNull();
  expect(await shop.read('people.findAlmost', { name: 'Ilsa Tarn' })).toBeNull();
});

test('the same plate is enough too', async () => {
  const { id } = shop.write('people.addCustomer', { name: 'Bo Dray' });
  shop.write('people.addVehicle', { customerId: id, body: 'van', plate: 'AB 1' });
  expect(await shop.read('people.findAlmost', { name: 'Bo Drey', plate: 'ab-1' })).toMatchObject({
    same: 'plate',
  });
});

test('an edit that saw an old revision is refused and changes nothing', async () => {
  const { id } = shop.write('people.addCustomer', { name: 'Bo Dray' });
  shop.write('people.changeCustomer', { customerId: id, revision: 1, phone: '0555 1' });
  expect(() => shop.write('people.changeCustomer', { customerId: id, revision: 1, name: 'Bo Drey' })).toThrow(
    'STALE',
  );
  const { customer } = await shop.read('people.customerPage', { customerId: id });
  expect(customer).toMatchObject({ name: 'Bo Dray', phone: '0555 1', revision: 2 });
});

test('a vehicle number that does not fit is kept and said', async () => {
  const { id: customerId } = shop.write('people.addCustomer', { name: 'Bo Dray' });
  const added = shop.write('people.addVehicle', {
    customerId,
    body: 'hatch',
    vin: 'ZZ9TERN43M1041882',
    year: 2021,
  });
  expect(added.vinCheck).toMatchObject({
    kind: 'checkDigit',
    place: 9,
    is: '3',
    should: '5',
    binding: false,
  });
  const { vehicle } = await shop.read('people.vehiclePage', { vehicleId: added.id });
  expect(vehicle).toMatchObject({ vin: 'ZZ9TERN43M1041882', year: 2021, customer: 'Bo Dray' });
});

test('a vehicle that changes hands keeps its earlier keepers', async () => {
  const first = shop.write('people.addCustomer', { name: 'Bo Dray' }).id;
  const second = shop.write('people.addCustomer', { name: 'Marit Vane' }).id;
  const { id } = shop.write('people.addVehicle', { customerId: first, body: 'saloon' });
  shop.at(TEST_NOW + 1000);
  shop.write('people.changeVehicle', { vehicleId: id, revision: 1, customerId: second });
  const page = await shop.read('people.vehiclePage', { vehicleId: id });
  expect(page.keepers.map((k) => k.name)).toEqual(['Marit Vane', 'Bo Dray']);
});

test('a year before the first motor car or after the next one is refused in words', () => {
  const { id: customerId } = shop.write('people.addCustomer', { name: 'Bo Dray' });
  const add = (year: number) => () => shop.write('people.addVehicle', { customerId, body: 'van', year });
  expect(add(1885)).toThrow('YEAR_UNLIKELY {"year":1885,"latest":2027}');
  expect(add(2028)).toThrow('YEAR_UNLIKELY');
  expect(add(2027)).not.toThrow();
});

test('removed details are gone, the record and its journal stay, and nothing can be changed any more', async () => {
  const { id } = shop.write('people.addCustomer', { name: 'Bo Dray', phone: '0555 014 207' });
  shop.write('people.eraseCustomer', { customerId: id, revision: 1 });
  expect(await shop.read('people.findCustomers', { text: 'dray' })).toEqual([]);
  expect(() => shop.write('people.changeCustomer', { customerId: id, revision: 2, name: 'X' })).toThrow(
    'CUSTOMER_ERASED',
  );
  const kept = shop.db.raw.prepare('SELECT * FROM customer WHERE id = ?').get(id);
  expect(JSON.stringify(kept)).not.toContain('Dray');
  const { lines } = await shop.read('shop.journal', { subject: id });
  expect(lines.map((line) => line.command)).toEqual(['people.eraseCustomer', 'people.addCustomer']);
  expect(JSON.stringify(lines)).not.toContain('0555');
});

test('a technician may look at a vehicle but not add a customer', async () => {
  shop.as('technician');
  expect(() => shop.write('people.addCustomer', { name: 'Bo Dray' })).toThrow('NOT_ALLOWED');
  expect(await shop.read('people.findVehicles', { text: 'x' })).toEqual([]);
});
