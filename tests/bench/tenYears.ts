import type { InvoiceId } from '#core/shared/ids.ts';
import { seeded } from '#core/shared/random.ts';
import { addLocalDays, isoWeekday, minuteOf } from '#core/shared/time.ts';
import type { LocalDay } from '#core/shared/units.ts';
import { agreedJob } from '../helpers/billing.ts';
import type { TestShop } from '../helpers/shop.ts';

const ZONE = 'Europe/Berlin';
export const FIRST_DAY = '2016-11-28' as LocalDay;
export const LAST_DAY = '2026-11-24' as LocalDay;
const JOBS = 30_000;
const BAYS = 6;
/** Somebody washes, somebody corrects, somebody wipes and protects: 2.7 people a job, as in the demo shop. */
const HANDS: Readonly<Record<string, number>> = { wash: 1, decontaminate: 1, panelWipe: 2, protect: 2 };
const YARD = 'yard0000000000000001';
const CUSTOMERS = 8000;
/** Half a day in one bay: kind, minutes said, unattended minutes after. */
const STAGES = [
  ['wash', 30, 0],
  ['decontaminate', 20, 0],
  ['refine', 100, 0],
  ['panelWipe', 15, 0],
  ['protect', 30, 30],
] as const;
/** Used on every job, some pieces of each. */
const PADS = ['Finishing pad', 'Wash mitt', 'Drying towel'] as const;
const PURPOSES = ['correction', 'correction', 'protection', 'washOnly', 'interior'] as const;
const HARDNESS = ['soft', 'medium', 'hard', 'unknown'] as const;

/**
 * Fills the file of a new test shop with ten years of 30,000 jobs straight by SQL: people, bays, stages with their
 * plan and their work, stock drawn, quotes, invoices, payments, a redo now and then. Seeded; the doctor passes on it.
 */
export function fillTenYears(shop: TestShop): void {
  const { raw } = shop.db;
  const { jobId } = agreedJob(shop);
  const { invoiceId } = shop.write('billing.draftInvoice', { jobId });
  shop.write('billing.issueInvoice', { invoiceId, revision: 1, aheadOfWork: true });
  raw.transaction(() => {
    raw.exec('DROP TRIGGER journal_no_update');
    raw.exec(`UPDATE journal SET at_ms = ${Date.parse('2016-11-27T08:00Z')}`);
    setUp(shop);
    const add = inserts(shop, invoiceId);
    const random = seeded(30_000);
    let made = 0;
    for (let day = FIRST_DAY; day <= LAST_DAY && made < JOBS; day = addLocalDays(day, 1)) {
      if (isoWeekday(day) > 5) continue;
      const at = minuteOf(day, 480, ZONE);
      for (let slot = 0; slot < BAYS * 2 && made < JOBS; slot += 1) {
        add({ n: made, day, bay: slot % BAYS, at: at + (slot < BAYS ? 0 : 285), random });
        made += 1;
      }
    }
  })();
}

function setUp(shop: TestShop): void {
  const { raw } = shop.db;
  for (let weekday = 1; weekday <= 5; weekday += 1)
    raw.exec(`INSERT OR IGNORE INTO opening_hours VALUES (${weekday}, 'shop', 480, 1050)`);
  const numbers = (most: number): string =>
    `WITH RECURSIVE n (i) AS (SELECT 0 UNION ALL SELECT i + 1 FROM n WHERE i < ${most - 1})`;
  raw.exec(`INSERT INTO bay (id, name, kind, capacity, seq, started_day)
    VALUES ('${YARD}', 'Yard', 'yard', 40, 90, '2016-01-01')`);
  for (let i = 0; i < BAYS; i += 1)
    raw.exec(`INSERT INTO bay (id, name, kind, capacity, seq, started_day)
      VALUES ('bay${pad(i, 17)}', 'Bay ${i + 11}', 'correction', 1, ${i + 11}, '2016-01-01')`);
  for (let i = 0; i < BAYS * 3; i += 1) {
    const who = `tech${pad(i, 16)}`;
    raw.exec(`INSERT INTO person (id, name, role, started_day) VALUES ('${who}', 'Technician ${i + 1}', 'technician', '2016-01-01');
      INSERT INTO hour_cost VALUES ('${who}', '2016-01-01', 2400), ('${who}', '2020-05-01', 2700), ('${who}', '2024-03-01', 3100);
      INSERT INTO technician (person_id, skills, speed_ppm) VALUES ('${who}', '["correction","wash"]', 1000000);`);
    for (let weekday = 1; weekday <= 5; weekday += 1)
      raw.exec(`INSERT INTO shift VALUES ('${who}', ${weekday}, 480, 1050)`);
  }
  raw.exec(`${numbers(CUSTOMERS)} INSERT INTO customer (id, kind, name, phone, phone_key, email, address, country, tax_number, locale, note, created_ms)
      SELECT printf('cust%016d', i), 'person', 'Customer ' || i, '', '', '', '', '', '', '', '', 1 FROM n;
    ${numbers(CUSTOMERS)} INSERT INTO vehicle (id, customer_id, body, make_model, colour, plate, plate_key, vin, hardness, note, created_ms)
      SELECT printf('vehi%016d', i), printf('cust%016d', i), 'saloon', 'Harrowe Lintel', 'grey', '', '', '',
        CASE i % 4 ${HARDNESS.map((h, i) => `WHEN ${i} THEN '${h}'`).join(' ')} END, '', 1 FROM n;
    INSERT INTO stock_item (id, name, material, base_unit, pack_size, pack_word, place, hazards, sheet, barcode, reusable)
      VALUES ('item0000000000000001', 'Finishing polish', NULL, 'ul', 1000000, 'bottle', '', '', '', '', 0);
    INSERT INTO stock_movement (item_id, qty, value_minor, reason, at_ms, note)
      VALUES ('item0000000000000001', 3000000000, 6000000, 'open', ${Date.parse('2016-11-27T08:00Z')}, '');`);
  PADS.forEach((name, i) => {
    const pad_ = `pad${pad(i, 17)}`;
    raw.exec(`INSERT INTO stock_item (id, name, base_unit, pack_size, pack_word, place, hazards, sheet, barcode, reusable, uses_per_life)
        VALUES ('${pad_}', '${name}', 'piece', 1, 'piece', '', '', '', '', 1, 20);
      INSERT INTO stock_movement (item_id, qty, value_minor, reason, at_ms, note) VALUES ('${pad_}', 200000, 160000000, 'open', 1, '');
      INSERT INTO pad_batch (id, item_id, pieces, uses_per_life, came_ms, note) VALUES ('${pad_}', '${pad_}', 200000, 20, 1, '');
      INSERT INTO pad_event (batch_id, from_state, to_state, pieces, used, at_ms, note) VALUES ('${pad_}', NULL, 'clean', 200000, 0, 1, '');`);
  });
}

