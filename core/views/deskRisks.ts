import type { ReadCtx } from '../context.ts';
import { addLocalDays, instantOf, localDayOf } from '../shared/time.ts';
import type { EpochMs } from '../shared/units.ts';
import type { PromiseNow } from '../shared/views/bays.ts';
import type { PromiseAtRisk, RiskReason } from '../shared/views/desk.ts';
import { byJob } from './desk.ts';
import { type DeskRow, type DeskStageRow, deskJobs, deskStages, isOpenPromise } from './deskRows.ts';
import { shopOf } from './shop.ts';

export type RiskFacts = Omit<PromiseAtRisk, 'remedies'>;

/** Open promises that are not safe, soonest first: late already, not come, without a place, or sunk in the simulation. */
export function riskFacts(ctx: ReadCtx, promises: readonly PromiseNow[]): readonly RiskFacts[] {
  const { zone, settings } = shopOf(ctx.db);
  const today = localDayOf(ctx.now, zone);
  const day = {
    fromMs: instantOf(today, 0, zone),
    toMs: instantOf(addLocalDays(today, 1), 0, zone),
    nowMs: ctx.now,
  };
  const stages = byJob(deskStages(ctx.db, ctx.now));
  const sure = new Map(promises.map((p) => [p.jobId, p]));
  return deskJobs(ctx.db, day)
    .filter(isOpenPromise)
    .flatMap((j): RiskFacts[] => {
      const now = sure.get(j.jobId);
      const reason = reasonFor(j, stages.get(j.jobId) ?? [], now, ctx.now, settings.promises.graceMin);
      if (reason === null || j.pickUpMin === null) return [];
      const { jobId, number, customer, phone, makeModel, promisedPpm, pickUpMin } = j;
      const ready = now ? { p50Min: now.p50Min, p80Min: now.p80Min, p95Min: now.p95Min } : null;
      const who = { jobId, number, customer, phone, makeModel };
      return [{ ...who, pickUpMin, promisedPpm, nowPpm: now?.nowPpm ?? null, ready, reason }];
    })
    .sort((a, b) => a.pickUpMin - b.pickUpMin);
}

function reasonFor(
  j: DeskRow,
  stages: readonly DeskStageRow[],
  now: PromiseNow | undefined,
  nowMs: EpochMs,
  graceMin: number,
): RiskReason | null {
  const nowMin = Math.floor(nowMs / 60_000);
  const pickUpMin = j.pickUpMin ?? 0;
  if (pickUpMin <= nowMin) return { kind: 'passed' };
  const lateMin = j.state === 'booked' && j.dropOffMin !== null ? nowMin - j.dropOffMin : 0;
  if (lateMin > graceMin) return { kind: 'notArrived', lateMin };
  if (!now) return stages.length > 0 && j.likelyMin === null ? { kind: 'notPlaced' } : null;
  if (!now.atRisk) return null;
  const over = stages.find((s) => s.crew > 0 && s.attendedMs > s.p80Min * 60_000);
  if (over)
    return { kind: 'overrun', stage: over.kind, overMin: Math.floor(over.attendedMs / 60_000) - over.p50Min };
  return { kind: 'planEndsLate', overMin: Math.max(0, now.p50Min - pickUpMin) };
}
