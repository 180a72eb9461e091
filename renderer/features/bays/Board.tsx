import { type KeyboardEvent, type PointerEvent, type ReactNode, useRef } from 'react';
import type { BayId, PersonId } from '#core/shared/ids.ts';
import { clock } from '#core/shared/text/when.ts';
import type { BlockView, BoardView } from '#core/shared/views/bays.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import type { TimeScale } from '../../ui/time/scale.ts';
import { DayRail, NowLine, type Tick, TimeLines } from '../../ui/time/Time.tsx';
import css from './bays.module.css';
import type { BoardProps } from './boardProps.ts';
import { textWidth } from './fit.ts';
import { Lane } from './Lane.tsx';
import { People } from './People.tsx';
import { useBox } from './useBox.ts';
import { type Moves, QUARTER } from './useMoves.ts';

/** Bays, yard and people as rows, time from left to right; blocks are moved by pointer or by keys. */
export function Board(props: BoardProps): ReactNode {
  const { board, scale, ticks, moves } = props;
  const t = useText();
  const field = useRef<HTMLDivElement>(null);
  const whole = useRef<HTMLElement>(null);
  const { width } = useBox(field);
  const { height } = useBox(whole);
  const carHeight = carHeightFor(board, height);
  const grab = useGrab(field, scale, moves);
  const keys = () => (event: KeyboardEvent) => liftKeys(event, moves);
  return (
    <section
      ref={whole}
      className={css['board']}
      aria-label={t('ui.place.bays')}
      data-lifting={moves.lifted !== null}
    >
      <div className={css['headSide']} />
      <DayRail scale={scale} ticks={clear(ticks, scale, board.nowMin, width)} align="start" />
      <div className={css['field']} ref={field}>
        <TimeLines scale={scale} ticks={ticks} />
        <NowLine scale={scale} at={board.nowMin} />
        <NowHead scale={scale} ticks={ticks} nowMin={board.nowMin} width={width} />
      </div>
      {board.lanes.map((lane) => (
        <Lane
          key={lane.bayId}
          {...props}
          lane={lane}
          width={width}
          carHeight={carHeight}
          onGrab={grab}
          onKey={keys}
        />
      ))}
      <People board={board} scale={scale} px={width} held={moves.lifted} />
    </section>
  );
}

function inside(scale: TimeScale, t: number): boolean {
  return scale.from <= t && t <= scale.to;
}

/** Day labels that neither the clock of the now-line nor the right edge would cut. */
function clear(ticks: readonly Tick[], scale: TimeScale, nowMin: number, width: number): readonly Tick[] {
  if (width === 0) return ticks;
  const now = inside(scale, nowMin) ? scale.at(nowMin) * width : -1000;
  return ticks.filter((tick) => {
    const left = scale.at(tick.at) * width;
    const right = left + textWidth(tick.label, 13, tick.strong ?? false);
    return right <= width && (right < now - 4 || left > now + CLOCK_PX);
  });
}
const CLOCK_PX = 52;

/** The clock stands right of the now-line; today's name left of it, where it had no room at its own place. */
function NowHead(props: {
  readonly scale: TimeScale;
  readonly ticks: readonly Tick[];
  readonly nowMin: number;
  readonly width: number;
}): ReactNode {
  const manner = useManner();
  const { scale, nowMin, width } = props;
  if (!inside(scale, nowMin)) return null;
  const now = scale.at(nowMin) * width;
  const today = props.ticks.find((tick) => tick.strong);
  const left = today ? scale.at(today.at) * width : 0;
  const wide = today ? textWidth(today.label, 13, true) : 0;
  const moved = today && left + wide >= now - 4 && left <= now + CLOCK_PX;
  return (
    <>
      {moved && now - wide - 6 > 0 ? (
        <b className={css['nowClock']} style={{ left: now - wide - 6 }}>
          {today.label}
        </b>
      ) : null}
      <b className={css['nowClock']} style={{ left: now + 4 }}>
        {clock(manner, nowMin * 60_000)}
      </b>
    </>
  );
}

/** As high as lets every bay, the yard and the people be seen at once, within what can be read. */
function carHeightFor(board: BoardView, height: number): number {
  const bays = board.lanes.filter((l) => l.capacity === 1).length;
  const yards = (board.lanes.length - bays) * 80;
  const free = height - RAIL_PX - yards - board.people.length * PERSON_PX;
  return Math.max(34, Math.min(104, Math.floor(free / Math.max(1, bays)) - 9));
}
const RAIL_PX = 28;
const PERSON_PX = 29;

function liftKeys(event: KeyboardEvent, moves: Moves): void {
  if (!moves.lifted) return;
  const steps: Readonly<Record<string, readonly [number, number]>> = {
    ArrowLeft: [-1, 0],
    ArrowRight: [1, 0],
    ArrowUp: [0, -1],
    ArrowDown: [0, 1],
  };
  const step = steps[event.key];
  if (step) moves.step(step[0] * (event.shiftKey ? 4 : 1), step[1]);
  else if (event.key === 'Enter') void moves.drop();
  else if (event.key === 'Escape') moves.putBack();
  else return;
  event.preventDefault();
  event.stopPropagation();
}

/** Dragging: the block is lifted after a few pixels, held in the lane under the pointer, dropped on release. */
function useGrab(
  field: React.RefObject<HTMLDivElement | null>,
  scale: TimeScale,
  moves: Moves,
): (block: BlockView) => (event: PointerEvent<HTMLButtonElement>) => void {
  const now = useRef(moves);
  now.current = moves;
  return (block) => (down) => {
    if (down.button !== 0) return;
    const box = field.current?.getBoundingClientRect();
    const first = block.pieces.find((p) => p.state === 'planned');
    if (!box || !first) return;
    const timeAt = (x: number): number => scale.back((x - box.left) / box.width);
    const grabbedAt = timeAt(down.clientX);
    let lifted = false;
    const onMove = (e: globalThis.PointerEvent): void => {
      if (!lifted && Math.hypot(e.clientX - down.clientX, e.clientY - down.clientY) < 5) return;
      if (!lifted) now.current.lift(block);
      lifted = true;
      const row = rowUnder(e.clientX, e.clientY);
      const bayId = row?.dataset['bay'] ?? block.bayId;
      const quarters = Math.round((timeAt(e.clientX) - grabbedAt) / QUARTER);
      const personId = (row?.dataset['who'] ?? null) as PersonId | null;
      now.current.hold(bayId as BayId, first.startMin + quarters * QUARTER, personId);
    };
    const onUp = (): void => {
      window.removeEventListener('pointermove', onMove);
      window.removeEventListener('pointerup', onUp);
      if (!lifted) return;
      // The click that follows a drag must not lift the block again.
      const swallow = (e: MouseEvent): void => e.stopPropagation();
      window.addEventListener('click', swallow, { capture: true });
      setTimeout(() => window.removeEventListener('click', swallow, { capture: true }), 0);
      void now.current.drop();
    };
    window.addEventListener('pointermove', onMove);
    window.addEventListener('pointerup', onUp);
  };
}

/** The row of a bay or of a person under the pointer. */
function rowUnder(x: number, y: number): HTMLElement | null {
  const found = document
    .elementsFromPoint(x, y)
    .find((el) => el instanceof HTMLElement && (el.dataset['bay'] ?? el.dataset['who']));
  return found instanceof HTMLElement ? found : null;
}
