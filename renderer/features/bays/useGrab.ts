import { type PointerEvent, type RefObject, useCallback } from 'react';
import type { BayId, PersonId } from '#core/shared/ids.ts';
import type { BlockView } from '#core/shared/views/bays.ts';
import type { TimeScale } from '../../ui/time/scale.ts';
import { holds } from './hand.ts';
import { type Held, pieceAt, QUARTER, quarterOf } from './held.ts';
import type { Hands } from './useHands.ts';

export type Grab = (block: BlockView) => (event: PointerEvent<HTMLElement>) => void;
/** How far the pointer goes before a press becomes a drag, px. */
const SLACK_PX = 5;

/**
 * Dragging: a block is lifted after a few pixels, held in the row under the pointer and dropped on release; by its
 * right edge the end of its work is drawn. A block that is held to be split is cut where it is pressed.
 */
export function useGrab(field: RefObject<HTMLDivElement | null>, scale: TimeScale, hands: Hands): Grab {
  return useCallback(
    (block) => (down) => grab(field.current, scale, hands, block, down),
    [field, scale, hands],
  );
}

function grab(
  field: HTMLDivElement | null,
  scale: TimeScale,
  hands: Hands,
  block: BlockView,
  down: PointerEvent<HTMLElement>,
): void {
  const box = field?.getBoundingClientRect();
  const first = block.pieces.find((p) => p.state === 'planned');
  if (down.button !== 0 || !field || !box || !first) return;
  const rowAt = rowsBeside(field);
  const timeAt = (x: number): number => scale.back((x - box.left) / box.width);
  const by = down.target instanceof HTMLElement && down.target.dataset['edge'] ? 'edge' : 'block';
  const held = own(hands, block);
  const cutting = held?.mode === 'split';
  // A whole job that is in hand is carried on as that; by its outline, from where it is held.
  const carried = by === 'block' && held?.mode === 'whole';
  const fromMin = held && down.currentTarget.dataset['ghost'] ? held.startMin : first.startMin;
  const grabbedAt = timeAt(down.clientX);
  const follow = (e: globalThis.PointerEvent): void => {
    if (!holds(hands.get(), block.jobId)) return;
    const t = timeAt(e.clientX);
    const row = rowAt(e.clientX, e.clientY);
    const personId = (row?.dataset['who'] ?? null) as PersonId | null;
    if (cutting) hands.mark(quarterOf(t), pieceAt(block, t), personId ?? undefined);
    else if (by === 'edge') hands.mark(quarterOf(t));
    else {
      const quarters = Math.round((t - grabbedAt) / QUARTER);
      const bayId = (row?.dataset['bay'] ?? block.bayId) as BayId;
      hands.hold(bayId, fromMin + quarters * QUARTER, personId);
    }
  };
  drag(down, {
    start: () => (cutting || carried ? undefined : hands.lift(block, by === 'edge' ? 'resize' : 'block')),
    follow,
    press: () => (cutting ? follow(down.nativeEvent) : undefined),
    end: () => (cutting || !holds(hands.get(), block.jobId) ? undefined : hands.drop()),
  });
}

/** What is in hand of a block's car and not on its way into the file. */
function own(hands: Hands, block: BlockView): Held | null {
  const { lifted, dropped } = hands.get();
  return dropped === null && lifted?.from.jobId === block.jobId ? lifted : null;
}

/** Follows the pointer from a press to its release; without moving it stays a press. */
function drag(
  down: PointerEvent<HTMLElement>,
  to: {
    readonly start: () => void;
    readonly follow: (e: globalThis.PointerEvent) => void;
    readonly press: () => void;
    readonly end: () => void;
  },
): void {
  const car = down.currentTarget;
  let moved = false;
  const onMove = (e: globalThis.PointerEvent): void => {
    if (!moved && Math.hypot(e.clientX - down.clientX, e.clientY - down.clientY) < SLACK_PX) return;
    if (!moved) {
      // What it passes is not told that it does.
      car.setPointerCapture(down.pointerId);
      to.start();
    }
    moved = true;
    to.follow(e);
  };
  const onUp = (e: globalThis.PointerEvent): void => {
    window.removeEventListener('pointermove', onMove);
    window.removeEventListener('pointerup', onUp);
    if (!moved) {
      to.press();
      return;
    }
    // The click that follows a drag must not lift the block again.
    const swallow = (e: MouseEvent): void => e.stopPropagation();
    window.addEventListener('click', swallow, { capture: true });
    setTimeout(() => window.removeEventListener('click', swallow, { capture: true }), 0);
    to.follow(e);
    to.end();
  };
  window.addEventListener('pointermove', onMove);
  window.addEventListener('pointerup', onUp);
}

/** Which row of a bay or of somebody lies under a point. */
type RowAt = (x: number, y: number) => HTMLElement | undefined;

/**
 * The rows beside a field, measured when a drag begins and again where they were scrolled: measured at each step they would
 * have the page laid out twice in it, and asking the page what lies there would try every car on the board.
 */
function rowsBeside(field: HTMLElement): RowAt {
  const board = field.parentElement;
  const rows = [...(board?.querySelectorAll<HTMLElement>('[data-bay],[data-who]') ?? [])];
  const measured = () => rows.map((row) => ({ row, box: row.getBoundingClientRect() }));
  let [boxes, scrolled] = [measured(), board?.scrollTop];
  return (x, y) => {
    if (board?.scrollTop !== scrolled) [boxes, scrolled] = [measured(), board?.scrollTop];
    return boxes.find(({ box }) => box.left <= x && x < box.right && box.top <= y && y < box.bottom)?.row;
  };
}
