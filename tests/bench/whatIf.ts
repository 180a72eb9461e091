import { rmSync } from 'node:fs';
import path from 'node:path';
import { openForReading } from '#core/db/open.ts';
import { whatIf } from '#core/figures/rules/whatIf.ts';
import type { whatIfEntries } from '#core/shared/catalogue/whatIf.ts';
import type { InputOf } from '#core/shared/entry.ts';
import type { EpochMs, LocalDay } from '#core/shared/units.ts';
import { gatherWhatIf, whatIfStart } from '#core/views/whatIf.ts';
import { demoNow } from '../../seed/build.ts';
import { demoFolder } from './demo.ts';
import { type BenchRow, ms, timed } from './measure.ts';

const ROUNDS = 100;

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
    const model = gatherWhatIf(ctx, ask);
    const gathered = await timed(10, () => gatherWhatIf(ctx, ask));
    const quiet = { progress: () => {}, cancelled: () => false };
    const run = await timed(3, () => whatIf(model, quiet));
    return [
      {
        what: `what-if with its bands, ${ROUNDS} runs of ${model.before.asks.weeks} weeks before and after`,
        measured: `${ms(run.p50)}, the slowest ${ms(run.p95)}`,
        beside: `gathered in ${ms(gathered.p50)} from ${model.before.asks.jobs.length} jobs`,
        asked: '< 10 s',
      },
    ];
  } finally {
    db.raw.close();
    rmSync(dir, { recursive: true, force: true });
  }
}
