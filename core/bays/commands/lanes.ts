import type { BayId, PersonId, StageId } from '../../shared/ids.ts';
import type { EpochMin } from '../../shared/units.ts';
import type { BlockView, HandView, LaneView, SpanView } from '../../shared/views/bays.ts';
import type { LiveBoard } from '../../views/liveBoard.ts';
import { type Span, spansOf } from '../rules/calendar.ts';
import { type LaneFacts, laneUse } from '../rules/laneUse.ts';
import type { Place } from '../rules/model.ts';

const min = (t: number): EpochMin => t as EpochMin;
export type Window = { readonly from: number; readonly to: number };
/** What is drawn in a place: the cars that stand there, and the stretches that each person works on them. */
export type DrawnLane = {
  readonly blocks: readonly BlockView[];
  readonly hands: ReadonlyMap<PersonId, readonly HandView[]>;
};

export function clip(spans: readonly Span[], w: Window): readonly SpanView[] {
  return spans
    .filter((s) => s.endMin > w.from && s.startMin < w.to)
    .map((s) => ({ startMin: min(Math.max(s.startMin, w.from)), endMin: min(Math.min(s.endMin, w.to)) }));
}

/** What is drawn on the board, place by place; a stretch of work belongs to the place of the car it is done on. */
export function drawnIn(
  blocks: readonly BlockView[],
  hands: ReadonlyMap<PersonId, readonly HandView[]>,
): (id: BayId) => DrawnLane {
  const byPlace = Map.groupBy(blocks, (b) => b.bayId);
  const placeOf = placesOf(blocks);
  const byPerson = [...hands].map(([id, own]) => [id, Map.groupBy(own, placeOf)] as const);
  return (id) => ({
    blocks: byPlace.get(id) ?? [],
    hands: new Map(byPerson.map(([personId, own]) => [personId, own.get(id) ?? []])),
  });
}

/** The place in which a stretch is worked: where the car stands then, else where that stage is drawn. */
function placesOf(blocks: readonly BlockView[]): (hand: HandView) => BayId | undefined {
  const byStage = new Map<StageId, BlockView[]>();
  for (const block of blocks)
    for (const id of new Set(block.pieces.map((p) => p.stageId)))
      byStage.set(id, [...(byStage.get(id) ?? []), block]);
  return (hand) => {
    const of = byStage.get(hand.stageId) ?? [];
    return (of.find((b) => b.arriveMin <= hand.startMin && hand.startMin < b.leaveMin) ?? of[0])?.bayId;
  };
}

/** A place with its closed stretches and how its open minutes in the window are used. */
export function laneView(live: LiveBoard, place: Place, drawn: DrawnLane, w: Window): LaneView {
  const revision = live.setup.bays.find((b) => b.bayId === place.id)?.revision ?? 1;
  const { id: bayId, name, kind, capacity, setupMin } = place;
  const gone = { startMin: place.endsMin, endMin: Math.max(place.endsMin, w.to) };
  const closed = clip([...place.closed, gone], w);
  const open = clip(spansOf(live.board.open), w);
  const use = laneUse({ ...factsOf(live, drawn), open, closed });
  return { bayId, name, kind, capacity, setupMin, closed, use, revision };
}

/** Cars as they stood and are to stand; of one that has not come only what is still ahead. */
function factsOf(live: LiveBoard, { blocks, hands }: DrawnLane): Omit<LaneFacts, 'open' | 'closed'> {
  const { nowMin } = live.board;
  const ahead = (of: BlockView, from: number): number =>
    of.state === 'booked' ? Math.max(from, nowMin) : from;
  return {
    standing: blocks.map((b) => ({ startMin: ahead(b, b.arriveMin), endMin: b.leaveMin })),
    curing: blocks.flatMap((b) =>
      b.pieces.map((p) => ({ startMin: ahead(b, p.endMin), endMin: p.dwellEndMin })),
    ),
    attended: live.board.technicians.flatMap(({ id, hours }) =>
      (hands.get(id) ?? []).flatMap((h) => atWork(h, spansOf(hours), nowMin)),
    ),
  };
}

/** What was worked was worked whatever the hours are; what is to come is worked within them. */
function atWork(hand: HandView, hours: readonly Span[], nowMin: number): readonly Span[] {
  const past = hand.state === 'done' ? hand.endMin : hand.state === 'inWork' ? nowMin : hand.startMin;
  const from = Math.max(hand.startMin, past);
  const later = hours.map((s) => ({
    startMin: Math.max(s.startMin, from),
    endMin: Math.min(s.endMin, hand.endMin),
  }));
  return [{ startMin: hand.startMin, endMin: Math.min(past, hand.endMin) }, ...later].filter(
    (s) => s.endMin > s.startMin,
  );
}
