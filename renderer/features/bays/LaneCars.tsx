import { type KeyboardEvent, memo, type ReactNode } from 'react';
import type { BlockView, BoardView, LaneView } from '#core/shared/views/bays.ts';
import { useText } from '../../bridge/texts.tsx';
import type { TimeScale } from '../../ui/time/scale.ts';
import { Block } from '../../ui/time/Time.tsx';
import { Car, type CarProps } from './Car.tsx';
import { readableUntil } from './fit.ts';
import { laneRows } from './laneRows.ts';
import { useFace } from './useFace.ts';
import type { Grab } from './useGrab.ts';
import { carsOf, rowsOf, YARD_PX } from './yardRows.ts';

/** What a hand on a car calls; the same functions as long as the board is shown. */
export type HandCalls = {
  readonly onLift: (block: BlockView) => void;
  readonly onKey: (event: KeyboardEvent) => void;
  readonly onGrab: Grab;
};
type LaneCarsProps = HandCalls & {
  readonly board: BoardView;
  readonly lane: LaneView;
  readonly scale: TimeScale;
  readonly width: number;
  readonly height: number;
  readonly laneHeight: number;
  /** The car of this lane that is in hand. */
  readonly lifted: BlockView | null;
};

/** The closed stretches and the cars of a lane. They stay as they are drawn while a car is held over them. */
export const LaneCars = memo(function LaneCars(props: LaneCarsProps): ReactNode {
  const { board, lane, scale, lifted } = props;
  useFace();
  const t = useText();
  const yard = lane.capacity > 1;
  const blocks = carsOf(board, lane);
  const rows = yard ? rowsOf(blocks) : [];
  const drawn = placesIn(props, blocks);
  const lit = new Set(board.conflicts.filter((c) => !c.acknowledged).map((c) => c.jobId));
  return (
    <>
      {lane.closed.map((c) => (
        <Block
          key={c.startMin}
          scale={scale}
          from={c.startMin}
          to={c.endMin}
          form="away"
          height={props.laneHeight}
        >
          {t('bays.closed')}
        </Block>
      ))}
      {blocks.map((block, i) => (
        <Car
          key={`${block.jobId}/${timesBefore(blocks, i)}`}
          scale={scale}
          block={block}
          px={props.width}
          clearMin={block.leaveMin}
          nowMin={board.nowMin}
          top={4 + (rows[i] ?? 0) * YARD_PX}
          height={props.height}
          {...drawn[i]}
          lit={lit.has(block.jobId)}
          lifted={lifted?.jobId === block.jobId && lifted.arriveMin === block.arriveMin}
          onLift={() => props.onLift(block)}
          onKey={props.onKey}
          onGrab={props.onGrab(block)}
        />
      ))}
    </>
  );
});

type Drawn = Pick<CarProps, 'top' | 'height' | 'clearMin'>;

/** Where cars are drawn in a lane of one place, and until when each can be read; in a yard they have rows anyway. */
function placesIn(props: LaneCarsProps, blocks: readonly BlockView[]): readonly Drawn[] {
  const { board, lane, height } = props;
  if (lane.capacity > 1) return [];
  const places = laneRows(blocks, board.nowMin);
  return blocks.map((block, i): Drawn => {
    const { row, rows } = places[i] ?? { row: 0, rows: 1 };
    const share = height / rows;
    // What may lie over it: the cars of its own row, and those that have the whole lane.
    const over = blocks.filter((_, j) => j === i || places[j]?.row === row || places[j]?.rows === 1);
    const clear = readableUntil(over.map((b) => [b.arriveMin, b.leaveMin]));
    const clearMin = clear[over.indexOf(block)] ?? block.leaveMin;
    return { top: 4 + Math.round(row * share), height: Math.round(share) - (rows > 1 ? 1 : 0), clearMin };
  });
}

/** How often a car stands here before: moved along its lane it stays the same, and keeps the focus. */
function timesBefore(blocks: readonly BlockView[], at: number): number {
  return blocks.slice(0, at).filter((b) => b.jobId === blocks[at]?.jobId).length;
}
