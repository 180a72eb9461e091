import { promisesOn } from '../bays/commands/promises.ts';
import { next } from '../bays/rules/calendar.ts';
import { slotFrom } from '../bays/rules/offers.ts';
import { chanceBy, isAtRisk, quantile, readyBy } from '../bays/rules/promise.ts';
import { chanceFrom, otherPeople, otherTimes, type Tried, type Trouble } from '../bays/rules/remedies.ts';
import type { ReadCtx } from '../context.ts';
import type { JobId } from '../shared/ids.ts';
import { addLocalDays, localDayOf, minuteOf } from '../shared/time.ts';
import type { EpochMin, Ppm } from '../shared/units.ts';
import type { PromiseNow } from '../shared/views/bays.ts';
import type { PromiseAtRisk, Remedy, RiskReason } from '../shared/views/desk.ts';
import { baysSetup } from '../views/baysSetup.ts';
import { type RiskFacts, riskFacts } from '../views/deskRisks.ts';
import { type LiveBoard, liveBoard } from '../views/liveBoard.ts';
import { shopOf } from '../views/shop.ts';
import { padsNow } from '../views/stockPads.ts';

/** Jobs whose remedies are worked out: the soonest promises. */
export const WORKED_OUT = 5;
/** A remedy that gains less is none; a chance so far below the level is a risk, as on the board. */
const GAIN_PPM = 50_000;
/** Nor is one that is late as likely as not. */
const WORTH_PPM = 500_000;

/**
 * Promises that are not safe, with the simulated chance and ways out that were tried on the board: another technician
 * for the next stages, the same stages at once or tomorrow morning, pads washed tonight, a later handover.
 * @throws SHOP_NOT_SET_UP
 */
export function deskRisks(ctx: ReadCtx): readonly PromiseAtRisk[] {
  const today = localDayOf(ctx.now, shopOf(ctx.db).zone);
  if (baysSetup(ctx.db, today).hours.length === 0)
    return riskFacts(ctx, []).map((r) => ({ ...r, remedies: [] }));
  const live = liveBoard(ctx.db, { nowMs: ctx.now });
  const simulated = promisesOn(live);
  const promises = simulated.map((s) => s.promise);
  const ready = new Map(simulated.map((s) => [s.promise.jobId, s.runs]));
  const unwashed = unwashedJobs(ctx, live, promises);
  const seen = promises.map((p) => unwashed.get(p.jobId)?.without ?? p);
  const risks = riskFacts(ctx, seen);
  return risks.map((facts, i) => {
    const pads = unwashed.get(facts.jobId);
    const risk = pads && facts.reason.kind === 'planEndsLate' ? { ...facts, reason: pads.reason } : facts;
    const runs = ready.get(facts.jobId) ?? [];
    return { ...risk, remedies: i < WORKED_OUT ? remediesFor(live, risk, runs, pads) : [] };
  });
}

/**
 * The same ways out for one job, also where its promise is not at risk yet: none for a job without an open promise.
 * @throws HOURS_NOT_SET
 */
export function waysOut(ctx: ReadCtx, { jobId }: { readonly jobId: JobId }): readonly Remedy[] {
  const live = liveBoard(ctx.db, { nowMs: ctx.now });
  const [found] = promisesOn(live, jobId);
  if (!found) return [];
  const { promise, runs } = found;
  const pads = unwashedJobs(ctx, live, [promise]).get(jobId);
  const nowPpm = pads?.without.nowPpm ?? promise.nowPpm;
  return remediesFor(live, { jobId, pickUpMin: promise.atMin, nowPpm }, runs, pads);
}

/** A job that will lack clean pads unless dirty ones are washed tonight. */
type Unwashed = {
  readonly reason: Extract<RiskReason, { kind: 'padsMissing' }>;
  /** The promise when nobody washes: the work waits for a wash put in on its day. */
  readonly without: PromiseNow;
  /** The chance with pads washed tonight: as planned. */
  readonly washedPpm: Ppm;
};

