import type { BayId, PersonId, StageId } from '#core/shared/ids.ts';
import type { PlanFault } from '#core/shared/views/plan.ts';
import { type Part, partsOf, wholeOf } from './byHand.ts';
import { BY_CONSENT } from './consent.ts';
import { labourFinder } from './labour.ts';
import {
  arrivalMin,
  type Board,
  isOpenStage,
  type JobPlan,
  type JobSpec,
  type Piece,
  type StageSpec,
} from './model.ts';
import { type Occupancy, occupancyOf } from './occupancy.ts';
import { staysFor } from './stays.ts';
import { faultsOfJob } from './validate.ts';

/** Where somebody wants a block: these stages, in this place, not before this minute, by this person if named. */
export type MoveWish = {
  readonly stageIds: readonly StageId[];
  readonly bayId: BayId;
  readonly startMin: number;
  readonly personId: PersonId | null;
};
export type MoveResult =
  | { readonly ok: true; readonly plan: JobPlan; readonly consent: readonly PlanFault[] }
  | { readonly ok: false; readonly fault: PlanFault };

/**
 * The plan with a block moved: its stages follow each other in the new place from `startMin` on, each by its own
 * technician where that is possible; the rest of the job keeps its times and the stays close up around it.
 */
export function movedPlan(
  board: Board,
  job: JobSpec,
  plan: JobPlan,
  wish: MoveWish,
  known?: Occupancy,
): JobPlan | null {
  const place = board.places.find((p) => p.id === wish.bayId);
  const moving = job.stages.filter((s) => wish.stageIds.includes(s.id) && isOpenStage(s));
  if (!place || moving.length === 0) return null;
  const occupancy = known ?? occupancyOf(board, new Set([job.id]), board.nowMin);
  const behind = laidBehind(board, occupancy, job, plan, moving);
  const laid = new Set([...moving.map((s) => s.id), ...behind.map((p) => p.stageId)]);
  const rest = plan.pieces.filter((p) => !laid.has(p.stageId));
  const pieces: Piece[] = [...behind];
  let t = wish.startMin;
  for (const stage of moving) {
    for (const part of wish.personId ? [wholeOf(board, stage, plan)] : partsOf(board, stage, plan)) {
      const piece = laidFrom(board, occupancy, part, { ...wish, startMin: t });
      if (!piece) return null;
      pieces.push(piece);
      t = piece.dwellEndMin;
    }
    t += stage.leastGapMin;
  }
  const all = [...rest, ...pieces].sort((a, b) => a.startMin - b.startMin);
  return { jobId: job.id, pieces: all, stays: staysFor(board, job, plan, all, occupancy) };
}

/** Work of a car that is here and should have begun: it lies from now on, as the board draws it. */
function laidBehind(
  board: Board,
  occupancy: Occupancy,
  job: JobSpec,
  plan: JobPlan,
  moving: readonly StageSpec[],
): readonly Piece[] {
  const { start } = job;
  if (start.kind !== 'here') return [];
  let [place, t] = [start.bayId, Math.max(board.nowMin, start.fromMin)];
  const pieces: Piece[] = [];
  for (const stage of job.stages.filter((s) => s.state === 'planned' && !moving.includes(s))) {
    const old = plan.pieces.find((p) => p.stageId === stage.id);
    if (!old || old.startMin >= board.nowMin) continue;
    for (const part of partsOf(board, stage, plan)) {
      const startMin = t + (old.bayId === place ? 0 : arrivalMin(board, old.bayId));
      const piece = laidFrom(board, occupancy, part, { bayId: old.bayId, startMin, personId: null });
      if (!piece) return [];
      pieces.push(piece);
      [place, t] = [old.bayId, piece.dwellEndMin];
    }
    t += stage.leastGapMin;
  }
  return pieces;
}

/** A part as soon as it can be from a minute on: by whoever is named or has it, by anybody else where nobody is named. */
export function laidFrom(
  board: Board,
  occupancy: Occupancy,
  { stage, piece }: Part,
  { bayId, startMin, personId }: Omit<MoveWish, 'stageIds'>,
): Piece | null {
  const own = personId ? [personId] : (piece?.personIds ?? []);
  const find = (allowed: ReadonlySet<PersonId> | null) =>
    labourFinder({ stage, technicians: board.technicians, occupancy, allowed }, bayId)(
      startMin,
      board.horizonMin,
    );
  const labour = (own.length > 0 ? find(new Set(own)) : null) ?? (personId ? null : find(null));
  return labour && { ...labour, stageId: stage.id, bayId };
}

/** How a plan follows a wish: the block alone, or the whole job with it. */
export type Mover = (
  board: Board,
  job: JobSpec,
  plan: JobPlan,
  wish: MoveWish,
  known?: Occupancy,
) => JobPlan | null;

/** Checks a wished move against every rule. Broken promises come back as matters of consent, all else refuses. */
export function checkMove(
  board: Board,
  job: JobSpec,
  plan: JobPlan,
  wish: MoveWish,
  mover: Mover = movedPlan,
  known?: Occupancy,
): MoveResult {
  const moving = job.stages.filter((s) => wish.stageIds.includes(s.id));
  const gone = moving.find((s) => !isOpenStage(s));
  const stage = moving[0]?.kind ?? '';
  const fault = (rule: PlanFault['rule'], words: PlanFault['words']): MoveResult => ({
    ok: false,
    fault: {
      rule,
      jobId: job.id,
      bayId: wish.bayId,
      personId: wish.personId,
      words: { who: job.who, ...words },
    },
  });
  if (gone) return fault('alreadyDone', { stage: gone.kind });
  if (wish.startMin < board.nowMin) return fault('inThePast', { stage, atMin: wish.startMin });
  const moved = mover(board, job, plan, wish, known);
  if (!moved) return fault(whyNobody(board, moving, wish), { person: nameOf(board, wish.personId), stage });
  const faults = faultsOfJob(board, job, moved);
  const hard = gravest(faults, wish.bayId);
  return hard
    ? { ok: false, fault: hard }
    : { ok: true, plan: moved, consent: faults.filter((f) => BY_CONSENT.includes(f.rule)) };
}

/** Nobody could be found for the work: whoever is named has no skill for it, or no time; or all together have none. */
function whyNobody(board: Board, moving: readonly StageSpec[], wish: MoveWish): PlanFault['rule'] {
  const person = board.technicians.find((t) => t.id === wish.personId);
  if (!person) return 'crewShort';
  const can = moving.every((s) => s.crew === 0 || person.skills.includes(s.skill));
  return can ? 'personBusy' : 'personSkill';
}

/**
 * The rule to name: one about the place that the block is held over before one about where else its car would be. That a
 * car would stand nowhere mostly comes of another one that is broken.
 */
function gravest(faults: readonly PlanFault[], bayId: BayId): PlanFault | undefined {
  const hard = faults.filter((f) => !BY_CONSENT.includes(f.rule));
  const named = hard.filter((f) => f.rule !== 'noPlace');
  return named.find((f) => OF_PLACE.includes(f.rule) && f.bayId === bayId) ?? named[0] ?? hard[0];
}
const OF_PLACE: readonly PlanFault['rule'][] = ['bayTaken', 'yardFull', 'bayClosed', 'bayKind'];

function nameOf(board: Board, id: PersonId | null): string {
  return board.technicians.find((t) => t.id === id)?.name ?? '';
}
