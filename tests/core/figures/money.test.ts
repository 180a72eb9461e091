import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { addBrought, type Brought, moneySums, noTally, sharesOf } from '#core/figures/rules/moneySums.ts';
import { type AnsweredQuote, bandsByPrice, bandsByWait } from '#core/figures/rules/quoteBands.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';
import { lookBackDay } from './lookBackDay.ts';

const brought = fc.record({
  netMinor: fc.integer({ min: -100_000, max: 1_000_000 }),
  materialMinor: fc.integer({ min: 0, max: 100_000 }),
  workedMin: fc.integer({ min: 0, max: 3000 }),
  bayMin: fc.integer({ min: 0, max: 6000 }),
});
const summed = (all: readonly Brought[]) => {
  const tally = noTally();
  for (const one of all) addBrought(tally, one);
  return moneySums(tally);
};
const unpaid = { labourMinor: 0, unknownMs: 0 };

describe('what jobs brought', () => {
  it('is the margin after materials and labour, per hour worked and per hour in a bay', () => {
    const job = { netMinor: 50_000, materialMinor: 5000, workedMin: 300, bayMin: 540, ...unpaid };
    // 450.00 in 5 h worked and 9 h in a bay
    expect(summed([job])).toMatchObject({
      marginMinor: 45_000,
      perHourMinor: 9000,
      perBayHourMinor: 5000,
    });
    // At 20.00 an hour, 100.00 less.
    expect(summed([{ ...job, labourMinor: 10_000 }])).toMatchObject({
      marginMinor: 35_000,
      perHourMinor: 7000,
      perBayHourMinor: 3889,
    });
    expect(summed([])).toMatchObject({
      jobs: 0,
      marginMinor: 0,
      perHourMinor: null,
      perBayHourMinor: null,
    });
  });

  it('is shared by the minutes each worked, to the minor unit: the shares are the job again', () => {
    fc.assert(
      fc.property(
        brought,
        fc.array(fc.tuple(fc.integer({ min: 1, max: 500 }), fc.integer({ min: 0, max: 20_000 })), {
          minLength: 1,
          maxLength: 5,
        }),
        (sums, hands) => {
          const worked = hands.map(([minutes, labourMinor], i) => ({
            ...{ personId: `p${i}`, workedMs: minutes * 60_000, labourMinor },
            unknownMs: labourMinor % 2 === 0 ? 0 : minutes * 59_999,
          }));
          const all = (of: (w: (typeof worked)[number]) => number) => worked.reduce((s, w) => s + of(w), 0);
          const job = {
            ...sums,
            labourMinor: all((w) => w.labourMinor),
            unknownMs: all((w) => w.unknownMs),
          };
          const { jobs: _, ...sum } = summed(sharesOf(job, worked));
          const { jobs: __, ...whole } = summed([job]);
          expect(sum).toEqual(whole);
        },
      ),
      { numRuns: 100 },
    );
    expect(sharesOf({ netMinor: 100, materialMinor: 0, workedMin: 0, bayMin: 0, ...unpaid }, [])).toEqual([]);
  });
});

describe('quotes agreed to', () => {
  const quote = (askedMinor: number, waitedDays: number, accepted: boolean): AnsweredQuote => ({
    askedMinor,
    waitedDays,
    accepted,
  });

  it('stand in bands by price and by how long the quote took', () => {
    const all = [
      quote(10_000, 0, true),
      quote(20_000, 1, true),
      quote(30_000, 3, true),
      quote(40_000, 12, false),
    ];
    expect(bandsByPrice(all)).toEqual([
      { from: 10_000, to: 20_000, answered: 1, accepted: 1 },
      { from: 20_000, to: 30_000, answered: 1, accepted: 1 },
      { from: 30_000, to: 40_000, answered: 1, accepted: 1 },
      { from: 40_000, to: null, answered: 1, accepted: 0 },
    ]);
    expect(bandsByWait(all).map((b) => [b.from, b.to, b.answered, b.accepted])).toEqual([
      [0, 2, 2, 2],
      [2, 4, 1, 1],
      [4, 8, 0, 0],
      [8, null, 1, 0],
    ]);
    expect([bandsByPrice([]), bandsByWait([])]).toEqual([[], []]);
  });

  it('are each in exactly one band, whatever they ask for', () => {
    const one = fc
      .tuple(fc.integer({ min: 0, max: 20 }), fc.integer({ min: -3, max: 40 }), fc.boolean())
      .map(([price, days, accepted]) => quote(price, days, accepted));
    fc.assert(
      fc.property(fc.array(one, { maxLength: 40 }), (all) => {
        for (const bands of [bandsByPrice(all), bandsByWait(all)]) {
          expect(bands.reduce((sum, b) => sum + b.answered, 0)).toBe(all.length);
          expect(bands.reduce((sum, b) => sum + b.accepted, 0)).toBe(all.filter((q) => q.accepted).length);
        }
      }),
      { numRuns: 60 },
    );
  });
});

