import type { KeyboardEvent, ReactNode } from 'react';
import type { BlockView, LaneView } from '#core/shared/views/bays.ts';
import { useText } from '../../bridge/texts.tsx';
import { Block } from '../../ui/time/Time.tsx';
import css from './bays.module.css';
import type { BoardProps, Room } from './boardProps.ts';
import { Car } from './Car.tsx';
import { Flags } from './Flags.tsx';
import { readableUntil } from './fit.ts';
import { HeldGhosts, OfferGhosts } from './Ghosts.tsx';
import type { Grab } from './useGrab.ts';
import { carsOf, rowsOf, YARD_PX, yardHeight } from './yardRows.ts';

type LaneProps = BoardProps &
  Room & {
    readonly lane: LaneView;
    readonly onGrab: Grab;
    readonly onKey: (event: KeyboardEvent) => void;
  };

/** One bay, or the yard with its cars one above the other. */
export function Lane(props: LaneProps): ReactNode {
  const { lane, moves, scale } = props;
  const t = useText();
  const yard = lane.capacity > 1;
  const blocks = carsOf(props.board, lane);
  const rows = yard ? rowsOf(blocks) : blocks.map(() => 0);
  const clear = readableUntil(blocks.map((b) => [b.arriveMin, b.leaveMin]));
  const height = yard ? YARD_PX - 2 : props.carHeight;
  const low = yard || height < LOW_PX;
  const laneHeight = yard ? yardHeight(rows) : height + 8;
  return (
    <>
      <LaneHead {...props} low={low} line={laneHeight < LOW_PX} />
      <div
        className={css['lane']}
        data-bay={lane.bayId}
        data-compact={low}
        data-held={moves.lifted?.bayId === lane.bayId}
        style={{ height: laneHeight }}
      >
        {lane.closed.map((c) => (
          <Block
            key={c.startMin}
            scale={scale}
            from={c.startMin}
            to={c.endMin}
            form="away"
            height={laneHeight}
          >
            {t('bays.closed')}
          </Block>
        ))}
        {blocks.map((block, i) => (
          <LaneCar
            key={`${block.jobId}/${block.arriveMin}`}
            {...props}
            block={block}
            clearMin={yard ? block.leaveMin : (clear[i] ?? block.leaveMin)}
            top={4 + (rows[i] ?? 0) * YARD_PX}
            height={height}
          />
        ))}
        <Flags {...props} bare={low} />
        <OfferGhosts {...props} height={height} />
        <HeldGhosts {...props} height={height} />
      </div>
    </>
  );
}
/** Below this height a lane has room for one line only. */
const LOW_PX = 60;

/** What the lane is, how much of it is taken, and the way to close it. */
function LaneHead(props: LaneProps & { readonly low: boolean; readonly line: boolean }): ReactNode {
  const { lane } = props;
  const t = useText();
  const { openMin, idleMin } = lane.use;
  const taken = openMin === 0 ? 0 : Math.round((1 - idleMin / openMin) * 100);
  return (
    <div className={css['side']} data-low={props.line}>
      <button
        type="button"
        className={css['sideName']}
        title={t('bays.pause.bay', { name: lane.name })}
        onClick={() => props.onPause({ bayId: lane.bayId, name: lane.name })}
      >
        {lane.name}
      </button>
      {props.low ? null : <span>{t(`word.bay.${lane.kind}`)}</span>}
      <span className="num" title={t('bays.takenNote')}>
        {t(props.low ? 'bays.share' : 'bays.taken', { percent: taken })}
      </span>
    </div>
  );
}

function LaneCar(
  props: LaneProps & {
    readonly block: BlockView;
    readonly clearMin: number;
    readonly top: number;
    readonly height: number;
  },
): ReactNode {
  const { board, block, moves, scale, top, height } = props;
  const from = moves.lifted?.from;
  return (
    <Car
      scale={scale}
      block={block}
      px={props.width}
      clearMin={props.clearMin}
      nowMin={board.nowMin}
      top={top}
      height={height}
      lit={board.conflicts.some((c) => c.jobId === block.jobId && !c.acknowledged)}
      lifted={from?.jobId === block.jobId && from.arriveMin === block.arriveMin}
      onLift={() => (moves.lifted ? undefined : moves.lift(block))}
      onKey={props.onKey}
      onGrab={props.onGrab(block)}
    />
  );
}