type Slot = {
  readonly n: number;
  readonly day: LocalDay;
  readonly bay: number;
  readonly at: number;
  readonly random: () => number;
};

/** Writes one half day: a car in a bay with its work, what it used, and its papers. */
function inserts(shop: TestShop, invoiceId: InvoiceId): (slot: Slot) => void {
  const { raw } = shop.db;
  const p = (sql: string) => raw.prepare(sql);
  const job =
    p(`INSERT INTO job (id, number, customer_id, vehicle_id, purpose, state, wish, drop_off_min, pick_up_min, promise_ppm, arrived_ms, ready_ms, collected_ms, redo_of_job_id, created_ms)
    VALUES (?, ?, ?, ?, ?, 'collected', '', ?, ?, 900000, ?, ?, ?, ?, ?)`);
  const stage =
    p(`INSERT INTO job_stage (id, job_id, seq, kind, state, panels, estimated_min, p20_min, p50_min, p80_min, p95_min, mu, sigma, dwell_min, bay_kinds, skill, crew, splittable, note, started_ms, done_ms)
    VALUES (?, ?, ?, ?, 'done', '[]', ?, ?, ?, ?, ?, ?, 0.3, ?, '["correction"]', 'correction', 1, 1, '', ?, ?)`);
  const work = p('INSERT INTO stage_work (stage_id, person_id, start_ms, end_ms) VALUES (?, ?, ?, ?)');
  const place = p(
    'INSERT INTO placement (job_id, stage_id, bay_id, person_id, start_min, end_min, dwell_end_min) VALUES (?, ?, ?, ?, ?, ?, ?)',
  );
  const stay = p('INSERT INTO stay (job_id, bay_id, arrive_min, leave_min) VALUES (?, ?, ?, ?)');
  const draw =
    p(`INSERT INTO stock_movement (item_id, qty, value_minor, reason, job_id, stage_id, person_id, at_ms, note)
    VALUES ('item0000000000000001', ?, ?, 'draw', ?, ?, ?, ?, '')`);
  const wear =
    p(`INSERT INTO pad_event (batch_id, from_state, to_state, pieces, used, job_id, stage_id, person_id, at_ms, note)
    VALUES (?, 'clean', 'dirty', ?, 1, ?, ?, ?, ?, '')`);
  const papers = paperInserts(shop, invoiceId);
  return ({ n, day, bay, at, random }) => {
    const [id, place_] = [`job${pad(n, 17)}`, `bay${pad(bay, 17)}`];
    const handOf = (kind: string): string =>
      `tech${pad(bay + BAYS * (n % 10 > 6 && HANDS[kind] === 2 ? 0 : (HANDS[kind] ?? 0)), 16)}`;
    const owner = Math.floor(random() * CUSTOMERS);
    const car = [`cust${pad(owner, 16)}`, `vehi${pad(owner, 16)}`] as const;
    const redo = n % 80 === 79 ? `job${pad(n - 60, 17)}` : null;
    const purpose = redo ? 'redo' : PURPOSES[n % PURPOSES.length];
    const leave = at + 280;
    const ms = (min: number): number => min * 60_000;
    job.run(
      ...[id, n + 100, ...car, purpose, at, leave, ms(at), ms(leave - 10), ms(leave), redo],
      ms(at - 14_400),
    );
    stay.run(id, place_, at, at + 60);
    stay.run(id, place_, at + 60, leave - 10);
    stay.run(id, YARD, leave - 10, leave);
    let from = at;
    STAGES.forEach(([kind, said, dwell], i) => {
      const [stageId, who] = [`s${i}${pad(n, 18)}`, handOf(kind)];
      const took = Math.max(5, Math.min(said + 12, Math.round(said * Math.exp((random() - 0.5) * 0.8))));
      const [p20, p50, p80] = [said * 0.85, said, said * 1.2].map(Math.round);
      stage.run(
        ...[stageId, id, i, kind, said, p20, p50, p80, Math.round(said * 1.6), Math.log(said)],
        ...[dwell, ms(from), ms(from + took)],
      );
      place.run(id, stageId, place_, who, from, from + took, from + took + dwell);
      work.run(stageId, who, ms(from), ms(from + took));
      if (kind === 'refine') {
        draw.run(-60_000, -120, id, stageId, who, ms(from + took));
        PADS.forEach((_, k) => {
          wear.run(`pad${pad(k, 17)}`, 1 + ((n + k) % 4), id, stageId, who, ms(from + took));
        });
      }
      from += took;
    });
    papers({ id, n, customer: car[0], day, atMs: ms(leave), redo: redo !== null, random });
  };
}

