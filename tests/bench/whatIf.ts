import { rmSync } from 'node:fs';
import path from 'node:path';
import { openForReading } from '#core/db/open.ts';
import { type WhatIfModel, whatIf } from '#core/figures/rules/whatIf.ts';
import type { Side } from '#core/figures/rules/whatIfOneRun.ts';
import type { whatIfEntries } from '#core/shared/catalogue/whatIf.ts';
import type { InputOf } from '#core/shared/entry.ts';
import type { EpochMs, LocalDay } from '#core/shared/units.ts';
import { gatherWhatIf, whatIfStart } from '#core/views/whatIf.ts';
import { demoNow } from '../../seed/build.ts';
import { demoFolder } from './demo.ts';
import { type BenchRow, ms, timed } from './measure.ts';

const ROUNDS = 100;
/** As many as a shop of thirty thousand jobs in ten years is given. */
const LARGE_ROUNDS = 40;
const TIMES = 5;

/** A what-if over the last half year of the demo shop of two years: one more bay and technician, half as many cars again. */
export async function rows(): Promise<readonly BenchRow[]> {
  const { dir } = await demoFolder();
  const db = openForReading(path.join(dir, 'rakelight.sqlite'));
  try {
    const now = demoNow(new Date().toISOString().slice(0, 10) as LocalDay) as EpochMs;
    const ctx = { db, now, actor: null };
    const [like] = whatIfStart(ctx).people;
    const ask: InputOf<(typeof whatIfEntries)['figures.whatIf']> = {
      change: {
        bay: { bayKind: 'correction', count: 1 },
        technician: like ? { like: like.personId, count: 1, hours: 'same' } : null,
        asksPpm: 500_000,
      },
      rounds: ROUNDS,
      seed: 1,
    };
    const gathered = await timed(10, () => gatherWhatIf(ctx, ask));
    const model = gatherWhatIf(ctx, ask);
    const large = gatherWhatIf(ctx, { ...ask, rounds: LARGE_ROUNDS });
    return [
      await row('of the demo shop', model, `gathered in ${ms(gathered.p50)}`),
      await row('of five of it at once', {
        ...large,
        before: fiveOf(large.before),
        after: fiveOf(large.after),
      }),
    ];
  } finally {
    db.raw.close();
    rmSync(dir, { recursive: true, force: true });
  }
}

/** Five times the bays, people and jobs: sixty jobs a week, thirty thousand in ten years. */
function fiveOf(side: Side): Side {
  const times = <T>(list: readonly T[]): readonly T[] => Array.from({ length: TIMES }, () => list).flat();
  const { shop, asks } = side;
  return {
    ...side,
    shop: { ...shop, places: times(shop.places), people: times(shop.people) },
    asks: { ...asks, jobs: times(asks.jobs) },
  };
}

async function row(what: string, model: WhatIfModel, beside = ''): Promise<BenchRow> {
  const { weeks, jobs } = model.before.asks;
  const run = await timed(3, () => whatIf(model, { progress: () => {}, cancelled: () => false }));
  return {
    what: `what-if ${what}, ${model.rounds} runs of ${weeks} weeks before and after`,
    measured: `${ms(run.p50)}, the slowest ${ms(run.p95)}`,
    beside: `${beside}${beside ? ', ' : ''}${jobs.length} jobs`,
    asked: '< 10 s',
  };
}
