import { NEVER, next } from './calendar.ts';
import { afterWork, enteredFrom, type FindersAt, keyOf, type Label, passes } from './labels.ts';
import { type Labour, type LabourFinder, notOverBefore } from './labour.ts';
import type { Board, StageSpec } from './model.ts';
import type { Occupancy } from './occupancy.ts';

/** A gap of a place as somewhere to drive into. */
type Gap = Pick<Label, 'at' | 'gap' | 'span'>;
/** A way from standing in one gap to work in another: null where it is not open to a car that is free then. */
type Way = (from: Label) => Label | null;

export type InTime = {
  readonly board: Board;
  readonly occupancy: Occupancy;
  readonly stage: StageSpec;
  readonly finders: FindersAt;
  /** It begins within so many minutes of the stage before. */
  readonly mostMin: number;
};

/**
 * Labels after a stage that has to follow the one before in time. Here the earliest of one stage is not always the best
 * for the next: where the next cannot begin in time, the one before is put off until it can, and both are as early as
 * that allows. Each pair of gaps and each crew is tried, since putting off makes no other pair better.
 */
export function labelsInTime(ask: InTime, before: readonly Label[]): readonly Label[] {
  const sources = before.toSorted((a, b) => a.freeMin - b.freeMin);
  const yards = gapsOf(ask, (kind) => kind === 'yard');
  const labels = new Map<number, Label>();
  for (const into of gapsOf(ask, (kind) => ask.stage.bayKinds.includes(kind))) {
    const found = soonestInto(ask, sources, yards, into, -NEVER);
    if (found) labels.set(keyOf(into.at, into.gap), found);
  }
  return [...labels.values()];
}

function gapsOf({ board, occupancy }: InTime, wanted: (kind: StageSpec['bayKinds'][number]) => boolean) {
  return board.places.flatMap((place, at) =>
    wanted(place.kind) ? occupancy.placeGaps(place.id).map((span, gap): Gap => ({ at, gap, span })) : [],
  );
}

function soonestInto(
  ask: InTime,
  sources: readonly Label[],
  yards: readonly Gap[],
  into: Gap,
  overMin: number,
): Label | null {
  let best: Label | null = null;
  const later = (min: number): Label | null => soonestInto(ask, sources, yards, into, min);
  for (const source of sources) {
    if (best && source.freeMin >= best.freeMin) break;
    if (into.span.endMin <= source.freeMin || into.span.startMin > source.span.endMin + ask.mostMin) continue;
    for (const way of waysInto(ask, source, yards, into)) {
      const found = followed(ask, source, way, overMin);
      if (!found || (best && best.freeMin <= found.work.dwellEndMin)) continue;
      best = afterWork(found.entered, ask.stage, found.work, later);
    }
  }
  return best;
}

/** By staying, by driving straight over, by way of the yard. */
function waysInto(ask: InTime, source: Label, yards: readonly Gap[], into: Gap): readonly Way[] {
  if (source.at === into.at && source.gap === into.gap) return [(from) => ({ ...from, from })];
  const straight: Way = (from) => driven(ask, from, into);
  const ways = yards
    .filter(
      ({ at, span }) => at !== into.at && span.startMin <= source.span.endMin && span.endMin > source.freeMin,
    )
    .map(
      (yard): Way =>
        (from) => {
          const stop = driven(ask, from, yard);
          return stop && driven(ask, stop, into);
        },
    );
  return [straight, ...ways];
}

/** Driven over as soon as both the shop and the gap are open. */
function driven({ board, occupancy }: InTime, from: Label, into: Gap): Label | null {
  if (from.at === into.at && from.gap === into.gap) return null;
  const d = Math.max(next(board.open, from.freeMin), next(board.open, into.span.startMin));
  if (d > from.span.endMin || d >= into.span.endMin) return null;
  return passes(board, occupancy, from, into, d) ? null : enteredFrom(board, from, into, d);
}

type Found = { readonly entered: Label; readonly work: Labour };

/** The soonest that a crew is through, not before `overMin`, with the stage before put off as far as that needs. */
function followed(ask: InTime, source: Label, way: Way, overMin: number): Found | null {
  let best: Found | null = null;
  const entered = way(source);
  if (!entered) return null;
  for (const find of ask.finders(entered.at)) {
    const found = byCrew(ask, source, way, find, overMin);
    if (found && found.work.endMin < (best?.work.endMin ?? NEVER)) best = found;
  }
  return best;
}

function byCrew(
  { mostMin }: InTime,
  source: Label,
  way: Way,
  find: LabourFinder,
  overMin: number,
): Found | null {
  for (let from: Label | null = source; from; ) {
    const entered: Label | null = way(from);
    const work = entered && notOverBefore(find, entered.workMin, entered.span.endMin, overMin);
    if (!entered || !work) return null;
    if (work.startMin - entered.overMin <= mostMin) return { entered, work };
    from = from.later(work.startMin - mostMin);
  }
  return null;
}
