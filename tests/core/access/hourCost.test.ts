import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { PersonId } from '#core/shared/ids.ts';
import { sayError } from '#core/shared/text/sayError.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';
import { lookBackDay } from '../figures/lookBackDay.ts';

let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
});
afterEach(() => shop.close());

type Said = { fromDay: string; hourCostMinor: number | null; wasMinor?: number | null; farMeant?: boolean };
const cost = (said: Said, personId: PersonId = shop.people.technician) =>
  shop.write('access.setHourCost', { personId, wasMinor: null, ...said } as never);
const rows = () => shop.read('access.hourCosts', {});

describe('what an hour of somebody costs', () => {
  it('is said by the day, also of past ones, said anew and taken away', async () => {
    cost({ fromDay: '2024-01-01', hourCostMinor: 2800 });
    cost({ fromDay: '2026-06-01', hourCostMinor: 3000 });
    cost({ fromDay: '2027-01-01', hourCostMinor: 3100 });
    cost({ fromDay: '2026-06-01', hourCostMinor: 3050, wasMinor: 3000 });
    expect((await rows()).map((r) => [r.fromDay, r.hourMinor, r.now])).toEqual([
      ['2027-01-01', 3100, false],
      ['2026-06-01', 3050, true],
      ['2024-01-01', 2800, false],
    ]);
    cost({ fromDay: '2026-06-01', hourCostMinor: null, wasMinor: 3050 });
    expect((await rows()).map((r) => [r.fromDay, r.now])).toEqual([
      ['2027-01-01', false],
      ['2024-01-01', true],
    ]);
    expect(() => cost({ fromDay: '2026-06-01', hourCostMinor: null })).toThrow('NOT_FOUND');
  });

  it('is not said over what somebody else said meanwhile', () => {
    cost({ fromDay: '2026-06-01', hourCostMinor: 3000 });
    expect(() => cost({ fromDay: '2026-06-01', hourCostMinor: 3200 })).toThrow('STALE');
    expect(() => cost({ fromDay: '2026-06-02', hourCostMinor: 3200, wasMinor: 3000 })).toThrow('STALE');
  });

  it('begins between the first day and two years from now', async () => {
    for (const fromDay of ['2023-12-31', '2028-11-25']) {
      expect(() => cost({ fromDay, hourCostMinor: 3000 })).toThrow('HOUR_COST_DAY');
    }
    cost({ fromDay: '2028-11-24', hourCostMinor: 3000 });
    const reply = await shop.call('access.setHourCost', {
      ...{ personId: shop.people.technician, fromDay: '2023-12-31', hourCostMinor: 3000, wasMinor: null },
    });
    expect(reply.ok ? '' : sayError('en', reply.error)).toMatch(
      /^An hour of The technician can cost something from .*2024 on, the first day here or at work, .* until .*2028\./,
    );
  });

  it('that is five times off is asked about: beside one’s own before, else beside what others cost', () => {
    cost({ fromDay: '2024-01-01', hourCostMinor: 3000 });
    expect(() => cost({ fromDay: '2026-01-01', hourCostMinor: 15_000 })).toThrow('HOUR_COST_FAR');
    expect(() => cost({ fromDay: '2026-01-01', hourCostMinor: 600 })).toThrow('HOUR_COST_FAR');
    cost({ fromDay: '2026-01-01', hourCostMinor: 14_999 });
    const { desk, owner } = shop.people;
    cost({ fromDay: '2024-01-01', hourCostMinor: null, wasMinor: 3000 });
    expect(() => cost({ fromDay: '2026-01-01', hourCostMinor: 74_995, wasMinor: 14_999 })).toThrow(
      'HOUR_COST_FAR',
    );
    expect(() => cost({ fromDay: '2026-01-01', hourCostMinor: 75_000 }, desk)).toThrow('HOUR_COST_FAR');
    cost({ fromDay: '2026-01-01', hourCostMinor: 75_000, farMeant: true }, desk);
    // Five times of the nearest one, of whichever person
    cost({ fromDay: '2026-01-01', hourCostMinor: 74_000 }, owner);
    cost({ fromDay: '2026-02-01', hourCostMinor: 0 }, owner);
  });

  it('is for owners alone, and its figure stands in no journal', async () => {
    cost({ fromDay: '2026-06-01', hourCostMinor: 3077 });
    const lines = shop.db.raw.prepare('SELECT subjects, fields FROM journal ORDER BY id DESC LIMIT 1').get();
    expect(lines).toEqual({
      subjects: JSON.stringify([shop.people.technician]),
      fields: '["hourCost"]',
    });
    for (const role of ['desk', 'technician'] as const) {
      shop.as(role);
      expect(() => cost({ fromDay: '2026-07-01', hourCostMinor: 3000 })).toThrow('NOT_ALLOWED');
      expect(await shop.call('access.hourCosts', {})).toMatchObject({ error: { code: 'NOT_ALLOWED' } });
    }
  });
});