type Paper = {
  readonly id: string;
  readonly n: number;
  readonly customer: string;
  readonly day: LocalDay;
  readonly atMs: number;
  readonly redo: boolean;
  readonly random: () => number;
};

/** A quote sent some days before, agreed or not; an invoice like the template, with its tax and its payment. */
function paperInserts(shop: TestShop, invoiceId: InvoiceId): (paper: Paper) => void {
  const { raw } = shop.db;
  const p = (sql: string) => raw.prepare(sql);
  const quote =
    p(`INSERT INTO quote (id, job_id, number, version, state, basis, valid_until_day, reason, made_ms, sent_ms, accepted_ms, accepted_letter, accepted_name, accepted_way)
    VALUES (?, ?, ?, 1, 'accepted', 'fixed', ?, '', ?, ?, ?, 'A', 'Customer', 'spoken')`);
  const option =
    p(`INSERT INTO quote_option (quote_id, letter, estimate_id, title, stages, bill, totals, limits, panels, hours, charged_min, rates, charges, gain_ppm, to_pay_minor, deposit_minor)
    VALUES (?, 'A', '', '', '[]', '{}', '{}', '[]', '[]', '{}', 0, '{}', '{}', 0, ?, 0)`);
  const bill = p(`INSERT INTO invoice (id, kind, job_id, customer_id, bill, totals, to_pay_minor, made_ms)
    SELECT ?, 'invoice', ?, ?, bill, totals, to_pay_minor, ? FROM invoice WHERE id = ?`);
  const issue = p(
    `UPDATE invoice SET number = ?, parties = '{}', issued_ms = ?, issued_day = ?, due_day = ? WHERE id = ?`,
  );
  const tax = p(
    'INSERT INTO invoice_tax SELECT ?, category, rate_ppm, name, taxable_minor, tax_minor, net_minor FROM invoice_tax WHERE invoice_id = ?',
  );
  const pay =
    p(`INSERT INTO payment (id, receipt, kind, way, amount_minor, customer_id, at_ms, local_day, note)
    SELECT ?, ?, 'payment', 'card', to_pay_minor, ?, ?, ?, '' FROM invoice WHERE id = ?`);
  const settle = p(`INSERT INTO allocation (payment_id, invoice_id, amount_minor, at_ms, local_day)
    SELECT ?, id, to_pay_minor, ?, ? FROM invoice WHERE id = ?`);
  let number = 1;
  return ({ id, n, customer, day, atMs, redo, random }) => {
    if (redo) return;
    const [quoteId, billId, payId] = [`q${pad(n, 19)}`, `i${pad(n, 19)}`, `p${pad(n, 19)}`];
    const sent = atMs - 86_400_000 * (8 + Math.floor(random() * 6));
    quote.run(quoteId, id, n + 100, day, sent, sent, sent + 86_400_000 * Math.floor(random() * 5));
    option.run(quoteId, 20_000 + Math.floor(random() * 120_000));
    number += 1;
    bill.run(billId, id, customer, atMs, invoiceId);
    issue.run(number, atMs, day, day, billId);
    tax.run(billId, invoiceId);
    if (n > JOBS - 40) return;
    pay.run(payId, n + 100, customer, atMs, day, billId);
    settle.run(payId, atMs, day, billId);
  };
}

function pad(n: number, width: number): string {
  return String(n).padStart(width, '0');
}
