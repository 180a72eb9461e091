import type { ReadCtx, WriteCtx } from '../../context.ts';
import type { bayChangeEntries } from '../../shared/catalogue/bayChanges.ts';
import type { baysEntries } from '../../shared/catalogue/bays.ts';
import type { InputOf } from '../../shared/entry.ts';
import { refuse } from '../../shared/errors.ts';
import type { JobId } from '../../shared/ids.ts';
import type { EpochMin } from '../../shared/units.ts';
import type { SpanView } from '../../shared/views/bays.ts';
import type { ChangeCheck, MoveCheck, NearPlace, PlanFault } from '../../shared/views/plan.ts';
import type { PlanChange } from '../../shared/views/planChange.ts';
import { type LiveBoard, liveBoard } from '../../views/liveBoard.ts';
import { type Block, resizedPlan, shiftedJob, splitPlan, swappedPlans } from '../rules/changes.ts';
import { BY_CONSENT } from '../rules/consent.ts';
import { type Lands, landsAt } from '../rules/lands.ts';
import type { JobPlan } from '../rules/model.ts';
import { checkMove, type Mover, movedPlan } from '../rules/move.ts';
import { type Near, nearestPlaces, nearOf } from '../rules/nearest.ts';
import { faultsOfJob } from '../rules/validate.ts';
import { plannable, planView } from './offers.ts';
import { boardForChange, moverOf, savePlans, wishOf } from './plan.ts';
import { withSureness } from './sureness.ts';

type In<N extends keyof typeof baysEntries> = InputOf<(typeof baysEntries)[N]>;
type Change = InputOf<(typeof bayChangeEntries)['bays.checkChange']>;
type Of<K extends Change['kind']> = Extract<Change, { readonly kind: K }>;

/** Whether a block may move there. @throws NOT_FOUND · JOB_NOT_PLANNABLE */
export function moveCheck(ctx: ReadCtx, input: In<'bays.checkMove'>): MoveCheck {
  const live = liveBoard(ctx.db, { nowMs: ctx.now });
  const { job, plan } = planned(live, input.jobId);
  const [wish, mover] = [wishOf(input), moverOf(input)];
  const result = checkMove(live.board, job, plan, wish, mover);
  if (result.ok) {
    const lands =
      nearOf(job, result.plan, wish, mover)?.lands ?? refuse('NOT_FOUND', { what: 'stage', id: job.id });
    const needsConsent = withSureness(ctx.db, live, [result.plan], result.consent);
    return { ok: true, plan: planView(result.plan), lands: spanView(lands), needsConsent };
  }
  const places = (by: Mover) => nearestPlaces(live.board, job, plan, wish, by).map((n) => near(live, n));
  const nearest = places(mover);
  const alone = nearest.length === 0 && mover === movedPlan;
  return { ok: false, fault: result.fault, nearest, whole: alone ? places(shiftedJob) : [] };
}

/**
 * Whether two blocks may be swapped, a stage split or its end drawn; a split or an end that may not be names the
 * nearest minutes that may.
 * @throws NOT_FOUND · JOB_NOT_PLANNABLE · STAGE_CANNOT_SPLIT
 */
export function changeCheck(ctx: ReadCtx, input: Change): ChangeCheck {
  const live = liveBoard(ctx.db, { nowMs: ctx.now });
  const plans = plansAfter(live, input);
  const faults = faultsOf(live, plans, input);
  const hard = faults.find((f) => !BY_CONSENT.includes(f.rule));
  if (!hard) {
    const needsConsent = withSureness(ctx.db, live, plans, faults);
    return { ok: true, lands: landsOf(live, plans, input), needsConsent };
  }
  return { ok: false, fault: hard, nearest: input.kind === 'swap' ? [] : nearestMinutes(live, input) };
}

/** Swaps two blocks: each takes the other's place and start. @throws as a move */
export function swapBlocks(ctx: WriteCtx, input: In<'bays.swap'>): PlanChange {
  const live = boardForChange(ctx, input.planRevision);
  const plans = plansAfter(live, { kind: 'swap', a: input.a, b: input.b });
  return savePlans(ctx, live, plans, new Set(input.consent ? [input.a.jobId, input.b.jobId] : []));
}

/**
 * Splits a stage's work at a minute; the rest keeps its time and may go to somebody else. Nothing comes or is ready at
 * another time for it, so that nobody is asked, also where a promise is missed already.
 * @throws STAGE_CANNOT_SPLIT · PLAN_BREAKS_RULE · PLAN_CHANGED
 */
export function splitStage(ctx: WriteCtx, input: In<'bays.split'>): PlanChange {
  const { planRevision, ...split } = input;
  const live = boardForChange(ctx, planRevision);
  return savePlans(ctx, live, plansAfter(live, { kind: 'split', ...split }), new Set([input.jobId]));
}

