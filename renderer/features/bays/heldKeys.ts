import type { KeyboardEvent } from 'react';
import { isWritten } from './hand.ts';
import type { Hands } from './useHands.ts';

type Pressed = Pick<KeyboardEvent, 'key' | 'shiftKey' | 'preventDefault' | 'stopPropagation'>;

/** Keys of the block in hand: arrows hold it elsewhere, Enter does it, Esc puts it back. */
export function heldKeys(event: Pressed, hands: Hands): void {
  const hand = hands.get();
  if (!hand.lifted || (event.key === 'Enter' && isWritten(hand))) return;
  const steps: Readonly<Record<string, readonly [number, number]>> = {
    ArrowLeft: [-1, 0],
    ArrowRight: [1, 0],
    ArrowUp: [0, -1],
    ArrowDown: [0, 1],
  };
  const step = steps[event.key];
  if (step) hands.step(step[0] * (event.shiftKey ? 4 : 1), step[1]);
  else if (event.key === 'Enter') hands.drop();
  else if (event.key === 'Escape') hands.putBack();
  else return;
  event.preventDefault();
  event.stopPropagation();
}
