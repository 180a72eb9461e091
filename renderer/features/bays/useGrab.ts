import { type PointerEvent, type RefObject, useCallback } from 'react';
import type { BayId, PersonId } from '#core/shared/ids.ts';
import type { BlockView } from '#core/shared/views/bays.ts';
import type { TimeScale } from '../../ui/time/scale.ts';
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
  const rows = rowsBeside(field);
  const timeAt = (x: number): number => scale.back((x - box.left) / box.width);
  const by = down.target instanceof HTMLElement && down.target.dataset['edge'] ? 'edge' : 'block';
  const held = own(hands, block);
  const cutting = held?.mode === 'split';
  // A whole job that is in hand is carried on as that; by its outline, from where it is held.
  const carried = by === 'block' && held?.mode === 'whole';
  const fromMin = held && down.currentTarget.dataset['ghost'] ? held.startMin : first.startMin;
  const grabbedAt = timeAt(down.clientX);
  const follow = (e: globalThis.PointerEvent): void => {
    const t = timeAt(e.clientX);
    const row = rowUnder(rows, e.clientX, e.clientY);
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
    end: () => (cutting ? undefined : hands.drop()),
  });
}

/** What is in hand of a block's car and not on its way into the file. */
function own(hands: Hands, block: BlockView): Held | null {
  const { lifted, dropped } = hands.get();
  return dropped === null && lifted?.from.jobId === block.jobId ? lifted : null;
}

/** Follows the pointer from a press to its release; without moving it stays a press. */
function drag(
  down: PointerEvent,
  to: {
    readonly start: () => void;
    readonly follow: (e: globalThis.PointerEvent) => void;
    readonly press: () => void;
    readonly end: () => void;
  },
): void {
  let moved = false;
  const onMove = (e: globalThis.PointerEvent): void => {
    if (!moved && Math.hypot(e.clientX - down.clientX, e.clientY - down.clientY) < SLACK_PX) return;
    if (!moved) to.start();
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

/** The rows of bays and people that lie beside a field. */
function rowsBeside(field: HTMLElement): readonly HTMLElement[] {
  return [...(field.parentElement?.querySelectorAll<HTMLElement>('[data-bay],[data-who]') ?? [])];
}

/** The row under the pointer. Asking the page what lies there would try every car on the board, at each step. */
function rowUnder(rows: readonly HTMLElement[], x: number, y: number): HTMLElement | undefined {
  return rows.find((row) => {
    const { left, right, top, bottom } = row.getBoundingClientRect();
    return left <= x && x < right && top <= y && y < bottom;
  });
}
