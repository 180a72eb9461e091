import type { BayId, JobId, StageId } from '#core/shared/ids.ts';
import type { StageKind } from '#core/shared/vocabulary.ts';
import { bothHours, type Span } from './calendar.ts';
import { isCoating, isCutting, joined, openWithin } from './dust.ts';
import type { Board, JobPlan, Piece } from './model.ts';

/** The dust and the fresh coatings of all plans, asked for as they are near one bay. */
export type Air = {
  readonly dustNear: (id: BayId) => readonly Span[];
  readonly freshNear: (id: BayId) => readonly Span[];
  readonly put: (plan: JobPlan) => void;
  readonly remove: (plan: JobPlan) => void;
};

type Held = Span & { readonly jobId: JobId; readonly bayId: BayId };
type Kept = { dust: readonly Held[]; fresh: readonly Held[] };

const STILL: Air = { dustNear: () => [], freshNear: () => [], put: () => {}, remove: () => {} };

/** Where no two bays are in each other's dust, nothing is kept. */
export function airOf(board: Board): Air {
  if (board.places.every((p) => p.dustWith.length === 0)) return STILL;
  const near = new Map(board.places.map((p) => [p.id, new Set<BayId>(p.dustWith)]));
  const kept: Kept = { dust: [], fresh: [] };
  const known = new Map<string, readonly Span[]>();
  const around = (what: keyof Kept, id: BayId): readonly Span[] => {
    const key = `${what}/${id}`;
    const spans = known.get(key) ?? joined(kept[what].filter((h) => near.get(id)?.has(h.bayId)));
    known.set(key, spans);
    return spans;
  };
  const change = (to: (what: keyof Kept) => readonly Held[]): void => {
    known.clear();
    [kept.dust, kept.fresh] = [to('dust'), to('fresh')];
  };
  return {
    dustNear: (id) => around('dust', id),
    freshNear: (id) => around('fresh', id),
    put: (plan) => {
      const of = { dust: dustOf(board, plan), fresh: freshOf(board, plan) };
      change((what) => [...kept[what], ...of[what]]);
    },
    remove: (plan) => change((what) => kept[what].filter((h) => h.jobId !== plan.jobId)),
  };
}

/** While somebody is really at it: not over their breaks and nights. */
function dustOf(board: Board, plan: JobPlan): readonly Held[] {
  const kindOf = kindsOf(board, plan);
  return plan.pieces
    .filter((p) => isCutting(kindOf(p.stageId)))
    .flatMap((p) => workedSpans(board, p).map((s) => ({ ...s, jobId: plan.jobId, bayId: p.bayId })));
}

function freshOf(board: Board, plan: JobPlan): readonly Held[] {
  const kindOf = kindsOf(board, plan);
  return plan.pieces
    .filter((p) => isCoating(kindOf(p.stageId)))
    .map((p) => ({ jobId: plan.jobId, bayId: p.bayId, startMin: p.startMin, endMin: p.dwellEndMin }));
}

function kindsOf(board: Board, plan: JobPlan): (id: StageId) => StageKind | undefined {
  const stages = board.jobs.get(plan.jobId)?.stages ?? [];
  return (id) => stages.find((s) => s.id === id)?.kind;
}

function workedSpans(board: Board, piece: Piece): readonly Span[] {
  const crew = piece.personIds.flatMap((id) => board.technicians.find((t) => t.id === id) ?? []);
  const [first] = crew;
  if (!first) return [piece];
  return openWithin(
    crew.reduce((hours, t) => bothHours(hours, t.hours), first.hours),
    piece,
  );
}
