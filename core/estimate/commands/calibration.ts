import type { ReadCtx } from '../../context.ts';
import { historyStamp, stageHistory } from '../../views/history.ts';
import { type Calibration, learn } from '../rules/learning.ts';

/** The latest finished stages that learning looks at; older ones weigh next to nothing. */
const MOST_STAGES = 5000;
const MS_PER_DAY = 86_400_000;

const known = new WeakMap<object, { readonly stamp: string; readonly calibration: Calibration }>();

/** What the shop's finished work has taught, learned anew only when there is more of it or a day has passed. */
export function calibrationOf(ctx: Pick<ReadCtx, 'db' | 'now'>): Calibration {
  const stamp = `${historyStamp(ctx.db)}/${Math.floor(ctx.now / MS_PER_DAY)}`;
  const before = known.get(ctx.db.raw);
  if (before?.stamp === stamp) return before.calibration;
  const past = stageHistory(ctx.db, MOST_STAGES).map((row) => ({
    ...row,
    ageDays: (ctx.now - row.doneMs) / MS_PER_DAY,
  }));
  const calibration = learn(past);
  known.set(ctx.db.raw, { stamp, calibration });
  return calibration;
}
