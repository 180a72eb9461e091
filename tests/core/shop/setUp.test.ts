import { afterEach, expect, test } from 'vitest';
import { actorOf } from '#core/access/session.ts';
import { defaultSettings, settingNotes, shopSettings } from '#core/shared/settings.ts';
import { isTextKey } from '#core/shared/text/say.ts';
import type { LocalDay } from '#core/shared/units.ts';
import { rateOn, shopOf, taxOn } from '#core/views/shop.ts';
import { jobWith } from '#tests/helpers/bookedJob.ts';
import { openTestShop, TEST_NOW, type TestShop } from '#tests/helpers/shop.ts';

let shop: TestShop;
afterEach(() => shop.close());

const token = 'a1'.repeat(32);
const day = (text: string): LocalDay => text as LocalDay;
const details = {
  ...{
    name: '  Lichtschliff   Österby ',
    country: 'AT',
    zone: 'Europe/Vienna',
    currency: 'EUR',
    locale: 'en-gb',
  },
  ...({ filmUnit: 'um', volumeUnit: 'ml', lengthUnit: 'm', paper: 'A4' } as const),
};

test('setting up writes the shop, signs its first owner in, and works once', async () => {
  shop = openTestShop({ empty: true });
  expect(await shop.read('shop.state', {})).toEqual({ setUp: false });
  const { ownerId } = shop.write('shop.setUp', {
    shop: details,
    owner: { name: 'Ines', pin: '4711', token },
    people: [{ name: 'Wren', role: 'technician' }],
    rates: [{ hourMinor: 8500 }, { for: { applies: 'stage', stage: 'cut' }, hourMinor: 9500 }],
    taxes: [{ name: 'VAT', category: 'S', ratePpm: 200_000 }],
    settings: [{ setting: 'billing.depositPpm', value: 300_000 }],
  });
  expect(actorOf(shop.db, token, TEST_NOW)).toEqual({ personId: ownerId, name: 'Ines', role: 'owner' });
  expect(await shop.read('shop.state', {})).toMatchObject({
    ...{ setUp: true, name: 'Lichtschliff Österby', locale: 'en-GB', currencyDigits: 2 },
    ...{ today: '2026-11-25', isDemo: false, demoAgeDays: null },
  });
  expect(shopOf(shop.db).settings.billing.depositPpm).toBe(300_000);
  expect(() => shop.write('shop.setUp', { shop: details, owner: { name: 'X' } })).toThrow(
    'SHOP_ALREADY_SET_UP',
  );
});

test('a set-up that is refused in its last part leaves nothing behind', async () => {
  shop = openTestShop({ empty: true });
  const wrong = { name: 'VAT', category: 'S' as const, ratePpm: 0 };
  expect(() => shop.write('shop.setUp', { shop: details, owner: { name: 'Ines' }, taxes: [wrong] })).toThrow(
    'TAX_CATEGORY_RATE',
  );
  expect(await shop.read('shop.state', {})).toEqual({ setUp: false });
});

test('setting up takes bays, hours, and who does what when, and one wrong shift leaves nothing behind', async () => {
  shop = openTestShop({ empty: true });
  const week = [1, 2, 3, 4, 5].map((weekday) => ({ weekday, startMin: 480, endMin: 1020 }));
  const opened = (kind: 'shop' | 'desk') =>
    week.map(({ weekday, startMin, endMin }) => ({ weekday, kind, openMin: startMin, closeMin: endMin }));
  const input = (name: string, shifts = week) => ({
    ...{
      shop: details,
      owner: { name: 'Ines' },
      people: [{ name: 'Wren  Tarn', role: 'technician' as const }],
    },
    bays: [
      { name: 'Bay 1', kind: 'correction' as const },
      { name: 'Yard', kind: 'yard' as const, capacity: 3 },
    ],
    hours: [...opened('shop'), ...opened('desk')],
    technicians: [
      { name, skills: ['wash', 'correction'] as ('wash' | 'correction')[], speedPpm: 900_000, shifts },
    ],
  });
  expect(() => shop.write('shop.setUp', input('Nobody'))).toThrow('NOT_FOUND');
  expect(() =>
    shop.write('shop.setUp', input('Wren Tarn', [{ weekday: 1, startMin: 600, endMin: 540 }])),
  ).toThrow('SPAN_REVERSED');
  expect(await shop.read('shop.state', {})).toEqual({ setUp: false });
  shop.write('shop.setUp', input(' wren tarn '));
  const setup = shop.db.raw.prepare('SELECT name, kind, capacity FROM bay ORDER BY seq').all();
  expect(setup).toEqual([
    { name: 'Bay 1', kind: 'correction', capacity: 1 },
    { name: 'Yard', kind: 'yard', capacity: 3 },
  ]);
  const count = (sql: string) => shop.db.raw.prepare(sql).pluck().get();
  expect(count('SELECT count(*) FROM opening_hours')).toBe(10);
  expect(count('SELECT sum(end_min - start_min) FROM shift')).toBe(5 * 540);
  expect(
    count('SELECT p.name FROM technician t JOIN person p ON p.id = t.person_id WHERE speed_ppm = 900000'),
  ).toBe('Wren Tarn');
});

