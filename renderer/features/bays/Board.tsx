import {
  Fragment,
  type KeyboardEvent,
  memo,
  type ReactNode,
  type RefObject,
  useCallback,
  useMemo,
  useRef,
} from 'react';
import type { BlockView, BoardView, LaneView } from '#core/shared/views/bays.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import type { TimeScale } from '../../ui/time/scale.ts';
import { DayRail, NowLine, TimeLines } from '../../ui/time/Time.tsx';
import css from './bays.module.css';
import type { BoardProps } from './boardProps.ts';
import { isWritten } from './hand.ts';
import { heldKeys } from './heldKeys.ts';
import { Lane } from './Lane.tsx';
import type { HandCalls } from './LaneCars.tsx';
import { clear, NowHead } from './NowHead.tsx';
import { People } from './People.tsx';
import { useBox } from './useBox.ts';
import { useFace } from './useFace.ts';
import { useGrab } from './useGrab.ts';
import type { Hands } from './useHands.ts';
import { usePrinting } from './usePrinting.ts';
import { carsOf, rowsOf, yardHeight } from './yardRows.ts';

/** Bays, yard and people as rows, time from left to right; blocks are moved by pointer or by keys. */
export const Board = memo(function Board(props: BoardProps): ReactNode {
  const { board, scale, ticks, hands, promises, offer, onPause } = props;
  const t = useText();
  const field = useRef<HTMLDivElement>(null);
  const whole = useRef<HTMLElement>(null);
  const printing = usePrinting();
  const seen = { width: useBox(field).width, height: useBox(whole).height };
  const { width, height } = printing ? PAPER : seen;
  const carHeight = useMemo(() => carHeightFor(board, height), [board, height]);
  const secondPage = useMemo(() => secondPageOf(board), [board]);
  const calls = useHandCalls(field, scale, hands);
  return (
    <section ref={whole} className={css['board']} aria-label={t('ui.place.bays')}>
      <div className={css['headSide']} />
      <Head {...{ scale, ticks, width }} nowMin={board.nowMin} />
      <div className={css['field']} ref={field}>
        <Lines {...{ scale, ticks, width }} nowMin={board.nowMin} />
      </div>
      {board.lanes.map((lane) => (
        <Fragment key={lane.bayId}>
          {printing && lane === secondPage ? (
            <>
              <div className={`${css['headSide']} ${css['nextPage']}`} />
              <Head {...{ scale, ticks, width }} nowMin={board.nowMin} />
            </>
          ) : null}
          <Lane {...{ board, scale, lane, width, carHeight, promises, offer, hands, onPause }} {...calls} />
        </Fragment>
      ))}
      <People {...{ board, scale, hands, onPause }} px={width} />
    </section>
  );
});

/** What does not change while a car is held over it is drawn once: each step of a drag draws the held car alone. */
type TimeProps = Pick<BoardProps, 'scale' | 'ticks'> & { readonly nowMin: number; readonly width: number };

const Head = memo(function Head({ scale, ticks, nowMin, width }: TimeProps): ReactNode {
  useFace();
  const manner = useManner();
  return <DayRail scale={scale} ticks={clear(manner, ticks, scale, nowMin, width)} align="start" />;
});

const Lines = memo(function Lines({ scale, ticks, nowMin, width }: TimeProps): ReactNode {
  useFace();
  return (
    <>
      <TimeLines scale={scale} ticks={ticks} />
      <NowLine scale={scale} at={nowMin} />
      <NowHead scale={scale} ticks={ticks} nowMin={nowMin} width={width} />
    </>
  );
});

/** What a hand on a car calls: the same functions at each step of a drag, so that no car is drawn again for them. */
function useHandCalls(field: RefObject<HTMLDivElement | null>, scale: TimeScale, hands: Hands): HandCalls {
  const onGrab = useGrab(field, scale, hands);
  const onLift = useCallback(
    (block: BlockView): void => {
      const hand = hands.get();
      if (!hand.lifted || isWritten(hand)) hands.lift(block);
    },
    [hands],
  );
  const onKey = useCallback((event: KeyboardEvent): void => heldKeys(event, hands), [hands]);
  return { onGrab, onLift, onKey };
}

/** What the field has on a landscape page of A4 or Letter, px at 96 to the inch. */
const PAPER = { width: 840, height: 590 } as const;

/** Where a board that is too high for one page goes on, under the days written again: at the yard. */
function secondPageOf(board: BoardView): LaneView | null {
  const bays = board.lanes.filter((l) => l.capacity === 1).length * (carHeightFor(board, PAPER.height) + 9);
  const yards = board.lanes.filter((l) => l.capacity > 1);
  const others = yards.reduce((sum, yard) => sum + yardHeight(rowsOf(carsOf(board, yard))) + 1, 0);
  const whole = RAIL_PX + bays + others + board.people.length * PERSON_PX;
  return whole > PAPER.height + 60 ? (yards[0] ?? null) : null;
}

/** As high as lets every bay, the yard and the people be seen at once, within what can be read. */
function carHeightFor(board: BoardView, height: number): number {
  const bays = board.lanes.filter((l) => l.capacity === 1).length;
  const yards = board.lanes
    .filter((l) => l.capacity > 1)
    .reduce((sum, yard) => sum + yardHeight(rowsOf(carsOf(board, yard))) + 1, 0);
  const free = height - RAIL_PX - yards - board.people.length * PERSON_PX;
  return Math.max(34, Math.min(104, Math.floor(free / Math.max(1, bays)) - 9));
}
const RAIL_PX = 28;
const PERSON_PX = 29;