/** Draws the end of a stage's work to a minute. @throws PLAN_CHANGED · PLAN_BREAKS_RULE · NEEDS_CONSENT */
export function resizeStage(
  ctx: WriteCtx,
  input: InputOf<(typeof bayChangeEntries)['bays.resize']>,
): PlanChange {
  const { planRevision, consent, ...resize } = input;
  const live = boardForChange(ctx, planRevision);
  const plans = plansAfter(live, { kind: 'resize', ...resize });
  return savePlans(ctx, live, plans, new Set(consent ? [input.jobId] : []));
}

function planned(live: LiveBoard, jobId: JobId) {
  const job = plannable(live, jobId);
  const plan = live.board.plans.get(job.id) ?? refuse('NOT_FOUND', { what: 'plan', id: job.id });
  return { job, plan };
}

/** The plans that a change makes. @throws NOT_FOUND · STAGE_CANNOT_SPLIT · SPAN_REVERSED for an end before the start */
function plansAfter(live: LiveBoard, change: Change): readonly JobPlan[] {
  if (change.kind === 'swap') {
    const block = (of: Of<'swap'>['a']): Block => ({ ...planned(live, of.jobId), stageIds: of.stageIds });
    const [first] = change.a.stageIds;
    return (
      swappedPlans(live.board, block(change.a), block(change.b)) ??
      refuse('NOT_FOUND', { what: 'stage', id: first ?? '' })
    );
  }
  const { job, plan } = planned(live, change.jobId);
  const kind = job.stages.find((s) => s.id === change.stageId)?.kind ?? '';
  if (change.kind === 'split') {
    const wish = { ...change, personId: change.personId ?? null };
    return [splitPlan(live.board, job, plan, wish) ?? refuse('STAGE_CANNOT_SPLIT', { stage: kind })];
  }
  return [resizedPlan(live.board, job, plan, change) ?? refuse('SPAN_REVERSED', { field: 'endMin' })];
}

/** Where the work that a change is about would lie, car by car. */
function landsOf(live: LiveBoard, plans: readonly JobPlan[], change: Change) {
  const ids = change.kind === 'swap' ? [...change.a.stageIds, ...change.b.stageIds] : [change.stageId];
  return plans.flatMap((plan) => {
    const lands = landsAt(plan, ids);
    const who = live.board.jobs.get(plan.jobId)?.who ?? '';
    return lands ? [{ jobId: plan.jobId, who, ...spanView(lands) }] : [];
  });
}

function faultsAfter(live: LiveBoard, plans: readonly JobPlan[]): readonly PlanFault[] {
  const merged = new Map(live.board.plans);
  for (const plan of plans) merged.set(plan.jobId, plan);
  const board = { ...live.board, plans: merged };
  return plans.flatMap((plan) => {
    const job = board.jobs.get(plan.jobId);
    return job ? faultsOfJob(board, job, plan) : [];
  });
}

/** What a change breaks, or has to be agreed to. A split leaves all times as they are. */
function faultsOf(live: LiveBoard, plans: readonly JobPlan[], { kind }: Change): readonly PlanFault[] {
  const faults = faultsAfter(live, plans);
  return kind === 'split' ? faults.filter((f) => !BY_CONSENT.includes(f.rule)) : faults;
}

const STEP_MIN = 15;
const TRIED = 32;

/** The nearest quarters of an hour before and after at which the same split or end breaks no rule. */
function nearestMinutes(live: LiveBoard, change: Of<'split'> | Of<'resize'>): readonly NearPlace[] {
  const { plan } = planned(live, change.jobId);
  const piece = plan.pieces.findLast((p) => p.stageId === change.stageId);
  if (!piece) return [];
  const at = change.kind === 'split' ? change.atMin : change.endMin;
  const works = (minute: EpochMin): boolean => {
    if (minute <= piece.startMin || (change.kind === 'split' && minute >= piece.endMin)) return false;
    const tried = change.kind === 'split' ? { ...change, atMin: minute } : { ...change, endMin: minute };
    return faultsOf(live, plansAfter(live, tried), tried).length === 0;
  };
  const side = (sign: 1 | -1): readonly NearPlace[] => {
    for (let step = 1; step <= TRIED; step += 1) {
      const minute = (at + sign * step * STEP_MIN) as EpochMin;
      if (works(minute)) {
        const lands = change.kind === 'split' ? { ...piece, startMin: minute } : { ...piece, endMin: minute };
        return [near(live, { bayId: piece.bayId, startMin: minute, lands, asks: false })];
      }
    }
    return [];
  };
  return [...side(-1), ...side(1)];
}

function near(live: LiveBoard, n: Near): NearPlace {
  const bayName = live.board.places.find((p) => p.id === n.bayId)?.name ?? '';
  const { bayId, startMin, lands, asks } = n;
  return { bayId, bayName, startMin: startMin as EpochMin, lands: spanView(lands), asks };
}

function spanView({ startMin, endMin }: Lands): SpanView {
  return { startMin: startMin as EpochMin, endMin: endMin as EpochMin };
}