test.each([
  [{ zone: 'Europe/Nowhere' }, 'ZONE_UNKNOWN'],
  [{ currency: 'XQX' }, 'CURRENCY_UNKNOWN'],
  [{ locale: 'not a tag' }, 'LOCALE_UNKNOWN'],
  [{ name: '   ' }, 'NAME_MISSING'],
  [{ email: 'nobody' }, 'EMAIL_UNREADABLE'],
])('a shop with %o is refused with %s', (fault, code) => {
  shop = openTestShop({ empty: true });
  expect(() => shop.write('shop.setUp', { shop: { ...details, ...fault }, owner: { name: 'Ines' } })).toThrow(
    code,
  );
});

test('a stage’s own price beats its skill’s, which beats the one for all; each holds from its day', () => {
  shop = openTestShop();
  shop.write('shop.setRate', { for: { applies: 'skill', skill: 'correction' }, hourMinor: 9000 });
  shop.write('shop.setRate', {
    for: { applies: 'stage', stage: 'cut' },
    hourMinor: 9900,
    fromDay: day('2026-12-01'),
  });
  const on = (stage: 'cut' | 'wash', skill: 'correction' | 'wash', d: string) =>
    rateOn(shop.db, stage, skill, day(d)).hourMinor;
  expect(on('cut', 'correction', '2026-11-24')).toBe(8500);
  expect(on('cut', 'correction', '2026-11-25')).toBe(9000);
  expect(on('cut', 'correction', '2026-12-01')).toBe(9900);
  expect(on('wash', 'wash', '2026-12-01')).toBe(8500);
  expect(() => on('wash', 'wash', '2023-12-31')).toThrow('NO_RATE');
});

test('a price may be corrected on its day, never in the past', async () => {
  shop = openTestShop();
  shop.write('shop.setRate', { hourMinor: 9000 });
  shop.write('shop.setRate', { hourMinor: 9100 });
  expect(() => shop.write('shop.setRate', { hourMinor: 1, fromDay: day('2026-11-24') })).toThrow('DAY_PAST');
  const { rates } = await shop.read('shop.page', {});
  expect(rates.map((r) => [r.fromDay, r.hourMinor, r.holds])).toEqual([
    ['2026-11-25', 9100, true],
    ['2024-01-01', 8500, false],
  ]);
});

test('whoever charges no tax says why, and the taxed category has a rate', () => {
  shop = openTestShop();
  const set = (category: 'S' | 'Z' | 'E', ratePpm: number, reason = '') =>
    shop.write('shop.setTax', { code: 'standard', name: 'VAT', category, ratePpm, reason });
  expect(() => set('E', 0)).toThrow('TAX_REASON_MISSING');
  expect(() => set('Z', 10_000)).toThrow('TAX_CATEGORY_RATE');
  set('E', 0, 'Small business, no tax charged');
  expect(taxOn(shop.db, 'standard', day('2026-11-25'))).toMatchObject({ category: 'E', ratePpm: 0 });
  expect(taxOn(shop.db, 'standard', day('2026-11-24'))).toMatchObject({ category: 'S', ratePpm: 190_000 });
  expect(() => taxOn(shop.db, 'reduced', day('2026-11-25'))).toThrow('NO_TAX');
});

