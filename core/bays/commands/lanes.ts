import type { PersonId } from '../../shared/ids.ts';
import type { EpochMin } from '../../shared/units.ts';
import type { BlockView, HandView, LaneView, SpanView } from '../../shared/views/bays.ts';
import type { LiveBoard } from '../../views/liveBoard.ts';
import { type Span, spansOf } from '../rules/calendar.ts';
import { type LaneFacts, laneUse } from '../rules/laneUse.ts';
import type { Place } from '../rules/model.ts';

const min = (t: number): EpochMin => t as EpochMin;
export type Window = { readonly from: number; readonly to: number };
/** What is drawn in the window: cars in their places, and who works when. */
export type DrawnBoard = {
  readonly blocks: readonly BlockView[];
  readonly hands: ReadonlyMap<PersonId, readonly HandView[]>;
};

export function clip(spans: readonly Span[], w: Window): readonly SpanView[] {
  return spans
    .filter((s) => s.endMin > w.from && s.startMin < w.to)
    .map((s) => ({ startMin: min(Math.max(s.startMin, w.from)), endMin: min(Math.min(s.endMin, w.to)) }));
}

/** A place with its closed stretches and how its open minutes in the window are used. */
export function laneView(live: LiveBoard, place: Place, drawn: DrawnBoard, w: Window): LaneView {
  const revision = live.setup.bays.find((b) => b.bayId === place.id)?.revision ?? 1;
  const { id: bayId, name, kind, capacity, setupMin } = place;
  const gone = { startMin: place.endsMin, endMin: Math.max(place.endsMin, w.to) };
  const closed = clip([...place.closed, gone], w);
  const open = clip(spansOf(live.board.open), w);
  const use = laneUse({ ...factsOf(live, place, drawn), open, closed });
  return { bayId, name, kind, capacity, setupMin, closed, use, revision };
}

/** Cars as they stood and are to stand; of one that has not come only what is still ahead. */
function factsOf(
  live: LiveBoard,
  place: Place,
  { blocks, hands }: DrawnBoard,
): Omit<LaneFacts, 'open' | 'closed'> {
  const { nowMin } = live.board;
  const here = blocks.filter((b) => b.bayId === place.id);
  const ahead = (of: BlockView, from: number): number =>
    of.state === 'booked' ? Math.max(from, nowMin) : from;
  return {
    standing: here.map((b) => ({ startMin: ahead(b, b.arriveMin), endMin: b.leaveMin })),
    curing: here.flatMap((b) =>
      b.pieces.map((p) => ({ startMin: ahead(b, p.endMin), endMin: p.dwellEndMin })),
    ),
    attended: live.board.technicians.flatMap(({ id, hours }) =>
      (hands.get(id) ?? [])
        .filter((h) => here.some((b) => b === placeOf(blocks, h)))
        .flatMap((h) => atWork(h, spansOf(hours), nowMin)),
    ),
  };
}

/** The car in its place on which a stretch is worked: where it stands then, else where that stage is drawn. */
function placeOf(blocks: readonly BlockView[], hand: HandView): BlockView | undefined {
  const of = blocks.filter((b) => b.pieces.some((p) => p.stageId === hand.stageId));
  return of.find((b) => b.arriveMin <= hand.startMin && hand.startMin < b.leaveMin) ?? of[0];
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