function unwashedJobs(
  ctx: ReadCtx,
  live: LiveBoard,
  promises: readonly PromiseNow[],
): ReadonlyMap<JobId, Unwashed> {
  const found = new Map<JobId, Unwashed>();
  const { washDays } = live.shop.settings.stock;
  for (const { itemName: item, shortage } of padsNow(ctx)) {
    const now = promises.find((p) => p.jobId === shortage?.jobId);
    const trouble = now && troubleOf(live, now.jobId, now.atMin);
    if (!shortage?.washHelps || !now || !trouble || now.nowPpm < WORTH_PPM) continue;
    const backMin = minuteOf(addLocalDays(shortage.day, washDays), 0, live.shop.zone);
    const runs = chanceFrom(trouble, backMin);
    const ppm = (runs.length === 0 ? 0 : chanceBy(runs, now.atMin)) as Ppm;
    if (ppm > now.nowPpm - GAIN_PPM) continue;
    found.set(now.jobId, {
      reason: { kind: 'padsMissing', item, needs: shortage.needs, has: shortage.has },
      without: withRuns(live, now, runs, ppm),
      washedPpm: now.nowPpm,
    });
  }
  return found;
}

function withRuns(live: LiveBoard, now: PromiseNow, runs: readonly number[], nowPpm: Ppm): PromiseNow {
  const at = (ppm: number): EpochMin => readyBy(live.board, runs, ppm) as EpochMin;
  const atRisk = now.atRisk || isAtRisk(nowPpm, live.shop.settings.promises.levelPpm);
  if (runs.length === 0) return { ...now, nowPpm, atRisk };
  return { ...now, nowPpm, atRisk, p50Min: at(500_000), p80Min: at(800_000), p95Min: at(950_000) };
}

function troubleOf(live: LiveBoard, jobId: JobId, promiseMin: number): Trouble | null {
  const { board, shop } = live;
  const job = board.jobs.get(jobId);
  const plan = board.plans.get(jobId);
  if (!job || !plan || plan.pieces.length === 0) return null;
  const today = localDayOf(board.nowMin * 60_000, shop.zone);
  const morningMin = next(board.open, minuteOf(addLocalDays(today, 1), 0, shop.zone));
  return { board, job, plan, promiseMin, morningMin };
}

function remediesFor(
  live: LiveBoard,
  risk: Pick<RiskFacts, 'jobId' | 'pickUpMin' | 'nowPpm'>,
  ready: readonly number[],
  pads: Unwashed | undefined,
): readonly Remedy[] {
  const trouble = troubleOf(live, risk.jobId, risk.pickUpMin);
  if (!trouble) return [];
  const least = Math.max(WORTH_PPM, (risk.nowPpm ?? 0) + GAIN_PPM);
  const [who] = otherPeople(trouble);
  const [time] = otherTimes(trouble);
  const found: Remedy[] = later(live, risk, ready);
  if (pads) found.push({ kind: 'wash', item: pads.reason.item, ppm: pads.washedPpm });
  if (who && who.ppm >= least)
    found.push({ ...way(live, trouble, who), kind: 'technician', name: nameOf(live, who) });
  if (time && time.ppm >= least)
    found.push({ ...way(live, trouble, time), kind: 'time', bay: bayOf(live, time) });
  return found.sort((a, b) => b.ppm - a.ppm);
}

/** What `bays.move` is given to take a way out, and its chance. */
function way(live: LiveBoard, trouble: Trouble, tried: Tried) {
  const { stageIds, bayId, personId, startMin } = tried.wish;
  const move = { jobId: trouble.job.id, stageIds, bayId, startMin: startMin as EpochMin };
  const person = personId ? { personId } : {};
  const stage = trouble.job.stages.find((s) => stageIds.includes(s.id))?.kind ?? 'handover';
  return { ppm: tried.ppm as Ppm, stage, move: { ...move, ...person, planRevision: live.planRevision } };
}

function nameOf(live: LiveBoard, tried: Tried): string {
  return live.board.technicians.find((t) => t.id === tried.wish.personId)?.name ?? '';
}

function bayOf(live: LiveBoard, tried: Tried): string {
  return live.board.places.find((p) => p.id === tried.wish.bayId)?.name ?? '';
}

/** The first handover after the promised one by which enough of the runs are ready. */
function later(live: LiveBoard, risk: Pick<RiskFacts, 'pickUpMin'>, ready: readonly number[]): Remedy[] {
  const { board, shop } = live;
  if (ready.length === 0) return [];
  const pickUpMin = slotFrom(board, quantile(ready, shop.settings.promises.levelPpm));
  if (pickUpMin <= risk.pickUpMin || pickUpMin > board.horizonMin) return [];
  return [{ kind: 'later', pickUpMin: pickUpMin as EpochMin, ppm: chanceBy(ready, pickUpMin) as Ppm }];
}
