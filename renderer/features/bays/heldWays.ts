import { dayTimeFrom } from '#core/shared/text/when.ts';
import type { NearPlace, PlanFault } from '#core/shared/views/plan.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { freshOf, type Hand, shownOf } from './hand.ts';
import { HELD_MODES, type Held, lastAttended, worthSplitting } from './held.ts';
import type { Hands } from './useHands.ts';

export type Way = { readonly keys: string; readonly label: string; readonly run: () => void };
const KEYS = { block: 'M', whole: 'J', split: 'S', resize: 'R' } as const;

export function isMoving({ mode }: Held): boolean {
  return mode === 'block' || mode === 'whole';
}

/** What has to be agreed to where it is held. */
export function asksOf(hand: Hand): readonly PlanFault[] {
  const check = shownOf(hand);
  return check?.ok ? check.needsConsent : [];
}

/** The hand as far as what can be pressed hangs on it: the same one while only the place changes where it is held. */
export function waysHangOn(): (hand: Hand) => Hand {
  let last: Hand | null = null;
  const same = (a: Hand, b: Hand): boolean =>
    a.answer === b.answer &&
    a.dropped === b.dropped &&
    (freshOf(a) === null) === (freshOf(b) === null) &&
    a.lifted?.mode === b.lifted?.mode &&
    a.lifted?.from === b.lifted?.from &&
    a.lifted?.piece === b.lifted?.piece;
  return (hand) => {
    if (last === null || !same(last, hand)) last = hand;
    return last;
  };
}

/** What can be pressed now: places that work, a swap, consent, the other things a block can be held for, putting it back. */
export function useWays(hands: Hands, hand: Hand, nowMs: number): readonly Way[] {
  const t = useText();
  const places = usePlaces(hands, hand, nowMs);
  const { lifted, dropped } = hand;
  if (!lifted || dropped !== null) return [];
  const check = shownOf(hand);
  const asks = asksOf(hand).length > 0;
  const swapWith = check?.ok === false ? freshOf(hand)?.swapWith : null;
  const swapAsks = (swapWith?.asks.length ?? 0) > 0;
  const can = {
    block: true,
    whole: true,
    split: worthSplitting(lifted.from),
    resize: lastAttended(lifted.from),
  };
  const way = (keys: string, label: string, run: () => void): Way => ({ keys, label, run });
  return [
    ...(check?.ok && !asks ? [way('Enter', t(`bays.drop.${lifted.mode}`), () => hands.drop())] : []),
    ...places,
    ...(swapWith
      ? [
          way('X', t(swapAsks ? 'bays.swapAgreed' : 'bays.swapWith', { who: swapWith.who }), () =>
            hands.swap(swapAsks),
          ),
        ]
      : []),
    ...(asks ? [way('Y', t('bays.agreed'), () => hands.drop(true))] : []),
    ...HELD_MODES.filter((mode) => mode !== lifted.mode && can[mode]).map((mode) =>
      way(KEYS[mode], t(`bays.mode.${mode}`), () => hands.turn(mode)),
    ),
    way('Esc', t('bays.putBack'), hands.putBack),
  ];
}

/** Places that work where it is refused, for the block alone or with its whole job; of a cut or an end, minutes that do. */
function usePlaces(hands: Hands, hand: Hand, nowMs: number): readonly Way[] {
  const t = useText();
  const manner = useManner();
  const check = shownOf(hand);
  const { lifted } = hand;
  if (!lifted || check?.ok !== false) return [];
  const at = (min: number): string => dayTimeFrom(manner, min * 60_000, nowMs);
  const moving = isMoving(lifted);
  const label = (n: NearPlace, whole: boolean): string => {
    if (!moving) return t('bays.minuteAt', { at: at(n.startMin) });
    const when = { at: at(n.lands.startMin), end: at(n.lands.endMin) };
    return t('bays.placeAt', { bay: n.bayName, ...when, asks: n.asks ? 1 : 0, whole: whole ? 1 : 0 });
  };
  const take = (n: NearPlace, whole: boolean): void => {
    if (whole) hands.turn('whole');
    if (moving) hands.hold(n.bayId, n.startMin);
    else hands.mark(n.startMin, lifted.piece);
  };
  const all = [
    ...check.nearest.map((place) => ({ place, whole: false })),
    ...('whole' in check ? check.whole : []).map((place) => ({ place, whole: true })),
  ];
  return all.map(({ place, whole }, i) => ({
    keys: String(i + 1),
    label: label(place, whole),
    run: () => take(place, whole),
  }));
}
