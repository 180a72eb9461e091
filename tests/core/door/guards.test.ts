import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { planOfJob, replacePlans } from '#core/bays/store/plan.ts';
import type { BayId, JobId, StageId } from '#core/shared/ids.ts';
import { sayError } from '#core/shared/text/sayError.ts';
import type { StayPlan } from '#core/shared/views/plan.ts';
import { agreedJob } from '#tests/helpers/billing.ts';
import { CAR_RECORD, jobWith } from '#tests/helpers/bookedJob.ts';
import { openTestShop, TEST_NOW, type TestShop } from '#tests/helpers/shop.ts';
import { type BayShop, openBayShop, USUAL } from '../bays/shop.ts';
import { type BusyShop, openBusyShop, tablesOf } from './busyShop.ts';

/** What a call is refused with, and that it says so in a sentence. */
async function refusal(shop: TestShop, name: string, input: unknown): Promise<string> {
  const reply = await shop.call(name, input);
  if (reply.ok) return 'nothing refused';
  expect(sayError('en', reply.error)).toMatch(/\S \S.*[.!?]$/);
  return reply.error.code;
}

describe('overlapping plans', () => {
  let shop: BayShop;
  beforeEach(() => {
    shop = openBayShop();
  });
  afterEach(() => shop.close());

  /** The first offer of a new job, booked or only looked at. */
  async function offered(who: string) {
    const jobId = shop.job(who, USUAL);
    const view = await shop.read('bays.offers', { jobId });
    const plan = view.offers[0]?.plan;
    if (!plan) throw new Error('no offer');
    const stays = [...plan.stays];
    const pieces = plan.pieces.map((p) => ({ ...p, personIds: [...p.personIds] }));
    return { planRevision: view.planRevision, plan: { jobId, stays, pieces } };
  }

  it('are refused with the rule in words, and the board keeps the first of them', async () => {
    const first = await offered('Marit Vane');
    shop.write('bays.bookOffer', first);
    const second = await offered('Celia Farrow');
    const place = (n: number) => first.plan.stays[n]?.bayId ?? second.plan.stays[0]?.bayId;
    const pieces = second.plan.pieces.map((p, i) => ({ ...p, ...first.plan.pieces[i], stageId: p.stageId }));
    const onTop = { ...second, plan: { jobId: second.plan.jobId, stays: first.plan.stays, pieces } };
    expect(place(0)).toBeDefined();
    expect(await refusal(shop, 'bays.bookOffer', onTop)).toBe('PLAN_BREAKS_RULE');
    expect(await shop.read('bays.faults', {})).toEqual([]);
  });

  it('are refused by the database: one bay, one car, one person', async () => {
    shop.breaksPlans();
    const first = await offered('Marit Vane');
    shop.write('bays.bookOffer', first);
    const { raw } = shop.db;
    const other = shop.job('Celia Farrow', USUAL);
    const again = (table: string, column: string): (() => unknown) => {
      const names = raw.prepare(`SELECT name FROM pragma_table_info('${table}') WHERE name <> 'id'`).pluck();
      const columns = names.all() as string[];
      const values = columns.map((name) => (name === column ? `'${other}'` : name)).join(', ');
      return () =>
        raw.exec(
          `INSERT INTO ${table} (${columns.join(', ')}) SELECT ${values} FROM ${table} WHERE ${
            table === 'stay' ? "bay_id IN (SELECT id FROM bay WHERE kind <> 'yard')" : 'person_id IS NOT NULL'
          } LIMIT 1`,
        );
    };
    expect(again('stay', 'job_id')).toThrow(/two cars in one bay/);
    expect(again('stay', 'nothing')).toThrow(/two cars in one bay|one car in two places/);
    expect(again('placement', 'job_id')).toThrow(/one person at two cars/);
    expect(() => raw.exec('UPDATE stay SET leave_min = leave_min + 1')).toThrow(/lifted and set again/);
    expect(() => raw.exec('UPDATE stay SET arrive_min = arrive_min - 1')).toThrow(/lifted and set again/);
    raw.exec('UPDATE stay SET leave_min = leave_min - 1');
    expect(() => raw.exec('UPDATE placement SET end_min = end_min + 1')).toThrow(/lifted and set again/);
    expect(() => raw.exec('UPDATE placement SET dwell_end_min = 0')).toThrow();
  });

  it('stay, and may be cut, in a yard that was made smaller; no longer stay is taken there', () => {
    const bayId = shop.bays[3] as BayId;
    const stay = (arriveMin: number, leaveMin: number) => ({ bayId, arriveMin, leaveMin }) as StayPlan;
    const [jobId, other] = [shop.job('Marit Vane', USUAL), shop.job('Celia Farrow', USUAL)];
    const set = (id: JobId, ...stays: readonly StayPlan[]) =>
      replacePlans(shop.db, [{ jobId: id, stays, pieces: [] }]);
    set(jobId, stay(0, 100));
    set(other, stay(50, 200));
    shop.db.raw.prepare('UPDATE bay SET capacity = 1 WHERE id = ?').run(bayId);
    set(jobId, stay(0, 100));
    set(jobId, stay(10, 90));
    expect(planOfJob(shop.db, jobId).stays).toEqual([stay(10, 90)]);
    expect(() => set(jobId, stay(10, 91))).toThrow('two cars in one bay');
  });

  it('are refused within one plan too: a job named twice, one person at two stages, a stage of another job', async () => {
    const first = await offered('Marit Vane');
    shop.write('bays.bookOffer', first);
    const other = await offered('Celia Farrow');
    const { planRevision } = other;
    const restore = (...plans: readonly unknown[]) =>
      refusal(shop, 'bays.restorePlans', { planRevision, plans });
    expect(await restore(first.plan, first.plan)).toBe('BAD_INPUT');
    const [piece, ...rest] = first.plan.pieces;
    const twice = {
      ...first.plan,
      pieces: [piece, { ...piece, stageId: rest[0]?.stageId }, ...rest.slice(1)],
    };
    expect(await restore(twice)).toBe('PLAN_BREAKS_RULE');
    const foreign = {
      ...first.plan,
      pieces: [{ ...piece, stageId: other.plan.pieces[0]?.stageId }, ...rest],
    };
    expect(await restore(foreign)).toBe('PLAN_BREAKS_RULE');
    const none = { ...first.plan, pieces: [{ ...piece, stageId: 'z'.repeat(20) }, ...rest] };
    expect(await restore(none)).toBe('PLAN_BREAKS_RULE');
    const side = { jobId: first.plan.jobId, stageIds: [piece?.stageId] };
    expect(await refusal(shop, 'bays.swap', { planRevision, a: side, b: side })).toBe('BAD_INPUT');
    expect(await shop.read('bays.faults', {})).toEqual([]);
  });

  it('a promise before the drop-off is refused by the program and by the database', async () => {
    const offer = await offered('Marit Vane');
    const pickUpMin = (offer.plan.stays[0]?.arriveMin ?? 0) - 60;
    expect(await refusal(shop, 'bays.bookOffer', { ...offer, pickUpMin })).toBe('PROMISE_BEFORE_DROP_OFF');
    shop.write('bays.bookOffer', offer);
    const edit = () => shop.db.raw.exec('UPDATE job SET pick_up_min = drop_off_min');
    expect(edit).toThrow(/CHECK constraint/);
  });
});

