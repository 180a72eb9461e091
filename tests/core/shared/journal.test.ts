import { afterEach, expect, test } from 'vitest';
import { catalogue } from '#core/shared/catalogue.ts';
import { en } from '#core/shared/text/en.ts';
import { PLAIN_MANNER } from '#core/shared/text/manner.ts';
import { sayJournal } from '#core/shared/text/sayJournal.ts';
import type { JournalLine } from '#core/shared/views/people.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';

let shop: TestShop | undefined;
afterEach(() => shop?.close());

const inText = (line: JournalLine): string => `${line.person ?? '–'} ${sayJournal(PLAIN_MANNER, line)}`;
async function journalOf(made: TestShop): Promise<string[]> {
  const { lines } = await made.read('shop.journal', {});
  return lines.map(inText).reverse();
}

test('every write of the catalogue has its sentence, and no sentence is left of a write that is gone', () => {
  const writes = Object.entries(catalogue).flatMap(([name, e]) =>
    e.kind === 'write' ? [`journal.${name}`] : [],
  );
  const said = Object.keys(en).filter(
    (key) => /^journal\.[a-z]+\.[a-zA-Z]+$/.test(key) && !key.includes('.thing.'),
  );
  expect(said.sort()).toEqual(writes.sort());
});

test('no sentence shows a code, whatever the row holds', () => {
  for (const [name, entry] of Object.entries(catalogue)) {
    if (entry.kind !== 'write') continue;
    const line = {
      id: 1,
      atMs: 0,
      person: null,
      command: name,
      subjects: [],
      fields: ['pinTries'],
      things: [],
    };
    expect(sayJournal(PLAIN_MANNER, line as unknown as JournalLine)).not.toMatch(/[a-z][A-Z]|[{}]|undefined/);
  }
});

test('a row names its job, customer, vehicle, person or item, and what was changed of it', async () => {
  shop = openTestShop();
  const { id: customerId } = shop.write('people.addCustomer', {
    name: 'Björn Farrow',
    phone: '0555 014 208',
  });
  const { id: vehicleId } = shop.write('people.addVehicle', {
    customerId,
    body: 'saloon',
    makeModel: 'Corvan',
    plate: 'EW 50',
  });
  const { jobId } = shop.write('bookings.openJob', {
    customerId,
    vehicleId,
    purpose: 'correction',
    wish: 'swirls',
  });
  shop.write('people.changeCustomer', { customerId, revision: 1, phone: '0555 014 209', note: 'calls back' });
  shop.write('paint.startInspection', { jobId });
  shop.write('paint.addFindings', { jobId, panels: ['bo'], defect: 'swirls', severity: 'light' });
  shop.write('paint.addReadings', { jobId, panel: 'ro', phase: 'before', values: [118, 121, 119] });
  shop.write('bays.addBay', { name: 'Lamp bay', kind: 'correction' });
  shop.write('stock.addSupplier', { name: 'Dunmere Supplies', leadDays: 2, openWeekdays: [1, 2, 3, 4, 5] });
  shop.write('shop.setRate', { hourMinor: 9500, fromDay: '2027-01-04' });
  const owner = shop.db.raw.prepare("SELECT name FROM person WHERE role = 'owner'").pluck().get() as string;
  expect((await journalOf(shop)).map((text) => text.replace(owner, 'Owner'))).toEqual([
    'Owner added the customer Björn Farrow',
    'Owner added the vehicle Corvan EW 50',
    'Owner opened job 1 (Björn Farrow)',
    'Owner changed the customer Björn Farrow: Note, Telephone',
    'Owner began the inspection of job 1 (Björn Farrow)',
    'Owner noted a defect: bonnet on job 1 (Björn Farrow)',
    'Owner added film readings: roof on job 1 (Björn Farrow)',
    'Owner added the place Lamp bay',
    'Owner added the supplier Dunmere Supplies',
    'Owner set the price of an hour: every hour from Mon 4 Jan',
  ]);
});

test('who signs in is named though nobody was signed in before; a wrong PIN is nobody’s act', async () => {
  shop = openTestShop();
  const { desk } = shop.people;
  shop.write('access.setPin', { personId: desk, pin: '4711' });
  shop.as(null);
  shop.write('access.signIn', { personId: desk, token: 'ab'.repeat(32), pin: '1111' });
  shop.write('access.signIn', { personId: desk, token: 'cd'.repeat(32), pin: '4711' });
  const name = shop.db.raw.prepare('SELECT name FROM person WHERE id = ?').pluck().get(desk) as string;
  shop.as('owner');
  expect((await journalOf(shop)).slice(-2)).toEqual([
    `– a wrong PIN was typed for ${name}`,
    `${name} signed in`,
  ]);
});

test('a row whose record is gone, or that is of another version, still reads as a sentence', () => {
  const row = { id: 1, atMs: 0 as never, person: 'Dev', subjects: ['x'], fields: [], things: [] };
  expect(inText({ ...row, command: 'stock.count' })).toBe('Dev counted something that is no longer kept');
  expect(inText({ ...row, command: 'stock.conjure' })).toBe(
    'Dev did something that only another version of the program can name',
  );
});
