import { useEffect, useRef, useState } from 'react';
import type { BoardView } from '#core/shared/views/bays.ts';
import { useQuery } from '../../bridge/queries.ts';
import { changeAsk, moveAsk, swapAsk } from './asks.ts';
import type { HandStore } from './hand.ts';
import { type Held, swapTarget } from './held.ts';
import type { Hands } from './useHands.ts';

/** A hand that stays over one place for so long asks about it; what it only passes is not asked about. */
const REST_MS = 150;

/** Asks the core about the block where it is held, and tells the hand; draws nothing. */
export function Asking({ hands, board }: { readonly hands: Hands; readonly board: BoardView }): null {
  const [isAsking, setAsking] = useState(false);
  const rested = useRested(hands, isAsking);
  const moving = rested?.mode === 'block' || rested?.mode === 'whole';
  const move = useQuery('bays.checkMove', moveAsk(rested), { when: moving });
  const change = useQuery('bays.checkChange', changeAsk(rested), { when: rested !== null && !moving });
  const { data, error, asking } = moving ? move : change;
  const target = rested && data?.ok === false ? swapTarget(board, rested) : null;
  const swap = useQuery('bays.checkChange', swapAsk(rested, target), { when: target !== null });
  useEffect(() => setAsking(asking || swap.asking), [asking, swap.asking]);
  const swapped = target && swap.data?.ok && !swap.asking ? swap.data : null;
  const code = error?.code;
  // biome-ignore lint/correctness/useExhaustiveDependencies: an error is another object each time it is read
  useEffect(() => {
    if (rested && asking) hands.askedAgain(rested);
    if (!rested || asking || (!data && !error)) return;
    const swapWith =
      target && swapped ? { who: target.who, asks: swapped.needsConsent, lands: swapped.lands } : null;
    hands.answered({ to: rested, check: data ?? null, swapWith, error });
  }, [hands, rested, data, code, asking, swapped]);
  return null;
}

/**
 * What is held, once the hand rests or has let go. One question at a time: a hand that is quicker than the answers asks about
 * where it is when the last one came. A drop does not wait for that.
 */
function useRested(store: HandStore, asking: boolean): Held | null {
  const [rested, setRested] = useState<Held | null>(() => store.get().lifted);
  const busy = useRef(asking);
  const late = useRef(false);
  useEffect(() => {
    busy.current = asking;
    if (asking || !late.current) return;
    late.current = false;
    setRested(store.get().lifted);
  }, [store, asking]);
  useEffect(() => {
    let seen: Held | null = null;
    let timer: ReturnType<typeof setTimeout> | undefined;
    const rest = (): void => {
      if (busy.current) late.current = true;
      else setRested(seen);
    };
    const look = (): void => {
      const { lifted, dropped } = store.get();
      if (lifted === seen && dropped !== 'waits') return;
      seen = lifted;
      late.current = false;
      clearTimeout(timer);
      if (lifted === null || dropped === 'waits') setRested(lifted);
      else timer = setTimeout(rest, REST_MS);
    };
    look();
    const leave = store.subscribe(look);
    return () => {
      leave();
      clearTimeout(timer);
    };
  }, [store]);
  return rested;
}