describe('money above what is owed', () => {
  let shop: TestShop;
  beforeEach(() => {
    shop = openTestShop();
  });
  afterEach(() => shop.close());

  function issued(): { readonly invoiceId: ReturnType<typeof draft>['invoiceId']; readonly owed: number } {
    const { invoiceId } = draft();
    shop.write('billing.issueInvoice', { invoiceId, revision: 1, aheadOfWork: true });
    return { invoiceId, owed: 90_390 };
  }
  function draft() {
    return shop.write('billing.draftInvoice', { jobId: agreedJob(shop).jobId });
  }

  it('is refused until it is named a deposit, a tip or a credit, and then is exactly that', async () => {
    for (const surplus of ['deposit', 'tip', 'credit'] as const) {
      const { invoiceId, owed } = issued();
      const money = { invoiceIds: [invoiceId], amountMinor: owed + 500, way: 'cash' as const };
      expect(await refusal(shop, 'billing.takePayment', money)).toBe('MONEY_ABOVE_OWED');
      expect(await refusal(shop, 'billing.takePayment', { ...money, surplus: 'other' })).toBe('BAD_INPUT');
      // The job of this invoice is billed: a deposit is for another one.
      const depositJobId = surplus === 'deposit' ? agreedJob(shop).jobId : null;
      const taken = shop.write('billing.takePayment', { ...money, surplus, depositJobId });
      expect(taken).toMatchObject({ appliedMinor: owed, surplusMinor: 500, owedMinor: 0 });
      const row = shop.db.raw
        .prepare('SELECT kind, amount_minor AS amount FROM payment WHERE receipt = ? AND kind <> ?')
        .get(taken.receipt, 'payment');
      expect(row).toEqual({ kind: surplus, amount: 500 });
    }
  });

  it('is not taken for a draft, nor settled on one by writing past the program', async () => {
    const { invoiceId } = draft();
    const money = { invoiceIds: [invoiceId], amountMinor: 100, way: 'cash' as const };
    expect(await refusal(shop, 'billing.takePayment', money)).toBe('INVOICE_NOT_ISSUED');
    const other = issued();
    shop.write('billing.takePayment', { ...money, invoiceIds: [other.invoiceId] });
    const lay = shop.db.raw.prepare(
      `INSERT INTO allocation (payment_id, invoice_id, amount_minor, at_ms, local_day)
       SELECT id, ?, 1, 1, '2026-11-25' FROM payment LIMIT 1`,
    );
    expect(() => lay.run(invoiceId)).toThrow(/settles issued invoices/);
  });

  it('an issued invoice takes no other tax, no other number and no further lines', async () => {
    const { invoiceId } = issued();
    const { raw } = shop.db;
    const tax = `INSERT INTO invoice_tax (invoice_id, category, rate_ppm, name, taxable_minor, tax_minor)`;
    expect(() => raw.prepare(`${tax} VALUES (?, 'Z', 0, '', 5000, 0)`).run(invoiceId)).toThrow(
      /tax rows repeat/,
    );
    expect(() => raw.exec('UPDATE invoice SET number = 99')).toThrow(/never changes|no gaps/);
    expect(() => raw.exec("UPDATE invoice SET bill = '{}', totals = '{}'")).toThrow(/never changes/);
    expect(() => raw.exec('UPDATE invoice SET number = NULL')).toThrow(/never changes/);
    expect(() => raw.exec('INSERT OR REPLACE INTO invoice SELECT * FROM invoice')).toThrow();
    expect(await refusal(shop, 'billing.changeDraft', { invoiceId, revision: 2, lines: [] })).toBe(
      'INVOICE_ISSUED',
    );
  });
});

