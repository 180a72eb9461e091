import { createHash } from 'node:crypto';
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openForWriting } from '#core/db/open.ts';
import { pictureFile } from '#core/db/pictures.ts';
import { CHECKS, examine } from '#core/doctor/doctor.ts';
import { sayFinding } from '#core/shared/text/sayFinding.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';

let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
});
afterEach(() => shop.close());

/** Takes the guards of a table away, as a foreign program or a fault on the disk would pass them by. */
function unguard({ db, breaksPlans }: TestShop): void {
  breaksPlans();
  db.raw.pragma('foreign_keys = OFF');
  db.raw.pragma('ignore_check_constraints = ON');
  const triggers = db.raw
    .prepare("SELECT name FROM sqlite_master WHERE type = 'trigger'")
    .pluck()
    .all() as string[];
  for (const name of triggers) db.raw.exec(`DROP TRIGGER "${name}"`);
}

const TOTALS = JSON.stringify({
  netMinor: 100,
  taxMinor: 20,
  withTaxMinor: 120,
  roundingMinor: 0,
  toPayMinor: 120,
});
const BILL = JSON.stringify({
  taxIncluded: false,
  extras: [],
  lines: [
    {
      what: 'fee',
      text: 'x',
      quantity: 1,
      unit: 'piece',
      per: 1,
      priceMinor: 100,
      discountMinor: 0,
      tax: { code: 'standard', category: 'S', ratePpm: 200_000, name: 'VAT', reason: '' },
    },
  ],
});
const customer =
  "INSERT INTO customer (id,kind,name,phone,phone_key,email,address,country,tax_number,locale,note,created_ms) VALUES ('c','person','Marit Vane','','','','','','','','',1);";
const vehicle =
  "INSERT INTO vehicle (id,customer_id,body,make_model,colour,plate,plate_key,vin,hardness,note,created_ms) VALUES ('v','c','van','','','','','','soft','',1);";
const job = (state: string): string =>
  `${customer}${vehicle}INSERT INTO job (id,number,customer_id,vehicle_id,purpose,state,wish,arrived_ms,ready_ms,collected_ms,created_ms) VALUES ('j',1,'c','v','correction','${state}','',1,1,1,1);`;
const stage = (state: string): string =>
  `INSERT INTO job_stage (id,job_id,seq,kind,state,panels,estimated_min,p20_min,p50_min,p80_min,p95_min,mu,sigma,dwell_min,bay_kinds,skill,crew,splittable,note) VALUES ('s','j',0,'cut','${state}','[]',1,1,1,1,1,0,0,0,'["correction"]','correction',1,1,'');`;
const invoice = (number: number, totals: string): string =>
  `INSERT INTO invoice (id,kind,number,customer_id,bill,totals,to_pay_minor,parties,issued_ms,issued_day,due_day,made_ms) VALUES ('i${number}','invoice',${number},'c','${BILL}','${totals}',120,'{}',1,'2026-11-25','2026-11-25',1);`;
const tax = (number: number): string =>
  `INSERT INTO invoice_tax VALUES ('i${number}','S',200000,'VAT',100,20,100);`;
/** Opening hours, and a wash bay for a cut to be planned in. The board is looked at as of the last journal line. */
const bay =
  "INSERT INTO opening_hours (weekday,kind,open_min,close_min) VALUES (4,'shop',0,1440);INSERT INTO journal (at_ms,command,subjects,fields) VALUES (1795597200000,'a','[]','[]');INSERT INTO bay (id,name,kind,capacity,setup_min,seq,started_day) VALUES ('b','Bay 1','wash',1,0,1,'2020-01-01');";
/** Thursday noon, the day after. */
const SOON = Date.parse('2026-11-26T11:00:00Z') / 60_000;
/** Its first minute in the shop's zone. */
const YESTERDAY = Date.parse('2026-11-23T23:00:00Z') / 60_000;
const stockItem =
  "INSERT INTO stock_item (id,name,base_unit,pack_size,pack_word,place,hazards,sheet,barcode,reusable) VALUES ('p','Heavy-cut compound','ul',1000,'bottle','','','','',0);";

/** check → what breaks it */
const multiVoucher = `INSERT INTO payment (id,receipt,kind,way,amount_minor,customer_id,at_ms,local_day,note) VALUES ('q',1,'voucher','cash',100,'c',1,'2026-11-25','');INSERT INTO voucher (id,number,code,purpose,value_minor,customer_id,payment_id,expires_day,sold_ms,sold_day) VALUES ('v',1,'234567892','multi',100,'c','q','2026-12-25',1,'2026-11-25');`;
const singleVoucher = `INSERT INTO voucher (id,number,code,purpose,value_minor,customer_id,invoice_id,sold_ms,sold_day) VALUES ('v',1,'234567892','single',100,'c','i1',1,'2026-11-25');`;
/** What became of the voucher on a day when it was still taken, and on which its invoice was not issued. */
function entry(kind: string, amount: number, net = 0): string {
  const of = net === 0 ? 'NULL' : "'i1'";
  return `INSERT INTO voucher_entry (voucher_id,kind,amount_minor,net_minor,invoice_id,at_ms,local_day) VALUES ('v','${kind}',${amount},${net},${of},1,'2026-11-24');`;
}

