import { memo, type ReactNode, useMemo } from 'react';
import type { LaneView } from '#core/shared/views/bays.ts';
import { useText } from '../../bridge/texts.tsx';
import css from './bays.module.css';
import type { BoardProps, Room } from './boardProps.ts';
import { Flags } from './Flags.tsx';
import { HeldGhosts, OfferGhosts } from './Ghosts.tsx';
import { useHeld } from './hand.ts';
import { type HandCalls, LaneCars } from './LaneCars.tsx';
import { carsOf, rowsOf, YARD_PX, yardHeight } from './yardRows.ts';

type LaneProps = Omit<BoardProps, 'ticks'> &
  Room &
  HandCalls & {
    readonly lane: LaneView;
  };

/** One bay, or the yard with its cars one above the other. */
export const Lane = memo(function Lane(props: LaneProps): ReactNode {
  const { board, lane, hands, scale, width, onLift, onKey, onGrab } = props;
  const yard = lane.capacity > 1;
  const rows = useMemo(() => (yard ? rowsOf(carsOf(board, lane)) : []), [board, lane, yard]);
  const height = yard ? YARD_PX - 2 : props.carHeight;
  const low = yard || height < LOW_PX;
  const laneHeight = yard ? yardHeight(rows) : height + 8;
  const isHeld = useHeld(hands, ({ lifted }) => lifted?.bayId === lane.bayId);
  const from = useHeld(hands, ({ lifted }) => (lifted?.from.bayId === lane.bayId ? lifted.from : null));
  return (
    <>
      <LaneHead {...props} low={low} line={laneHeight < LOW_PX} />
      <div
        className={css['lane']}
        data-bay={lane.bayId}
        data-compact={low}
        data-held={isHeld}
        style={{ height: laneHeight }}
      >
        <LaneCars
          {...{ board, lane, scale, width, height, laneHeight, onLift, onKey, onGrab }}
          lifted={from}
        />
        <Flags {...{ board, lane, scale, width }} promises={props.promises} bare={low} />
        <OfferGhosts {...props} height={height} />
        <HeldGhosts {...{ lane, scale, hands, height, onGrab }} />
      </div>
    </>
  );
});
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
