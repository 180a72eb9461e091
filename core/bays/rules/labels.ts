import { NEVER, next, type Span } from './calendar.ts';
import type { LabourFinder } from './labour.ts';
import type { Board, Piece, StageSpec } from './model.ts';
import type { Occupancy } from './occupancy.ts';

/**
 * The car stands in gap `gap` of place `at` since `enterMin`; it can leave from `freeMin` and be worked on from
 * `workMin`. One label per gap, not per place: the earliest finish in a short gap may have to leave again.
 */
export type Label = {
  readonly at: number;
  readonly gap: number;
  readonly span: Span;
  readonly enterMin: number;
  readonly freeMin: number;
  readonly workMin: number;
  readonly from: Label | null;
  /** Work done in this step; null for an arrival or a stop in the yard. */
  readonly piece: Omit<Piece, 'bayId'> | null;
};

/** The same car, the same stay: staying in a gap is no move. */
export function sameStay(a: Label, b: Label): boolean {
  return a.at === b.at && a.gap === b.gap;
}

type Source = { readonly label: Label; readonly openMin: number };

/** Labels after a stage: by staying where the stage allows it, or by moving to every eligible gap. */
export function labelsOfStage(
  board: Board,
  occupancy: Occupancy,
  labels: readonly Label[],
  stage: StageSpec,
  finder: LabourFinder,
): readonly Label[] {
  const best = new Map<number, Label>();
  const keep = (entered: Label): void => {
    const work = finder(entered.workMin, entered.span.endMin);
    if (!work) return;
    const key = entered.at * 65_536 + entered.gap;
    const known = best.get(key);
    if (known && known.freeMin <= work.dwellEndMin) return;
    const t = work.dwellEndMin;
    best.set(key, { ...entered, freeMin: t, workMin: t, piece: { stageId: stage.id, ...work } });
  };
  for (const label of labels) {
    const kind = board.places[label.at]?.kind;
    if (kind && stage.bayKinds.includes(kind)) keep({ ...label, from: label });
  }
  const sources = sourcesOf(board, labels);
  board.places.forEach((place, at) => {
    if (stage.bayKinds.includes(place.kind)) for (const e of entries(board, occupancy, sources, at)) keep(e);
  });
  return [...best.values()];
}

/** Labels of standing in the yard between two stages, before the first or after the last. */
export function yardStops(board: Board, occupancy: Occupancy, labels: readonly Label[]): readonly Label[] {
  const sources = sourcesOf(board, labels);
  return board.places.flatMap((place, at) =>
    place.kind === 'yard' ? [...entries(board, occupancy, sources, at)] : [],
  );
}

/** Departures lie in opening hours: the first open minute from which each label may drive off. */
function sourcesOf(board: Board, labels: readonly Label[]): readonly Source[] {
  return labels
    .map((label) => ({ label, openMin: next(board.open, label.freeMin) }))
    .filter((s) => s.openMin <= s.label.span.endMin)
    .sort((a, b) => a.label.freeMin - b.label.freeMin);
}

/** For each gap of a place the earliest way in. */
function* entries(
  board: Board,
  occupancy: Occupancy,
  sources: readonly Source[],
  at: number,
): Generator<Label> {
  const place = board.places[at];
  if (!place) return;
  const gaps = occupancy.placeGaps(place.id);
  for (let gap = 0; gap < gaps.length; gap += 1) {
    const span = gaps[gap];
    if (!span) continue;
    const gapOpen = next(board.open, span.startMin);
    const source = earliestInto(sources, at, gap, gapOpen);
    const d = source ? Math.max(source.openMin, gapOpen) : NEVER;
    if (!source || d >= span.endMin) continue;
    const workMin = d + board.moveMin + place.setupMin;
    yield { at, gap, span, enterMin: d, freeMin: d, workMin, from: source.label, piece: null };
  }
}

/** Sources come sorted by the minute they are free, so the first that may still stand there until then is best. */
function earliestInto(
  sources: readonly Source[],
  at: number,
  gap: number,
  gapOpen: number,
): Source | undefined {
  return sources.find(
    (s) => Math.max(s.openMin, gapOpen) <= s.label.span.endMin && !(s.label.at === at && s.label.gap === gap),
  );
}