test('rules are changed by name, all or none, inside their limits and by one person at a time', async () => {
  shop = openTestShop();
  const change = (revision: number, setting: string, value: number) => () =>
    shop.write('shop.changeSettings', { revision, changes: [{ setting, value }] });
  expect(change(1, 'paint.thinTenthUm', 1)).toThrow(
    'SETTING_OUT_OF_RANGE {"setting":"paint.thinTenthUm","wrong":"low"}',
  );
  expect(change(1, 'paint.shine', 1)).toThrow('SETTING_UNKNOWN');
  expect(change(1, '__proto__.x', 1)).toThrow('SETTING_UNKNOWN');
  change(1, 'paint.thinTenthUm', 850)();
  expect(change(1, 'paint.thinTenthUm', 800)).toThrow('STALE');
  expect(shopOf(shop.db).settings.paint.thinTenthUm).toBe(850);
  const { lines } = await shop.read('shop.journal', {});
  expect(lines[0]).toMatchObject({ command: 'shop.changeSettings', fields: ['paint.thinTenthUm'] });
});

test('every rule has a default inside its own limits, a unit, a source and a name', () => {
  shop = openTestShop();
  const defaults = defaultSettings();
  expect(shopSettings.parse(defaults)).toEqual(defaults);
  for (const [group, rules] of Object.entries(defaults))
    for (const key of Object.keys(rules)) {
      expect(Object.keys(settingNotes[group as 'paint'])).toContain(key);
      expect(isTextKey(`setting.${group}.${key}`), `${group}.${key}`).toBe(true);
    }
});

test('the shop’s details are changed by an owner who saw the newest ones', async () => {
  shop = openTestShop();
  shop.write('shop.update', { revision: 1, name: 'Neuer Name', filmUnit: 'mil' });
  expect((await shop.read('shop.page', {})).shop).toMatchObject({
    name: 'Neuer Name',
    filmUnit: 'mil',
    revision: 2,
  });
  expect(() => shop.write('shop.update', { revision: 1, name: 'X' })).toThrow('STALE');
  shop.as('desk');
  expect(() => shop.write('shop.update', { revision: 2, name: 'X' })).toThrow('NOT_ALLOWED');
});

test('the journal goes on where a page ended', async () => {
  shop = openTestShop();
  for (const name of ['A', 'B', 'C']) shop.write('people.addCustomer', { name });
  const first = await shop.read('shop.journal', { limit: 2 });
  expect([first.lines.length, first.older !== null]).toEqual([2, true]);
  const rest = await shop.read('shop.journal', { limit: 2, before: first.older ?? 1 });
  expect([rest.lines.length, rest.older]).toEqual([1, null]);
});

test('the currency can be changed until amounts are kept in it', async () => {
  shop = openTestShop();
  shop.write('shop.update', { revision: 1, currency: 'CHF' });
  shop.write('shop.update', { revision: 2, currency: 'EUR' });
  // What an hour of somebody costs is such an amount, until it is taken away.
  const paid = { personId: shop.people.technician, fromDay: '2026-06-01' };
  shop.write('access.setHourCost', { ...paid, hourCostMinor: 2850, wasMinor: null });
  expect(await shop.call('shop.update', { revision: 3, currency: 'JPY' })).toMatchObject({
    error: { code: 'CURRENCY_IN_USE' },
  });
  shop.write('access.setHourCost', { ...paid, hourCostMinor: null, wasMinor: 2850 });
  const { jobId } = jobWith(shop, ['wash']);
  shop.write('estimate.provisional', { jobId, wish: 'clean' });
  const reply = await shop.call('shop.update', { revision: 3, currency: 'JPY' });
  expect(reply).toMatchObject({ ok: false, error: { code: 'CURRENCY_IN_USE', data: { currency: 'EUR' } } });
  shop.write('shop.update', { revision: 3, currency: 'EUR', name: 'Another name' });
});
