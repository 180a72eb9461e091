import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { sayError } from '#core/shared/text/sayError.ts';
import { ALL_ENTRIES, attack, ENTRIES, neededBy, tooLow } from './attack.ts';
import { type BusyShop, openBusyShop } from './busyShop.ts';

const SEED = 20_261_125;
let shop: BusyShop;
beforeAll(async () => {
  shop = await openBusyShop();
});
afterAll(() => shop.close());

/** Rendering and planning take long; the faults project asks more of all of them. */
const runsOf = (name: string, kind: string): number =>
  kind === 'document' || kind === 'task' || name === 'bays.offers' ? 6 : 25;

describe('whatever is sent to an action is done, or refused in a sentence and changes nothing', () => {
  it.each(ENTRIES.map(([name, entry]) => [name, entry.kind] as const))('%s', async (name, kind) => {
    await attack(shop, name, { runs: runsOf(name, kind), seed: SEED });
  });
});

describe('a role that does not reach', () => {
  it('is refused for every action before its input is looked at, and nothing changes', async () => {
    for (const [name, entry] of ALL_ENTRIES) {
      for (const role of tooLow(entry)) {
        shop.as(role);
        for (const input of [{}, { anything: 1 }]) {
          const { reply, changed } = await shop.tried(name, input);
          expect([name, role, reply]).toEqual([
            name,
            role,
            {
              ok: false,
              error: { code: 'NOT_ALLOWED', data: { needs: neededBy(entry), has: role ?? 'nobody' } },
            },
          ]);
          expect(changed).toBe(false);
        }
      }
    }
  });
});

describe('a field that does not fit', () => {
  it.each([
    ['people.addCustomer', {}, 'name', 'Name does not fit: it is missing. Nothing was saved.'],
    [
      'people.addCustomer',
      null,
      'input',
      'input does not fit: it has to have named fields. Nothing was saved.',
    ],
    [
      'people.addCustomer',
      { name: 'x'.repeat(401) },
      'name',
      'Name does not fit: it takes at most 400 letters. Nothing was saved.',
    ],
    [
      'people.addCustomer',
      { name: 'A', nick: 'B' },
      'nick',
      'nick does not fit: nothing of that name is asked for. Nothing was saved.',
    ],
    [
      'people.addCustomer',
      { name: 'A', kind: 'ghost' },
      'kind',
      'Kind does not fit: it has to be one of person, firm. Nothing was saved.',
    ],
    [
      'people.addCustomer',
      { name: 'A', termsDays: 1.5 },
      'termsDays',
      'Days to pay does not fit: it has to be a whole number. Nothing was saved.',
    ],
    [
      'people.addCustomer',
      { name: 'A', termsDays: -1 },
      'termsDays',
      'Days to pay does not fit: it has to be 0 or more. Nothing was saved.',
    ],
    [
      'people.addCustomer',
      { name: 'half \ud800' },
      'name',
      'Name does not fit: it holds a sign that cannot be kept. Nothing was saved.',
    ],
    [
      'people.addCustomer',
      { name: 'nul \u0000' },
      'name',
      'Name does not fit: it holds a sign that cannot be kept. Nothing was saved.',
    ],
    [
      'bays.setBays',
      {
        bays: [
          { name: 'A', kind: 'wash' },
          { name: 'B', kind: 'wash', capacity: 51 },
        ],
      },
      'bays.1.capacity',
      'Cars at once in line 2 does not fit: it has to be 50 or less. Nothing was saved.',
    ],
    [
      'bookings.finishStage',
      { stageId: 'a', draws: [{ material: 'heavyCutCompound', amount: -1 }] },
      'draws.0.amount',
      'Amount in line 1 does not fit: it has to be 0 or more. Nothing was saved.',
    ],
    [
      'figures.margin',
      { fromDay: '2026-11-25', toDay: '2026-11-24' },
      'toDay',
      'Last day does not fit: it ends before it begins. Nothing was saved.',
    ],
    [
      'figures.margin',
      { fromDay: '2020-01-01', toDay: '2026-11-24' },
      'toDay',
      'Last day does not fit: it is more than three years after the first day. Nothing was saved.',
    ],
    [
      'figures.margin',
      { fromDay: '2020-02-30', toDay: '9999-01-01' },
      'fromDay',
      'First day does not fit: it is not a day of the calendar; write it as 2026-11-25. Nothing was saved.',
    ],
  ] as const)('of %s is named: %j', async (name, input, field, sentence) => {
    shop.as('owner');
    const { reply, changed } = await shop.tried(name, input);
    expect(reply).toMatchObject({ ok: false, error: { code: 'BAD_INPUT', data: { field } } });
    if (!reply.ok) expect(sayError('en', reply.error)).toBe(sentence);
    expect(changed).toBe(false);
  });

  it('is named with the record that does not exist', async () => {
    const none = 'z'.repeat(20);
    const item = shop.db.raw.prepare('SELECT id FROM stock_item WHERE reusable = ? LIMIT 1').pluck();
    const customerId = shop.db.raw.prepare('SELECT id FROM customer LIMIT 1').pluck().get();
    const paid = shop.db.raw
      .prepare("SELECT id FROM invoice WHERE number IS NOT NULL AND kind <> 'credit' LIMIT 1")
      .pluck()
      .get();
    const calls: readonly (readonly [string, unknown])[] = [
      ['stock.waste', { itemId: item.get(0), amount: 1, why: 'spilt', jobId: none }],
      ['stock.padsUsed', { itemId: item.get(1), pieces: 1, jobId: none }],
      ['billing.draftOther', { customerId, jobId: none, lines: [{ text: 'wax', priceMinor: 100 }] }],
      [
        'billing.takePayment',
        { invoiceIds: [paid], amountMinor: 10 ** 9, way: 'cash', surplus: 'deposit', depositJobId: none },
      ],
      [
        'billing.takePayment',
        { invoiceIds: [paid], amountMinor: 10 ** 9, way: 'cash', surplus: 'tip', tipPersonId: none },
      ],
    ];
    shop.as('owner');
    for (const [name, input] of calls) {
      const { reply, changed } = await shop.tried(name, input);
      expect([name, reply]).toEqual([
        name,
        { ok: false, error: { code: 'NOT_FOUND', data: { what: expect.any(String), id: none } } },
      ]);
      expect(changed).toBe(false);
    }
  });
});