describe('the money of a shop', () => {
  let shop: TestShop;
  const day = { fromDay: '2026-11-25', toDay: '2026-11-25' };
  beforeEach(() => {
    shop = openTestShop();
    lookBackDay(shop);
    shop.at(Date.parse('2026-11-26T09:00Z'));
  });
  afterEach(() => shop.close());
  /** Polish for 12.50 on the job, which brought nothing. */
  const drawPolish = () =>
    shop.db.raw.exec(`
      INSERT INTO stock_item (id,name,base_unit,pack_size,pack_word,place,hazards,sheet,barcode,reusable)
        VALUES ('i','Polish','ul',1000,'bottle','','','','',0);
      INSERT INTO stock_movement (item_id,qty,value_minor,reason,job_id,at_ms,note)
        VALUES ('i',-10,-1250,'draw','${'j'.repeat(20)}',1,'');
    `);

  it('is told by kind, technician and time, and all three are the whole', async () => {
    const view = await shop.read('figures.money', day);
    // One job, 3 h worked, in the bay from 08:00 to 15:00Z = 7 h of its open ten; nothing billed.
    const sums = { jobs: 1, netMinor: 0, materialMinor: 0, workedMin: 180, bayMin: 420, perHourMinor: 0 };
    expect(view.total).toMatchObject(sums);
    expect(view.byKind).toMatchObject([{ key: 'correction', ...sums }]);
    expect(view.byTechnician).toMatchObject([{ name: 'The technician', ...sums }]);
    expect(view.overTime).toMatchObject([{ day: day.fromDay, toDay: day.toDay, ...sums }]);
    expect(view.returning).toEqual({ jobs: 1, again: 0, customers: 1 });
  });

  it('jobs that nobody recorded time on stand by themselves, so that the rows are the whole', async () => {
    shop.db.raw.exec('DELETE FROM stage_work');
    const view = await shop.read('figures.money', day);
    expect(view.total).toMatchObject({ jobs: 1, workedMin: 0, bayMin: 420 });
    expect(view.byTechnician).toEqual([{ key: '', name: '', ...view.total }]);
    const file = await shop.read('figures.moneyFile', { ...day, table: 'technician' });
    expect(new TextDecoder().decode(file.bytes)).toContain('no time recorded,1,0.00');
  });

  it('tells work redone without pay at its materials and what its hours would have brought', async () => {
    const at = Date.parse('2026-11-25T14:30Z');
    const { raw } = shop.db;
    raw.exec(`INSERT INTO job (id,number,customer_id,vehicle_id,purpose,state,wish,arrived_ms,ready_ms,collected_ms,redo_of_job_id,created_ms)
        VALUES ('r',8,'c','v','redo','collected','',${at},${at},${at},'${'j'.repeat(20)}',1);
      INSERT INTO job_stage (id,job_id,seq,kind,state,panels,estimated_min,p20_min,p50_min,p80_min,p95_min,mu,sigma,dwell_min,bay_kinds,skill,crew,splittable,note,started_ms,done_ms)
        VALUES ('rs','r',0,'refine','done','[]',30,30,30,30,30,3.4,0.2,0,'["correction"]','correction',1,1,'',${at},${at});
      INSERT INTO stage_work (stage_id,person_id,start_ms,end_ms) VALUES ('rs','${shop.people.technician}',${at - 3_600_000},${at});`);
    const view = await shop.read('figures.money', day);
    expect(view.warranty).toEqual({ jobs: 1, workedMin: 60, materialMinor: 0, labourMinor: 0, costMinor: 0 });
    // Redone work is the job's own: four hours, one job.
    expect(view.total).toMatchObject({ jobs: 1, workedMin: 240 });
    drawPolish();
    // The hours of a shop that loses would have brought nothing: redone work is not a gain.
    const loss = await shop.read('figures.money', day);
    expect(loss.total.perHourMinor).toBeLessThan(0);
    expect(loss.warranty.costMinor).toBe(0);
  });

  it('writes a loss as an amount that a spreadsheet adds up, and a name that looks like a formula as text', async () => {
    drawPolish();
    shop.db.raw.prepare('UPDATE person SET name = ?').run('-1+2');
    const file = await shop.read('figures.moneyFile', { ...day, table: 'technician' });
    expect(new TextDecoder().decode(file.bytes)).toContain(',-12.50,');
    expect(new TextDecoder().decode(file.bytes)).toContain("'-1+2,1,");
  });

  it('is saved as a table for each chart, with the same figures', async () => {
    for (const table of ['kind', 'technician', 'time', 'quotes', 'owed'] as const) {
      const file = await shop.read('figures.moneyFile', { ...day, table });
      expect(file.fileName).toBe(`money-${table}-2026-11-25-2026-11-25.csv`);
    }
    const kinds = await shop.read('figures.moneyFile', { ...day, table: 'kind' });
    expect(new TextDecoder().decode(kinds.bytes)).toContain(
      'correction,1,0.00,0.00,0.00,0.00,180,180,420,0.00,0.00,EUR',
    );
    const hours = await shop.read('figures.hoursFile', { ...day, by: 'day' });
    // Bay 2: 10 h open, 3 h attended, 1 h cure, 1 h waiting, 2 h blocked, 3 h idle, 14 h closed
    expect(new TextDecoder().decode(hours.bytes)).toContain(
      'bay,Bay 2,2026-11-25,2026-11-25,600,180,60,60,120,180,840',
    );
    const honest = await shop.read('figures.honestyFile', { ...day, table: 'stage' });
    expect(new TextDecoder().decode(honest.bytes)).toContain('cut,1,100,180,80,0,24');
  });
});
