import { useSyncExternalStore } from 'react';
import type { PlainError } from '#core/shared/errors.ts';
import type { JobId } from '#core/shared/ids.ts';
import type { ChangeCheck, MoveCheck, PlanFault } from '#core/shared/views/plan.ts';
import type { Held } from './held.ts';

export type Check = MoveCheck | ChangeCheck;
/** The car that a block may be swapped with, where that breaks no rule; its people's questions, and where both would lie. */
export type SwapWith = {
  readonly who: string;
  readonly asks: readonly PlanFault[];
  readonly lands: Extract<ChangeCheck, { ok: true }>['lands'];
};
/** What the core said to a block as it is held in `to`. */
export type Answered = {
  readonly to: Held;
  readonly check: Check | null;
  readonly swapWith: SwapWith | null;
  readonly error: PlainError | null;
  /** It is asked again: a write or the clock may have made it another, so that nothing is agreed to by it. */
  readonly again?: boolean;
};
/** Dropped before the core had answered; on its way into the file; or there, and not on the board that is shown. */
export type Dropped = 'waits' | 'sent' | { readonly planRevision: number };

/** What is in hand over the board. */
export type Hand = {
  readonly lifted: Held | null;
  readonly answer: Answered | null;
  readonly dropped: Dropped | null;
  /** Why the last drop came to nothing: a rule or somebody's consent, or it would lie where nobody had seen it. */
  readonly stayed: 'no' | 'elsewhere' | null;
};
export const EMPTY: Hand = { lifted: null, answer: null, dropped: null, stayed: null };

/**
 * The hand lies outside what React draws: each step of a drag draws the outline and the words about it, and nothing else of
 * the board.
 */
export type HandStore = {
  readonly get: () => Hand;
  readonly put: (part: Partial<Hand>) => void;
  readonly subscribe: (tell: () => void) => () => void;
};

export function handStore(): HandStore {
  let hand = EMPTY;
  const listeners = new Set<() => void>();
  return {
    get: () => hand,
    put: (part) => {
      hand = { ...hand, ...part };
      for (const tell of listeners) tell();
    },
    subscribe: (tell) => {
      listeners.add(tell);
      return () => listeners.delete(tell);
    },
  };
}

/** A part of the hand; draws again only when that part is another one. */
export function useHeld<T>(store: HandStore, part: (hand: Hand) => T): T {
  return useSyncExternalStore(store.subscribe, () => part(store.get()));
}

/** The answer to the block exactly as it is held, on the board as it is now. */
export function freshOf({ lifted, answer }: Hand): Answered | null {
  return answer !== null && answer.to === lifted && answer.again !== true ? answer : null;
}

/** What was dropped is in the file and waits for the board that shows it: the next car may be taken in hand. */
export function isWritten({ dropped }: Hand): boolean {
  return dropped !== null && typeof dropped === 'object';
}

/** Whether it is this car that is in hand: while a change is on its way into the file no other one is lifted. */
export function holds({ lifted }: Hand, jobId: JobId): boolean {
  return lifted?.from.jobId === jobId;
}

/**
 * Does it now, or once what is on its way into the file is there. Where that is refused it is left: what was meant is the
 * change that was not made, and no other one.
 */
export function onceWritten(store: Pick<HandStore, 'get' | 'subscribe'>, act: () => void): void {
  if (store.get().dropped !== 'sent') {
    act();
    return;
  }
  const leave = store.subscribe(() => {
    const { dropped, lifted } = store.get();
    if (dropped === 'sent') return;
    leave();
    // Once the change is known to the screen too.
    if (dropped !== null || lifted === null) setTimeout(act);
  });
}

/** What is shown of the last answer. */
export function shownOf(hand: Hand): Check | null {
  const { lifted, answer } = hand;
  if (!lifted || answer?.to.mode !== lifted.mode) return null;
  return checkShown(answer.check, freshOf(hand) !== null);
}

/**
 * What is shown of an answer. One to the place before stays while it is a yes, so that a drag does not flicker; but what it
 * said has to be agreed says nothing of this place, and a no says nothing at all.
 */
export function checkShown<T extends Check>(answer: T | null, isFresh: boolean): T | null {
  if (!answer || isFresh) return answer;
  return answer.ok ? { ...answer, needsConsent: [] } : null;
}