describe('what work cost', () => {
  const range = { fromDay: '2026-11-25', toDay: '2026-11-25' };
  /** Each stretch of the one job at an hour of its own day; it was collected on the 25th. */
  function worked(...stretches: readonly (readonly [from: string, to: string])[]): void {
    lookBackDay(shop);
    const put = shop.db.raw.prepare(
      "INSERT INTO stage_work (stage_id, person_id, start_ms, end_ms) VALUES ('s', ?, ?, ?)",
    );
    for (const [from, to] of stretches) put.run(shop.people.technician, Date.parse(from), Date.parse(to));
    shop.at(Date.parse('2026-11-26T09:00Z'));
  }

  it('is the hours of each person at what an hour cost on the shop’s day on which they began', async () => {
    // Beside the three hours of the 25th: an hour that begins at 23:30 of the 23rd in the shop and ends on the 24th.
    worked(['2026-11-23T22:30Z', '2026-11-23T23:30Z']);
    cost({ fromDay: '2024-01-01', hourCostMinor: 2000 });
    cost({ fromDay: '2026-11-24', hourCostMinor: 3000 });
    const { total } = await shop.read('figures.money', range);
    expect(total).toMatchObject({ workedMin: 240, labourMinor: 2000 + 3 * 3000, unknownMin: 0 });
    expect(total).toMatchObject({ marginMinor: -11_000, perHourMinor: -2750 });
    const { jobs, labourMinor, perHourMinor } = await shop.read('figures.margin', range);
    expect([jobs[0]?.labourMinor, labourMinor, perHourMinor]).toEqual([11_000, 11_000, -2750]);
  });

  it('is not known of hours before the first cost of whoever worked', async () => {
    worked(['2026-11-23T22:30Z', '2026-11-23T23:30Z']);
    cost({ fromDay: '2026-11-24', hourCostMinor: 3000 });
    cost({ fromDay: '2024-01-01', hourCostMinor: 9000 }, shop.people.owner);
    const { total, byTechnician } = await shop.read('figures.money', range);
    expect(total).toMatchObject({ labourMinor: 9000, unknownMin: 60 });
    expect(byTechnician).toMatchObject([{ name: 'The technician', labourMinor: 9000, unknownMin: 60 }]);
  });

  it('can be said for hours typed in before the first day of whoever worked, and no earlier', async () => {
    worked(['2023-12-30T09:00Z', '2023-12-30T10:00Z']);
    cost({ fromDay: '2024-01-01', hourCostMinor: 2000 });
    expect((await shop.read('figures.money', range)).total).toMatchObject({ unknownMin: 60 });
    expect(() => cost({ fromDay: '2023-12-29', hourCostMinor: 2000 })).toThrow('HOUR_COST_DAY');
    cost({ fromDay: '2023-12-30', hourCostMinor: 2000 });
    expect((await shop.read('figures.money', range)).total).toMatchObject({
      labourMinor: 8000,
      unknownMin: 0,
    });
  });

  it('follows corrected times, and a stretch moved to another day', async () => {
    worked();
    cost({ fromDay: '2024-01-01', hourCostMinor: 2000 });
    cost({ fromDay: '2026-11-25', hourCostMinor: 3000 });
    shop.db.raw
      .prepare('UPDATE stage_work SET start_ms = ?, end_ms = ?')
      .run(Date.parse('2026-11-24T09:00Z'), Date.parse('2026-11-24T10:30Z'));
    expect((await shop.read('figures.money', range)).total).toMatchObject({
      ...{ workedMin: 90, labourMinor: 3000, unknownMin: 0 },
    });
  });

  it('is what redone work cost, where it is known; else it is what an hour brought', async () => {
    worked();
    const at = Date.parse('2026-11-25T14:30Z');
    const { raw } = shop.db;
    raw.exec(`INSERT INTO job (id,number,customer_id,vehicle_id,purpose,state,wish,arrived_ms,ready_ms,collected_ms,redo_of_job_id,created_ms)
        VALUES ('r',8,'c','v','redo','collected','',${at},${at},${at},'${'j'.repeat(20)}',1);
      INSERT INTO job_stage (id,job_id,seq,kind,state,panels,estimated_min,p20_min,p50_min,p80_min,p95_min,mu,sigma,dwell_min,bay_kinds,skill,crew,splittable,note,started_ms,done_ms)
        VALUES ('rs','r',0,'refine','done','[]',30,30,30,30,30,3.4,0.2,0,'["correction"]','correction',1,1,'',${at},${at});
      INSERT INTO stage_work (stage_id,person_id,start_ms,end_ms) VALUES ('rs','${shop.people.technician}',${at - 3_600_000},${at}),
        ('rs','${shop.people.owner}',${at - 3_600_000},${at});
      INSERT INTO job_sum (job_id, net_minor, drawn_minor) VALUES ('${'j'.repeat(20)}', 50000, 0);`);
    cost({ fromDay: '2024-01-01', hourCostMinor: 3000 });
    const { warranty, total } = await shop.read('figures.money', range);
    // Four hours at 30.00 and one of which nothing is known; 500.00 in five hours are 100.00 an hour.
    expect(total).toMatchObject({ workedMin: 300, labourMinor: 12_000, unknownMin: 60 });
    expect(warranty).toEqual({
      ...{ jobs: 1, workedMin: 120, materialMinor: 0, labourMinor: 3000, costMinor: 3000 + 10_000 },
    });
  });
});
