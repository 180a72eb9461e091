import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { keepDays } from '#core/figures/commands/keepDays.ts';
import { openTestShop, TEST_NOW, type TestShop } from '../../helpers/shop.ts';
import { keepAll, keptShop, told, worked } from './keptShop.ts';

const HOUR = 3_600_000;
/** From October, over the end of summer time, to a week after now. */
const at = fc
  .integer({ min: -30 * 24 * 4, max: 7 * 24 * 4 })
  .map((quarter) => TEST_NOW + (quarter * HOUR) / 4);
const some = <T>(...of: T[]) => fc.constantFrom(...of);
const JOBS = ["'A'", "'B'", "'C'"];
const STAGES = ["'s1'", "'s2'", "'s3'", "'s4'", "'t1'", "'t2'"];
const day = at.map((ms) => `'${new Date(ms).toISOString().slice(0, 10)}'`);
const span = fc
  .tuple(at, fc.integer({ min: 1, max: 400 }))
  .map(([ms, quarters]) => [ms, ms + (quarters * HOUR) / 4] as const);
const mins = span.map(([from, to]) => `${from / 60_000}, ${to / 60_000}`);
const row = fc.integer({ min: 0, max: 9 });
const nth = (table: string) =>
  row.map((n) => `rowid = (SELECT rowid FROM ${table} ORDER BY rowid LIMIT 1 OFFSET ${n})`);

/** What somebody may do to what the days are made of; one that the file refuses is as if it had not been tried. */
const statement = fc.oneof(
  fc
    .tuple(some(...STAGES), some('who', 'desk'), span)
    .map(
      ([s, who, [from, to]]) =>
        `INSERT INTO stage_work (stage_id,person_id,start_ms,end_ms) VALUES (${s},'${who}',${from},${to})`,
    ),
  fc
    .tuple(some(...STAGES), at)
    .map(([s, from]) => `INSERT INTO stage_work (stage_id,person_id,start_ms) VALUES (${s},'who',${from})`),
  fc
    .tuple(span, nth('stage_work'))
    .map(([[from, to], where]) => `UPDATE stage_work SET start_ms = ${from}, end_ms = ${to} WHERE ${where}`),
  nth('stage_work').map((where) => `DELETE FROM stage_work WHERE ${where}`),
  fc
    .tuple(some(...STAGES), span)
    .map(
      ([s, [from, to]]) =>
        `UPDATE job_stage SET state = 'done', started_ms = ${from}, done_ms = ${to} WHERE id = ${s}`,
    ),
  fc
    .tuple(some(...STAGES), some('dropped', 'inWork', 'planned'))
    .map(
      ([s, state]) =>
        `UPDATE job_stage SET state = '${state}', done_ms = NULL${state === 'planned' ? ', started_ms = NULL' : ''} WHERE id = ${s}`,
    ),
  fc
    .tuple(some(...STAGES), fc.integer({ min: 0, max: 2000 }), some(0, 1))
    .map(([s, dwell, crew]) => `UPDATE job_stage SET dwell_min = ${dwell}, crew = ${crew} WHERE id = ${s}`),
  fc
    .tuple(some(...JOBS), span)
    .map(([j, [from, to]]) => `UPDATE job SET arrived_ms = ${from}, collected_ms = ${to} WHERE id = ${j}`),
  fc
    .tuple(some(...JOBS), some('arrived_ms', 'collected_ms'))
    .map(([j, what]) => `UPDATE job SET ${what} = NULL WHERE id = ${j}`),
  fc
    .tuple(some(...JOBS), some('b1', 'b2', 'b3'), mins)
    .map(
      ([j, bay, m]) => `INSERT INTO stay (job_id,bay_id,arrive_min,leave_min) VALUES (${j},'${bay}',${m})`,
    ),
  nth('stay').map((where) => `DELETE FROM stay WHERE ${where}`),
  nth('placement').map((where) => `DELETE FROM placement WHERE ${where}`),
  fc
    .tuple(some(...STAGES), some('b1', 'b2', 'b3'))
    .map(
      ([s, bay]) =>
        `INSERT INTO placement (job_id,stage_id,bay_id,start_min,end_min,dwell_end_min) SELECT job_id,id,'${bay}',1,2,2 FROM job_stage WHERE id = ${s}`,
    ),
  fc
    .tuple(day, some('NULL', "'b1'"))
    .map(([d, bay]) => `INSERT INTO closure VALUES (${d},${d},${d},${bay},'')`),
  nth('closure').map((where) => `DELETE FROM closure WHERE ${where}`),
  mins.map((m) => `INSERT INTO absence VALUES ('${m}','who',${m},'')`),
  fc
    .tuple(fc.integer({ min: 1, max: 7 }), some('opening_hours', 'shift'))
    .map(([weekday, table]) => `DELETE FROM ${table} WHERE weekday = ${weekday}`),
  fc
    .integer({ min: 1, max: 7 })
    .map((weekday) => `INSERT INTO opening_hours VALUES (${weekday},'shop',60,400)`),
  day.map((d) => `UPDATE person SET ended_day = ${d} WHERE id = 'who'`),
  fc
    .tuple(day, some('started_day', 'ended_day'))
    .map(([d, what]) => `UPDATE bay SET ${what} = ${d} WHERE id = 'b2'`),
  some('Europe/Berlin', 'America/St_Johns', 'Pacific/Apia').map((zone) => `UPDATE shop SET zone = '${zone}'`),
  fc
    .tuple(some('v', 'w'), some('soft', 'hard', 'unknown'))
    .map(([v, hardness]) => `UPDATE vehicle SET hardness = '${hardness}' WHERE id = '${v}'`),
);
const step = fc.oneof(
  { weight: 6, arbitrary: statement },
  { weight: 1, arbitrary: at.map((ms) => ({ at: ms })) },
  { weight: 2, arbitrary: fc.constant('keep' as const) },
);

function take(shop: TestShop, what: string | { readonly at: number }): void {
  if (typeof what === 'object') shop.at(what.at);
  else if (what === 'keep') keepDays(shop.db, shop.now());
  else attempt(shop, what);
}

function attempt(shop: TestShop, what: string): void {
  const { technician, desk } = shop.people;
  try {
    shop.db.raw.exec(what.replaceAll("'who'", `'${technician}'`).replaceAll("'desk'", `'${desk}'`));
  } catch (error) {
    if (!String((error as { code?: string }).code).startsWith('SQLITE_CONSTRAINT')) throw error;
  }
}

describe('what is kept of past days', () => {
  it('tells what the records do, whatever is done to them and whenever days are kept, the clock going back too', () => {
    const shop = openTestShop();
    shop.breaksPlans();
    keptShop(shop);
    shop.db.raw.exec('BEGIN; SAVEPOINT sound');
    fc.assert(
      fc.property(fc.array(step, { minLength: 4, maxLength: 16 }), (steps) => {
        shop.db.raw.exec('ROLLBACK TO sound');
        shop.at(TEST_NOW);
        keepAll(shop);
        for (const what of steps) {
          take(shop, what);
          expect(told(shop)).toEqual(worked(shop));
        }
      }),
      { numRuns: 25 },
    );
    shop.db.raw.exec('ROLLBACK');
    shop.close();
  });
});
