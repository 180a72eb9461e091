import path from 'node:path';
import type { ReadCtx } from '#core/context.ts';
import { contract } from '#core/contract.ts';
import { openForReading } from '#core/db/open.ts';
import { examine } from '#core/doctor/doctor.ts';
import { keepDays } from '#core/figures/commands/keepDays.ts';
import { catalogue } from '#core/shared/catalogue.ts';
import { addLocalDays } from '#core/shared/time.ts';
import type { EpochMs } from '#core/shared/units.ts';
import { openTestShop, type TestShop } from '../helpers/shop.ts';
import { type BenchRow, ms } from './measure.ts';
import { FIRST_DAY, fillTenYears, LAST_DAY } from './tenYears.ts';

const COLD = 3;
const WARM = 9;
const range = { fromDay: FIRST_DAY, toDay: LAST_DAY };
const back = (days: number) => ({ fromDay: addLocalDays(LAST_DAY, -days), toDay: LAST_DAY });
/** Every figure of the look back, over all ten years where it can be asked so far. */
const ASKED: readonly (readonly [string, string, object])[] = [
  ['bay and shift hours by month, ten years', 'figures.utilization', { ...range, by: 'month' }],
  ['bay and shift hours by week, ten years', 'figures.utilization', { ...range, by: 'week' }],
  ['estimated against actual, ten years', 'figures.honesty', range],
  ['money, ten years', 'figures.money', range],
  // What the screens ask in a shop that old: it must not grow with what lies before.
  ['hours of the last two years by month', 'figures.utilization', { ...back(730), by: 'month' }],
  ['hours of the last half-year by week', 'figures.utilization', { ...back(182), by: 'week' }],
  ['estimated against actual, the last year', 'figures.honesty', back(365)],
  ['money of the last year', 'figures.money', back(365)],
  ['what jobs brought, the last quarter', 'figures.margin', back(90)],
  ['this week', 'figures.monday', {}],
];

/** What is answered from days that are kept. */
const KEPT = ['figures.utilization', 'figures.honesty'];

/** Every figure over ten years and 30,000 jobs: cold = on a connection just opened, warm = asked again on it. */
export async function rows(): Promise<readonly BenchRow[]> {
  const shop = openTestShop();
  try {
    const began = performance.now();
    fillTenYears(shop);
    const filled = performance.now() - began;
    const found = examine(shop.db);
    if (found.length > 0) throw new Error(`the doctor found ${JSON.stringify(found.slice(0, 5))}`);
    const jobs = shop.db.raw.prepare("SELECT count(*) FROM job WHERE state = 'collected'").pluck().get();
    const made = {
      what: `ten years of ${jobs} jobs, filled and examined: ${found.length} findings`,
      measured: ms(filled),
    };
    // A shop keeps its past days while nobody waits; before that each is worked out from the records.
    const before = ASKED.filter(([, name]) => KEPT.includes(name)).map(([what, name, input]) =>
      figure(shop, `${what}, no day kept yet`, name, input),
    );
    return [
      made,
      ...before,
      keeping(shop),
      ...ASKED.map(([what, name, input]) => figure(shop, what, name, input)),
    ];
  } finally {
    shop.close();
  }
}

/** Writes all days in as the program does when it is left alone; the doctor compares them with the records. */
function keeping(shop: TestShop): BenchRow {
  const slices: number[] = [];
  for (let more = true; more; )
    slices.push(
      took(() => {
        more = keepDays(shop.db, shop.now());
      }),
    );
  const found = examine(shop.db);
  if (found.length > 0) throw new Error(`the doctor found ${JSON.stringify(found.slice(0, 5))}`);
  const sum = slices.reduce((a, b) => a + b, 0);
  return {
    what: `keeping what ten years of days came to, in ${slices.length} turns: ${found.length} findings`,
    measured: `${ms(median(slices))} a turn, at most ${ms(Math.max(...slices))}, all ${ms(sum)} (CPU)`,
  };
}

function figure(shop: TestShop, what: string, name: string, sent: object): BenchRow {
  const cold: number[] = [];
  const warm: number[] = [];
  for (let i = 0; i < COLD; i += 1) {
    const db = openForReading(path.join(shop.dir, 'rakelight.sqlite'));
    const ask = asker({ db, now: shop.now() as EpochMs, actor: null }, name, sent);
    cold.push(took(ask));
    for (let k = 0; k < (i === 0 ? WARM : 0); k += 1) warm.push(took(ask));
    db.raw.close();
  }
  return {
    what,
    measured: `${ms(median(cold))} cold, ${ms(median(warm))} warm (CPU)`,
    asked: '< 300 ms cold, < 50 ms warm',
  };
}

function asker(ctx: ReadCtx, name: string, sent: object): () => unknown {
  const entry = catalogue[name as keyof typeof catalogue];
  const handler = contract[name as keyof typeof contract] as unknown as (
    ctx: ReadCtx,
    input: unknown,
  ) => unknown;
  return () => handler(ctx, entry.input.parse(sent));
}

/** Processor time, so that what else runs on the machine does not count. */
function took(work: () => unknown): number {
  const before = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
}

function median(values: readonly number[]): number {
  return values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;
}
