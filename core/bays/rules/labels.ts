import { next, type Span } from './calendar.ts';
import { type Labour, type LabourFinder, soonest, soonestOver } from './labour.ts';
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
  /** When the stage before is over; −NEVER before any. The next may not begin before `leastMin`, wherever it is done. */
  readonly overMin: number;
  readonly leastMin: number;
  readonly from: Label | null;
  /** Work done in this step; null for an arrival or a stop in the yard. */
  readonly piece: Omit<Piece, 'bayId'> | null;
  /** The same car in the same gap with the same stage over at or after a minute, as soon as that can be. */
  readonly later: (overMin: number) => Label | null;
};

/** The same car, the same stay: staying in a gap is no move. */
export function sameStay(a: Label, b: Label): boolean {
  return a.at === b.at && a.gap === b.gap;
}

/** Places of a stage with who may do it there: one finder for each crew. */
export type FindersAt = (at: number) => readonly LabourFinder[];

type Source = { readonly label: Label; readonly openMin: number };

/** Labels after a stage: by staying where the stage allows it, or by moving to every eligible gap. */
export function labelsOfStage(
  board: Board,
  occupancy: Occupancy,
  labels: readonly Label[],
  stage: StageSpec,
  finders: FindersAt,
): readonly Label[] {
  const best = new Map<number, { readonly entered: Label; readonly work: Labour }>();
  const keep = (entered: Label): void => {
    const key = keyOf(entered.at, entered.gap);
    const known = best.get(key);
    const work = soonest(finders(entered.at), entered.workMin, entered.span.endMin);
    if (!work || (known && known.work.dwellEndMin < work.dwellEndMin)) return;
    // Who may be late with the stage has to be able to begin it early.
    const same = known && known.work.dwellEndMin === work.dwellEndMin;
    if (same && (stage.mostGapMin === null || known.entered.workMin <= entered.workMin)) return;
    best.set(key, { entered, work });
  };
  for (const label of labels) {
    const kind = board.places[label.at]?.kind;
    if (kind && stage.bayKinds.includes(kind)) keep({ ...label, from: label });
  }
  const sources = sourcesOf(board, labels);
  board.places.forEach((place, at) => {
    if (stage.bayKinds.includes(place.kind)) for (const e of entries(board, occupancy, sources, at)) keep(e);
  });
  return [...best.values()].map(({ entered, work }) => worked(entered, stage, finders(entered.at), work));
}

export function keyOf(at: number, gap: number): number {
  return at * 65_536 + gap;
}

/** The label of a car that entered a gap and was worked on there. */
function worked(entered: Label, stage: StageSpec, finders: readonly LabourFinder[], work: Labour): Label {
  return afterWork(entered, stage, work, (overMin) => {
    const after = soonestOver(finders, entered.workMin, entered.span.endMin, overMin);
    return after && worked(entered, stage, finders, after);
  });
}

export function afterWork(entered: Label, stage: StageSpec, work: Labour, later: Label['later']): Label {
  const overMin = work.dwellEndMin;
  const leastMin = overMin + stage.leastGapMin;
  const piece = { stageId: stage.id, ...work };
  return { ...entered, freeMin: overMin, workMin: leastMin, overMin, leastMin, piece, later };
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

/** For each gap of a place the way in from which it can be worked on first. */
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
    let best: Label | null = null;
    // Sources come sorted by the minute they are free: none that follows can arrive sooner.
    for (const { label, openMin } of sources) {
      const d = Math.max(openMin, gapOpen);
      if (d >= span.endMin || (best && d + board.moveMin + place.setupMin >= best.workMin)) break;
      if (d > label.span.endMin || (label.at === at && label.gap === gap)) continue;
      if (passes(board, occupancy, label, { at, span }, d)) continue;
      const way = enteredFrom(board, label, { at, gap, span }, d);
      if (!best || way.workMin < best.workMin) best = way;
    }
    if (best) yield best;
  }
}

/** Whether a car that leaves its gap at the end of it, for one that begins then, would have to change places with others. */
export function passes(
  board: Board,
  occupancy: Occupancy,
  from: Label,
  into: Pick<Label, 'at' | 'span'>,
  d: number,
): boolean {
  if (d !== from.span.endMin || d !== into.span.startMin) return false;
  const [here, there] = [board.places[from.at], board.places[into.at]];
  return here !== undefined && there !== undefined && occupancy.wouldPass(here.id, there.id, d);
}

/** The car of a label driven into a gap at a minute. */
export function enteredFrom(
  board: Board,
  from: Label,
  into: Pick<Label, 'at' | 'gap' | 'span'>,
  d: number,
): Label {
  const settled = d + board.moveMin + (board.places[into.at]?.setupMin ?? 0);
  const workMin = Math.max(settled, from.leastMin);
  const { overMin, leastMin, later } = from;
  return { ...into, enterMin: d, freeMin: d, workMin, overMin, leastMin, from, piece: null, later };
}
