import { useSyncExternalStore } from 'react';
import type { JobId } from '#core/shared/ids.ts';

/** The job in hand at this window and those laid down. It stays while the person walks between places. */
export type Hand = { readonly current: JobId | null; readonly laidDown: readonly JobId[] };

const KEY = 'rakelight.hand';
const MOST = 8;
const listeners = new Set<() => void>();
let hand: Hand = kept();

function kept(): Hand {
  try {
    const found = JSON.parse(sessionStorage.getItem(KEY) ?? 'null') as Hand | null;
    return found ?? { current: null, laidDown: [] };
  } catch {
    return { current: null, laidDown: [] };
  }
}
function put(next: Hand): void {
  hand = next;
  sessionStorage.setItem(KEY, JSON.stringify(next));
  for (const tell of listeners) tell();
}

/** Takes a job in hand; the one before is laid down beside it. */
export function takeInHand(job: JobId): void {
  if (hand.current === job) return;
  const down = hand.current === null ? hand.laidDown : [hand.current, ...hand.laidDown];
  put({ current: job, laidDown: down.filter((one) => one !== job).slice(0, MOST) });
}

/** Lays the job down, or, with none in hand, picks the last one up again. */
export function layDownOrPickUp(): void {
  if (hand.current !== null)
    put({ current: null, laidDown: [hand.current, ...hand.laidDown].slice(0, MOST) });
  else if (hand.laidDown[0]) takeInHand(hand.laidDown[0]);
}

/** Lets go of a job altogether: it is finished here, or was cancelled. */
export function letGo(job: JobId): void {
  put({
    current: hand.current === job ? null : hand.current,
    laidDown: hand.laidDown.filter((one) => one !== job),
  });
}

export function useHand(): Hand {
  return useSyncExternalStore(
    (tell) => {
      listeners.add(tell);
      return () => listeners.delete(tell);
    },
    () => hand,
  );
}