const PLANTED: Readonly<Record<string, string>> = {
  'file.references':
    "INSERT INTO vehicle (id,customer_id,body,make_model,colour,plate,plate_key,vin,hardness,note,created_ms) VALUES ('v','nobody','van','','','','','','soft','',1);",
  'journal.order':
    "INSERT INTO journal (at_ms,command,subjects,fields) VALUES (20,'a','[]','[]'),(10,'b','[]','[]');",
  'job.dates': job('here').replace("'',1,1,1,1)", "'',NULL,1,1,1)"),
  'job.stages': job('collected') + stage('planned'),
  'work.closed': `${job('inWork')}${stage('done')}INSERT INTO stage_work (stage_id,person_id,start_ms) SELECT 's', id, 1 FROM person LIMIT 1;`,
  'plan.rules': `${job('booked').replace("'',1,1,1,1)", "'',NULL,NULL,NULL,1)")}${stage('planned')}${bay}
    INSERT INTO stay (job_id,bay_id,arrive_min,leave_min) VALUES ('j','b',${SOON},${SOON + 300});
    INSERT INTO placement (job_id,stage_id,bay_id,person_id,start_min,end_min,dwell_end_min) SELECT 'j','s','b',id,${SOON},${SOON + 60},${SOON + 60} FROM person LIMIT 1;`,
  'stock.level': `${stockItem}INSERT INTO stock_level (item_id,qty,value_minor) VALUES ('p',5,0);`,
  'stock.containers': `${stockItem}INSERT INTO stock_container (id,item_id,holds,batch,opened_day,opened_ms) VALUES ('c','p',1000,'','2026-11-01',1);`,
  'stock.nothingLeft': `${stockItem}INSERT INTO stock_level (item_id,qty,value_minor) VALUES ('p',0,7);`,
  'pads.pieces': `${stockItem}INSERT INTO pad_batch (id,item_id,pieces,uses_per_life,came_ms,note) VALUES ('b','p',2,9,1,'');INSERT INTO pad_event (batch_id,from_state,to_state,pieces,used,at_ms,note) VALUES ('b','dirty','washing',1,0,1,'');`,
  'invoice.figures': customer + invoice(1, TOTALS.replace('"netMinor":100', '"netMinor":101')) + tax(1),
  'invoice.numbers': customer + invoice(1, TOTALS) + tax(1) + invoice(3, TOTALS) + tax(3),
  'invoice.tax': customer + invoice(1, TOTALS),
  'payment.used': `${customer}${invoice(1, TOTALS)}${tax(1)}INSERT INTO payment (id,receipt,kind,way,amount_minor,customer_id,at_ms,local_day,note) VALUES ('q',1,'payment','cash',100,'c',1,'2026-11-25','');INSERT INTO allocation (payment_id,invoice_id,amount_minor,at_ms,local_day) VALUES ('q','i1',120,1,'2026-11-25');`,
  'voucher.balance': `${customer}${multiVoucher}${entry('sold', 90)}`,
  'voucher.letGo': `${customer}${multiVoucher}${entry('sold', 100)}${entry('letGo', -10)}`,
  'voucher.day': customer + invoice(1, TOTALS) + tax(1) + singleVoucher + entry('sold', 100, 80),
  'voucher.net': customer + invoice(1, TOTALS) + tax(1) + singleVoucher + entry('sold', 100, 120),
  'figures.kept': `INSERT INTO kept_day VALUES ('2026-11-24',${YESTERDAY},${YESTERDAY + 1440});INSERT INTO kept_hours VALUES ('2026-11-24','b',5,0,0,0,0,0);`,
  'document.rest': customer + invoice(1, TOTALS) + tax(1),
  'billed.share': `${job('collected')}${invoice(1, TOTALS)}UPDATE invoice SET job_id = 'j';`,
  'job.unbilled': job('collected'),
  'collective.net': `${job('collected')}${invoice(1, TOTALS)}INSERT INTO billed_job VALUES ('i1','j');UPDATE invoice SET bill = json_set(bill, '$.lines[0].ofJob', 'j'), totals = json_set(totals, '$.lineNetMinor', json('[100]'), '$.extraNetMinor', json('[]'));`,
  'job.net': `${job('collected')}${invoice(1, TOTALS)}${tax(1)}UPDATE invoice SET job_id = 'j';`,
  'job.drawn': `${job('collected')}${stockItem}INSERT INTO stock_movement (item_id,qty,value_minor,reason,job_id,at_ms,note) VALUES ('p',-1,-5,'draw','j',1,'');`,
  'job.uses': `${job('collected')}${stockItem}INSERT INTO pad_batch (id,item_id,pieces,uses_per_life,came_ms,note) VALUES ('b','p',2,9,1,'');INSERT INTO pad_event (batch_id,from_state,to_state,pieces,used,job_id,at_ms,note) VALUES ('b','clean','dirty',1,1,'j',1,'');`,
  'job.worked': `${job('collected')}${stage('done')}INSERT INTO stage_work (stage_id,person_id,start_ms,end_ms) SELECT 's', id, 1, 2 FROM person LIMIT 1;`,
  'job.began': `${job('collected')}${stage('done')}INSERT INTO stage_work (stage_id,person_id,start_ms,end_ms) SELECT 's', id, 1, 2 FROM person LIMIT 1;INSERT INTO job_hand (job_id,person_id,worked_ms,first_ms,last_ms) SELECT 'j', id, 1, 600000, 600000 FROM person LIMIT 1;`,
};

