import { type KeyboardEvent, memo, type ReactNode } from 'react';
import type { BlockView, BoardView, LaneView } from '#core/shared/views/bays.ts';
import { useText } from '../../bridge/texts.tsx';
import type { TimeScale } from '../../ui/time/scale.ts';
import { Block } from '../../ui/time/Time.tsx';
import { Car } from './Car.tsx';
import { readableUntil } from './fit.ts';
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
  const clear = readableUntil(blocks.map((b) => [b.arriveMin, b.leaveMin]));
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
          clearMin={yard ? block.leaveMin : (clear[i] ?? block.leaveMin)}
          nowMin={board.nowMin}
          top={4 + (rows[i] ?? 0) * YARD_PX}
          height={props.height}
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

/** How often a car stands here before: moved along its lane it stays the same, and keeps the focus. */
function timesBefore(blocks: readonly BlockView[], at: number): number {
  return blocks.slice(0, at).filter((b) => b.jobId === blocks[at]?.jobId).length;
}