describe('a car taken in', () => {
  it('keeps its record as written, and its stages their order', async () => {
    const shop = openTestShop();
    try {
      const { jobId, stageIds } = jobWith(shop, ['wash', 'clay', 'cut']);
      shop.write('bookings.arrive', { jobId, ...CAR_RECORD });
      expect(() => shop.db.raw.exec('UPDATE car_record SET mileage = 1')).toThrow(/kept as written/);
      expect(() => shop.db.raw.exec('DELETE FROM car_record')).toThrow(/are kept/);
      const stageId = stageIds[2] as StageId;
      expect(await refusal(shop, 'bookings.startStage', { stageId })).toBe('STAGE_ORDER');
      const ahead = { stageId, personId: shop.people.technician, startMs: TEST_NOW, endMs: TEST_NOW + 1000 };
      expect(await refusal(shop, 'bookings.typeTime', ahead)).toBe('WORK_AHEAD');
      expect(await refusal(shop, 'bookings.typeTime', { ...ahead, endMs: TEST_NOW - 1 })).toBe(
        'WORK_REVERSED',
      );
    } finally {
      shop.close();
    }
  });
});

describe('what was written is never changed, taken away or replaced', () => {
  /** Tables whose rows stand for good, by what their triggers say. */
  const FOR_GOOD = {
    journal: /append-only/,
    stock_movement: /append-only/,
    pad_event: /append-only/,
    payment: /append-only/,
    allocation: /append-only/,
    invoice_tax: /never changes/,
    quote_option: /kept as it was/,
    estimate: /kept as they were/,
    vehicle_keeper: /append-only/,
    job_override: /append-only/,
    stage_note: /append-only/,
    test_spot: /kept as they were/,
    finding: /kept as noted/,
    film_reading: /kept as noted/,
    picture: /kept as noted/,
    deduction: /never changes/,
    car_record: /kept/,
  } as const;
  let shop: BusyShop;
  beforeAll(async () => {
    shop = await openBusyShop();
  });
  afterAll(() => shop.close());

  it.each(Object.entries(FOR_GOOD))('%s', (table, sentence) => {
    const { raw } = shop.db;
    const count = raw.prepare(`SELECT count(*) FROM ${table}`).pluck().get() as number;
    const triggers = raw.prepare('SELECT name FROM sqlite_master WHERE type = ? AND tbl_name = ?').pluck();
    expect(triggers.all('trigger', table)).toEqual(
      expect.arrayContaining([`${table}_no_update`, `${table}_no_delete`]),
    );
    if (count === 0) return;
    const [first] = raw.prepare(`SELECT name FROM pragma_table_info('${table}')`).pluck().all() as string[];
    expect(() => raw.exec(`UPDATE ${table} SET ${first} = ${first}`)).toThrow(sentence);
    expect(() => raw.exec(`DELETE FROM ${table}`)).toThrow(sentence);
    expect(() => raw.exec(`INSERT OR REPLACE INTO ${table} SELECT * FROM ${table}`)).toThrow();
    expect(raw.prepare(`SELECT count(*) FROM ${table}`).pluck().get()).toBe(count);
  });

  it('the shop that was looked at holds rows in most of these tables', () => {
    const filled = Object.keys(FOR_GOOD).filter(
      (table) => shop.db.raw.prepare(`SELECT 1 FROM ${table} LIMIT 1`).get() !== undefined,
    );
    expect(filled).toEqual(expect.arrayContaining(['journal', 'stock_movement', 'payment', 'allocation']));
    expect(tablesOf(shop.db)).toEqual(expect.arrayContaining(Object.keys(FOR_GOOD)));
  });

  it('no record of a person, customer, vehicle, rate or tax can be deleted', () => {
    for (const table of ['person', 'customer', 'vehicle', 'rate', 'tax_rate', 'shop'])
      expect(() => shop.db.raw.exec(`DELETE FROM ${table}`)).toThrow(/kept/);
  });
});