const said = (): readonly string[] => examine(shop.db).map((f) => sayFinding('en', f.check, f.values));

describe('the doctor', () => {
  it('finds nothing in a new shop', () => {
    expect(examine(shop.db)).toEqual([]);
  });

  it('has a planted fault for every check', () => {
    expect(
      [
        ...Object.keys(PLANTED),
        'file.whole',
        'pictures.whole',
        'sheets.whole',
        'logo.whole',
        'pictures.named',
      ].sort(),
    ).toEqual(CHECKS.map((c) => c.name).sort());
  });

  it.each(Object.entries(PLANTED))('finds what breaks %s', (check, sql) => {
    unguard(shop);
    shop.db.raw.exec(sql);
    expect(examine(shop.db).map((f) => f.check)).toContain(check);
    for (const sentence of said()) expect(sentence).not.toMatch(/[{}]|undefined/);
  });

  it.each([
    [
      'two cars in one bay',
      'stay (job_id,bay_id,arrive_min,leave_min)',
      'bay_id,arrive_min,leave_min',
      'jobs 1 and 2 both stand in Bay 1 at one time',
    ],
    [
      'one person at two cars',
      'placement (job_id,stage_id,bay_id,person_id,start_min,end_min,dwell_end_min)',
      'stage_id,bay_id,person_id,start_min,end_min,dwell_end_min',
      'works on jobs 1 and 2 at one time',
    ],
  ])('finds %s, both cars named', (_what, table, columns, problem) => {
    unguard(shop);
    shop.db.raw.exec(PLANTED['plan.rules'] ?? '');
    shop.db.raw.exec(`CREATE TEMP TABLE twin AS SELECT * FROM job; UPDATE twin SET id = 'k', number = 2;
      INSERT INTO job SELECT * FROM twin;
      INSERT INTO ${table} SELECT 'k',${columns} FROM ${table.split(' ')[0]};`);
    expect(said().join('\n')).toContain(problem);
  });

  it.each([
    ['pictures.whole', 'is not on the disk', (file: string) => rmSync(file)],
    ['pictures.whole', 'is spoiled on the disk', (file: string) => writeFileSync(file, 'something else')],
    ['pictures.named', 'belongs to no record', (file: string) => writeFileSync(`${file}0`, 'left over')],
  ])('finds what breaks %s: a picture that %s', (check, problem, spoil) => {
    const hash = createHash('sha256').update('a bonnet').digest('hex');
    const file = pictureFile(shop.dir, hash);
    mkdirSync(path.dirname(file), { recursive: true });
    writeFileSync(file, 'a bonnet');
    shop.db.raw.exec(`${job('here')}INSERT INTO picture (id, job_id, phase, hash, mime, consent, taken_ms)
      VALUES ('p', 'j', 'before', '${hash}', 'image/png', 'record', 1)`);
    expect(examine(shop.db)).toEqual([]);
    spoil(file);
    expect(examine(shop.db).map((f) => f.check)).toEqual([check]);
    expect(said()[0]).toContain(problem);
  });

  it('finds an index that does not match its table', () => {
    shop.db.raw.exec(
      "INSERT INTO sequence (name, next) VALUES ('a', 5); CREATE INDEX planted ON sequence (next)",
    );
    shop.db.raw.unsafeMode(true);
    shop.db.raw.pragma('writable_schema = ON');
    shop.db.raw.exec(
      "UPDATE sqlite_master SET sql = 'CREATE INDEX planted ON sequence (name)' WHERE name = 'planted'",
    );
    const again = openForWriting(path.join(shop.dir, 'rakelight.sqlite'));
    expect(examine(again).map((f) => f.check)).toEqual(['file.whole']);
    again.raw.close();
  });
});
