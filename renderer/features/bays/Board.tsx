import { type KeyboardEvent, type PointerEvent, type ReactNode, useRef } from 'react';
import type { BayId } from '#core/shared/ids.ts';
import { clock } from '#core/shared/text/when.ts';
import type { BlockView } from '#core/shared/views/bays.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import type { TimeScale } from '../../ui/time/scale.ts';
import { DayRail, NowLine, TimeLines } from '../../ui/time/Time.tsx';
import css from './bays.module.css';
import type { BoardProps } from './boardProps.ts';
import { Lane } from './Lane.tsx';
import { People } from './People.tsx';
import { type Moves, QUARTER } from './useMoves.ts';

/** Bays, yard and people as rows, time from left to right; blocks are moved by pointer or by keys. */
export function Board(props: BoardProps): ReactNode {
  const { board, scale, ticks, moves } = props;
  const t = useText();
  const manner = useManner();
  const field = useRef<HTMLDivElement>(null);
  const grab = useGrab(field, scale, moves);
  const keys = () => (event: KeyboardEvent) => liftKeys(event, moves);
  return (
    <section className={css['board']} aria-label={t('ui.place.bays')} data-lifting={moves.lifted !== null}>
      <div className={css['headSide']} />
      <DayRail scale={scale} ticks={ticks} align="start" />
      <div className={css['field']} ref={field}>
        <TimeLines scale={scale} ticks={ticks} />
        <NowLine scale={scale} at={board.nowMin} label={clock(manner, board.nowMin * 60_000)} />
      </div>
      {board.lanes.map((lane) => (
        <Lane key={lane.bayId} {...props} lane={lane} onGrab={grab} onKey={keys} />
      ))}
      <People board={board} scale={scale} />
    </section>
  );
}

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
      const lane = document
        .elementsFromPoint(e.clientX, e.clientY)
        .find((el) => el instanceof HTMLElement && el.dataset['bay']);
      const bayId = (lane instanceof HTMLElement ? lane.dataset['bay'] : undefined) ?? block.bayId;
      const quarters = Math.round((timeAt(e.clientX) - grabbedAt) / QUARTER);
      now.current.hold(bayId as BayId, first.startMin + quarters * QUARTER);
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
