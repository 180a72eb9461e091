import { promisesNow } from '../bays/commands/promises.ts';
import type { Board, JobPlan, JobSpec } from '../bays/rules/model.ts';
import { checkMove, type MoveWish } from '../bays/rules/move.ts';
import { slotFrom } from '../bays/rules/offers.ts';
import { chanceBy, quantile } from '../bays/rules/promise.ts';
import { simulateReady } from '../bays/rules/simulate.ts';
import type { ReadCtx } from '../context.ts';
import { localDayOf } from '../shared/time.ts';
import type { EpochMin, Ppm } from '../shared/units.ts';
import type { PromiseAtRisk, Remedy } from '../shared/views/bookings.ts';
import { baysSetup } from '../views/baysSetup.ts';
import { type RiskFacts, riskFacts } from '../views/deskRisks.ts';
import { type LiveBoard, liveBoard } from '../views/liveBoard.ts';
import { shopOf } from '../views/shop.ts';

const SEED = 20;
/** Fewer draws than a promise is made with: remedies are compared with each other, on the same draws. */
const TRIES = 400;
/** Jobs whose remedies are worked out: the soonest promises. */
const WORKED_OUT = 6;
/** A remedy that gains less is none. */
const GAIN_PPM = 50_000;

/**
 * Promises that are not safe, with the simulated chance and ways out that were tried on the board: another technician
 * for the next stages, the same stages in another place as soon as possible, and a later handover. Fewer than two
 * kinds are no choice, so none is shown.
 * @throws SHOP_NOT_SET_UP
 */
export function deskRisks(ctx: ReadCtx): readonly PromiseAtRisk[] {
  const today = localDayOf(ctx.now, shopOf(ctx.db).zone);
  if (baysSetup(ctx.db, today).hours.length === 0)
    return riskFacts(ctx, []).map((r) => ({ ...r, remedies: [] }));
  const risks = riskFacts(ctx, promisesNow(ctx, {}));
  if (risks.length === 0) return [];
  const live = liveBoard(ctx.db, { nowMs: ctx.now });
  return risks.map((r, i) => ({ ...r, remedies: i < WORKED_OUT ? remediesFor(live, r) : [] }));
}

function remediesFor(live: LiveBoard, risk: RiskFacts): readonly Remedy[] {
  const { board } = live;
  const job = board.jobs.get(risk.jobId);
  const plan = board.plans.get(risk.jobId);
  if (!job || !plan || plan.pieces.length === 0) return [];
  const found = [...moves(live, job, plan, risk), ...later(live, risk)];
  return new Set(found.map((r) => r.kind)).size < 2 ? [] : found.sort((a, b) => b.ppm - a.ppm);
}

/** The best other technician and the best other place for the next stages that nobody has begun. */
function moves(live: LiveBoard, job: JobSpec, plan: JobPlan, risk: RiskFacts): readonly Remedy[] {
  const { board, planRevision } = live;
  const waiting = plan.pieces.filter((p) =>
    job.stages.some((s) => s.id === p.stageId && s.state === 'planned' && s.crew > 0),
  );
  const [first] = waiting;
  if (!first) return [];
  const block = waiting.filter((p) => p.bayId === first.bayId);
  const stageIds = [...new Set(block.map((p) => p.stageId))];
  const soonest = Math.max(board.nowMin, ...doneBefore(job, plan));
  const chance = (wish: MoveWish): Ppm | null => chanceWith(board, job, plan, wish, risk.pickUpMin);
  const base = { jobId: job.id, stageIds, planRevision };
  const people = board.technicians.flatMap((person): Remedy[] => {
    if (first.personIds.includes(person.id)) return [];
    for (const startMin of [soonest, first.startMin] as EpochMin[]) {
      const wish = { stageIds, bayId: first.bayId, startMin, personId: person.id };
      const ppm = chance(wish);
      if (ppm === null) continue;
      return [{ kind: 'technician', name: person.name, ppm, move: { ...base, ...wish } }];
    }
    return [];
  });
  const places = board.places.flatMap((place): Remedy[] => {
    const startMin = soonest as EpochMin;
    const ppm = chance({ stageIds, bayId: place.id, startMin, personId: null });
    if (ppm === null) return [];
    return [{ kind: 'sooner', bay: place.name, ppm, move: { ...base, bayId: place.id, startMin } }];
  });
  return [best(people, risk), best(places, risk)].flatMap((r) => r ?? []);
}

function best(remedies: readonly Remedy[], risk: RiskFacts): Remedy | null {
  const [first] = [...remedies].sort((a, b) => b.ppm - a.ppm);
  return first && first.ppm >= (risk.nowPpm ?? 0) + GAIN_PPM ? first : null;
}

/** When the pieces that stay where they are (what runs, what is half done) are expected to end. */
function doneBefore(job: JobSpec, plan: JobPlan): readonly number[] {
  const begun = new Set(job.stages.filter((s) => s.state !== 'planned').map((s) => s.id));
  return plan.pieces.filter((p) => begun.has(p.stageId)).map((p) => p.dwellEndMin);
}

function chanceWith(
  board: Board,
  job: JobSpec,
  plan: JobPlan,
  wish: MoveWish,
  pickUpMin: number,
): Ppm | null {
  const tried = checkMove(board, job, plan, wish);
  if (!tried.ok || tried.consent.length > 0) return null;
  const plans = new Map(board.plans).set(job.id, tried.plan);
  const ready = simulateReady({ ...board, plans }, [job.id], SEED, TRIES).get(job.id) ?? [];
  return ready.length === 0 ? null : (chanceBy(ready, pickUpMin) as Ppm);
}

/** The first handover after the promised one by which enough of the runs are ready. */
function later(live: LiveBoard, risk: RiskFacts): readonly Remedy[] {
  const { board, shop } = live;
  const ready = simulateReady(board, [risk.jobId], SEED).get(risk.jobId) ?? [];
  if (ready.length === 0) return [];
  const pickUpMin = slotFrom(board, quantile(ready, shop.settings.promises.levelPpm));
  if (pickUpMin <= risk.pickUpMin || pickUpMin > board.horizonMin) return [];
  return [{ kind: 'later', pickUpMin: pickUpMin as EpochMin, ppm: chanceBy(ready, pickUpMin) as Ppm }];
}
